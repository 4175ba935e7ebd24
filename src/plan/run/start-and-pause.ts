/** The clock of the present block is started and stopped. */
import { still, told } from './run-steps.ts';
import { type Phase, type Run, type RunStep, current } from './run.ts';

/** What the clock does after 'start', by what it did before. */
const STARTED: Partial<Readonly<Record<Phase, Phase>>> = { ready: 'playing', paused: 'playing', over: 'playing on' };
const PAUSED: Partial<Readonly<Record<Phase, Phase>>> = { playing: 'paused', 'playing on': 'over' };

export function start(run: Run): RunStep {
  const item = current(run);
  const phase = STARTED[run.phase];
  if (item === null || phase === undefined) return still(run);
  const playing: Run = { ...run, phase, remark: '' };
  const begun = run.phase === 'ready' ? told(playing, item, 'started') : [];
  return { run: playing, effects: [...begun, { do: 'play' }] };
}

export function pause(run: Run): RunStep {
  const phase = PAUSED[run.phase];
  return phase === undefined ? still(run) : { run: { ...run, phase }, effects: [{ do: 'still' }] };
}
