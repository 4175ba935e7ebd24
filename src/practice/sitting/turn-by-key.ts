/** The player asks for another turn inside a block: the next key, another way of tonguing, another draw, a cell. */
import { type TurnAsked, turnAskedFor } from '../../plan/rotation/next-turn.ts';
import { type TurnWish, turnWished } from '../../plan/rotation/turns-ahead.ts';
import { type Turn, turnName } from '../../plan/rotation/turn.ts';
import type { Practice } from '../line/line-on-stand.ts';
import { type Stand, type StandStep, type Tone, type TurnAction, type Work, withWork, workOf } from '../stand.ts';
import { andThen, say, step } from '../step.ts';
import { keepLaid, keepTurn } from './keys-that-came.ts';
import { changedTo, turnAsked, turnOf } from './next-key.ts';
import { changedTone, exerciseNow, narrowedNow } from './sitting.ts';

const WISHES: Readonly<Record<TurnAction, TurnWish>> = {
  'key-before': 'key before',
  'key-after': 'key after',
  articulation: 'articulation',
  'another-draw': 'another',
};

const NO_OTHER: Readonly<Record<TurnWish, string>> = {
  'key before': 'There is one key here.',
  'key after': 'There is one key here.',
  articulation: 'There is one way of tonguing here.',
  another: 'There is one key and one way of tonguing here.',
};

/** Why the turn cannot change now; null where it can. */
function whyNot({ way, awaited, due }: Practice): string | null {
  if (way) return 'A way round a wall is being played; v goes back to the ladder.';
  if (due?.early) return 'The mark counts at the end of this repetition; change then, or u takes it back.';
  return awaited ? '' : null;
}

/** What comes round for the line on the stand. */
export const askedHere = (stand: Stand, { practice }: Pick<Work, 'practice'>): TurnAsked =>
  turnAsked(stand.known, practice.exercise, narrowedNow(stand));

/** A repetition that was not marked is dropped, as it is by a nudge: it is said, and nothing of it is kept. */
const dropped = ({ due }: Practice) => (due ? [say('The last repetition was not marked.')] : []);

/** This turn on the stand in place of the line that lies there; the clock runs on, and the click goes with it. */
export function layOnStand(stand: Stand, work: Work, turn: Turn): StandStep {
  const { practice } = work;
  const no = whyNot(practice);
  if (no !== null) return step(stand, ...(no ? [say(no)] : []));
  if (turnName(turnOf(practice)) === turnName(turn)) return step(stand);
  const due = turnAskedFor(askedHere(stand, work), turn);
  const quiet: Work = { ...work, practice: { ...practice, happened: null } };
  const { place } = narrowedNow(stand);
  const { state, effects } = changedTo(stand, quiet, { ...due, place }, keepTurn(practice.exercise, due.name));
  return step(state, ...keepLaid(practice.exercise, due.name), ...effects, ...dropped(practice));
}

function onLine(stand: Stand, work: Work, wish: TurnWish): StandStep {
  const now = turnOf(work.practice);
  const turn = turnWished(askedHere(stand, work), now, wish, work.passed);
  if (!turn) return step(stand, say(NO_OTHER[wish]));
  const passed = wish === 'another' ? [...work.passed, turnName(now)] : [];
  return andThen(layOnStand(stand, work, turn), (state) => step(withWork(state, (next) => ({ ...next, passed }))));
}

function onTone(stand: Stand, tone: Tone, wish: TurnWish): StandStep {
  const exercise = exerciseNow(stand);
  if (!exercise) return step(stand);
  const asked = turnAsked(stand.known, exercise, narrowedNow(stand));
  const turn = turnWished(asked, { ...tone.line, fingering: 'ordinary' }, wish, []);
  return turn ? changedTone(stand, tone, turnAskedFor(asked, turn)) : step(stand, say(NO_OTHER[wish]));
}

/** Another turn by one key. */
export function changeTurn(stand: Stand, action: TurnAction): StandStep {
  const { view } = stand;
  const work = workOf(stand);
  if (work) return onLine(stand, work, WISHES[action]);
  if (view.screen !== 'block') return step(stand);
  return view.tone ? onTone(stand, view.tone, WISHES[action]) : step(stand, say('This block has no keys to change.'));
}

export const isTurnAction = (action: string): action is TurnAction => Object.hasOwn(WISHES, action);
