/** The clock of the present block is started and stopped. */
import { step, toJournal } from './run-steps.ts';
import { type Phase, type Run, type RunStep, current } from './run.ts';

/** What the clock does after 'start', by what it did before. */
const STARTED: Partial<Readonly<Record<Phase, Phase>>> = { ready: 'playing', paused: 'playing', over: 'playing on' };
const PAUSED: Partial<Readonly<Record<Phase, Phase>>> = { playing: 'paused', 'playing on': 'over' };

export function start(run: Run): RunStep {
  const item = current(run);
  const phase = STARTED[run.phase];
  if (item === null || phase === undefined) return step(run);
  const playing: Run = { ...run, phase, remark: '' };
  const begun = run.phase === 'ready' ? toJournal(playing, item, 'started') : [];
  return step(playing, ...begun, { do: 'play' });
}

export function pause(run: Run): RunStep {
  const phase = PAUSED[run.phase];
  return phase === undefined ? step(run) : step({ ...run, phase }, { do: 'still' });
}
