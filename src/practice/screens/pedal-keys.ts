/**
 * A pedal with two buttons carries a whole sitting: forward does what comes next on any screen, back is the other
 * thing there is: the next in a list, missed, the clock stopped, a higher answer to the question.
 */
import type { TensionLevel } from '../../diary/entry.ts';
import { isClockRunning } from '../../plan/run/running-routine.ts';
import { isRunning } from '../line/line-state.ts';
import type { Practice } from '../line/line-on-stand.ts';
import { leftOpen } from '../sitting/sitting.ts';
import { type Action, type Stand, practiceOf, withRun } from '../stand.ts';

export type PedalSide = 'pedal-forward' | 'pedal-back';

export const isPedal = (action: Action): action is PedalSide => action === 'pedal-forward' || action === 'pedal-back';

/** What a button comes to here: one of the keys' actions, with the key's name where that matters. */
interface Meant {
  readonly action: Action;
  readonly key: string;
}

const meant = (action: Action, key = ''): Meant => ({ action, key });

const askedNow = ({ sitting }: Stand) => sitting?.run.asked ?? null;

const isTimeUp = ({ sitting }: Stand): boolean =>
  sitting !== null && (sitting.run.phase === 'over' || sitting.run.phase === 'playing on');

/** An answer that was chosen is kept first; one that was not is passed over. */
function chosenAnswer(stand: Stand): Meant | null {
  const level = askedNow(stand)?.level;
  return level === undefined ? null : meant('tension', `${level}`);
}

/** A repetition that is due is marked; else the answer, the next block, the start. */
function forwardOnLine(stand: Stand, practice: Practice): Meant {
  if (practice.due) return meant('clean');
  const answer = chosenAnswer(stand);
  if (answer) return answer;
  if (isTimeUp(stand)) return meant('next-block');
  return isRunning(practice) ? meant('clean') : meant('start-pause');
}

function forwardOnBlock(stand: Stand): Meant {
  const answer = chosenAnswer(stand);
  if (answer) return answer;
  if (isTimeUp(stand)) return meant('next-block');
  return stand.sitting && isClockRunning(stand.sitting.run) ? meant('breath') : meant('play-block');
}

function forward(stand: Stand): Meant {
  const practice = practiceOf(stand);
  switch (stand.view.screen) {
    case 'today':
      return meant(leftOpen(stand) ? 'go-on' : 'open');
    case 'practice':
      return practice ? forwardOnLine(stand, practice) : meant('open');
    case 'block':
      return forwardOnBlock(stand);
    case 'end':
      return chosenAnswer(stand) ?? meant('back');
    case 'weeks':
      return meant('down');
    case 'settings':
      return meant('back');
    default:
      return meant('open');
  }
}

/** Null where the question's answer is to be raised. */
function back(stand: Stand): Meant | null {
  const asked = askedNow(stand);
  switch (stand.view.screen) {
    case 'practice':
      return asked && !practiceOf(stand)?.due ? null : meant('missed');
    case 'block':
      return asked ? null : meant('pause-block');
    case 'end':
      return null;
    case 'weeks':
      return meant('up');
    case 'grid':
      return meant('cell-after');
    default:
      return meant('down');
  }
}

const HIGHEST: TensionLevel = 4;

/** The answer that the pedal would keep: one higher each time, after the highest none at all again. */
function raised(stand: Stand): Stand {
  const { sitting } = stand;
  const asked = sitting?.run.asked;
  if (!sitting || !asked) return stand;
  const level = asked.level === undefined || asked.level === HIGHEST ? 0 : ((asked.level + 1) as TensionLevel);
  return withRun(stand, { ...sitting.run, asked: { ...asked, level } });
}

/** What the button does: an action of this screen, or the stand with the answer raised. */
export function pedalled(stand: Stand, side: PedalSide): Meant | Stand {
  const does = side === 'pedal-forward' ? forward(stand) : back(stand);
  return does ?? raised(stand);
}

export const isMeant = (does: Meant | Stand): does is Meant => 'action' in does;
