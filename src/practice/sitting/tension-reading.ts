/** How tense the last block was: asked until it is on the disk, and again where the answer is taken back. */
import type { TensionEntry, TensionLevel } from '../../diary/entry.ts';
import type { Run } from '../../plan/run/running-routine.ts';
import { type Stand, type StandStep, withRun } from '../stand.ts';
import { say, step } from '../step.ts';
import { onRun } from './sitting.ts';

type Asked = Run['asked'];

const withAsked = (stand: Stand, asked: Asked): Stand =>
  stand.sitting ? withRun(stand, { ...stand.sitting.run, asked }) : stand;

/** The question stays until the answer is kept. */
export function answerTension(stand: Stand, level: TensionLevel): StandStep {
  const asked = stand.sitting?.run.asked;
  if (!asked) return step(stand);
  const told = onRun(stand, { type: 'tension', level, now: stand.now });
  const answer = say(`${asked.title}: tension ${level} of 4; u takes it back.`);
  return step(withAsked(told.state, asked), ...told.effects, answer);
}

export const tensionKept = (stand: Stand): Stand => withAsked(stand, null);

/** A reading that was taken back can be said anew, unless another block is asked about by now. */
export function tensionAskedAgain(stand: Stand, { exercise }: TensionEntry): Stand {
  const run = stand.sitting?.run;
  const item = run?.items.findLast((one) => one.exercise === exercise && one.played > 0);
  return item && !run?.asked ? withAsked(stand, { title: item.title, exercise }) : stand;
}
