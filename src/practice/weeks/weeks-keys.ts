/** Keys of the weeks: turn the pages, find a line, look at it over time, put it on the stand. */
import { ALL_KEYS, type Line, lineName } from '../../ladder/line.ts';
import { type Exercise, type Kind, KINDS } from '../../plan/routine/exercise.ts';
import { listItemOf } from '../../plan/today/hand-list.ts';
import type { Matter } from '../../review/weeks-sentences.ts';
import type { Standing } from '../../review/standing.ts';
import { putOnStand } from '../sitting/put-on-stand.ts';
import type { Action, Stand, StandStep, View } from '../stand.ts';
import { keep, say, step } from '../step.ts';
import { listToday } from '../screens/today-keys.ts';
import { askForWay } from '../screens/ways-keys.ts';
import { cellHere, coverageKeys, coverageRows, sentencesNow, standingHere, standingsShown } from './weeks-lines.ts';
import { EVERYTHING, type Only, PAGES, type WeeksPage, type WeeksPlace } from './weeks-place.ts';

export type WeeksView = Extract<View, { readonly screen: 'weeks' }>;
type WeeksKey = (stand: Stand, view: WeeksView) => StandStep;

/** The weeks as they were left. */
export const openWeeks = (stand: Stand): Stand => ({ ...stand, view: { screen: 'weeks', ...stand.weeks } });

const at = (stand: Stand, _: WeeksView, change: Partial<WeeksPlace>): StandStep =>
  step(openWeeks({ ...stand, weeks: { ...stand.weeks, ...change } }));

const toPage =
  (page: WeeksPage): WeeksKey =>
  (stand, view) =>
    at(stand, view, { page: view.page === page ? 'lines' : page, isTyping: false });

function turnPage(stand: Stand, view: WeeksView): StandStep {
  const now = PAGES.findIndex((page) => page === view.page);
  return at(stand, view, { page: PAGES[(now + 1) % PAGES.length] ?? 'lines' });
}

const within = (n: number, length: number): number => Math.max(0, Math.min(n, length - 1));

/** The cell above or below; one row after the other. */
const moveCell = (stand: Stand, view: WeeksView, rows: number, keys: number): StandStep =>
  at(stand, view, {
    cell: {
      row: within(view.cell.row + rows, coverageRows(stand.known).length),
      key: within(view.cell.key + keys, coverageKeys(stand.known).length),
    },
  });

function move(stand: Stand, view: WeeksView, by: number): StandStep {
  if (view.page === 'coverage') return moveCell(stand, view, by, 0);
  const row = within(view.row + by, standingsShown(stand.known, view).length);
  if (view.page !== 'line') return at(stand, view, { row });
  const standing = standingsShown(stand.known, view)[row];
  return at(stand, view, { row, line: standing ? lineName(standing.line) : view.line });
}

const moveKey = (stand: Stand, view: WeeksView, by: number): StandStep =>
  view.page === 'coverage' ? moveCell(stand, view, 0, by) : step(stand);

const NOT_THERE = 'Its exercise is in no routine any more; what was played of it stays in the journal.';

/** A shared ladder sounds in the exercise's first key. */
function laid(stand: Stand, exercise: Exercise, line: Line): Stand {
  const key = line.key === ALL_KEYS ? (exercise.keys[0] ?? line.key) : line.key;
  return putOnStand(stand, exercise, { line: { ...line, key }, key }, null);
}

function layStanding(stand: Stand, standing: Standing | null): StandStep {
  if (!standing) return step(stand);
  return standing.exercise ? step(laid(stand, standing.exercise, standing.line)) : step(stand, say(NOT_THERE));
}

function layCell(stand: Stand, view: WeeksView): StandStep {
  const cell = cellHere(stand.known, view);
  return cell ? step(laid(stand, cell.exercise, cell.line)) : step(stand, say('This exercise is not in that key.'));
}

const aboutOf = (stand: Stand, matter: Matter): Standing | null =>
  sentencesNow(stand.known).find((one) => one.matter === matter)?.standing ?? null;

/** On the page of lines the key is the sentence's: what waits. */
function layOnStand(stand: Stand, view: WeeksView): StandStep {
  if (view.page === 'coverage') return layCell(stand, view);
  return view.page === 'minutes' ? step(stand) : layStanding(stand, standingHere(stand.known, view));
}

function showOverTime(stand: Stand, view: WeeksView, standing: Standing | null): StandStep {
  if (!standing) return step(stand);
  const row = standingsShown(stand.known, view).indexOf(standing);
  return at(stand, view, { page: 'line', line: lineName(standing.line), row: row === -1 ? view.row : row });
}

function open(stand: Stand, view: WeeksView): StandStep {
  if (view.page === 'coverage') return layCell(stand, view);
  if (view.page === 'line') return layOnStand(stand, view);
  return view.page === 'minutes' ? step(stand) : showOverTime(stand, view, standingHere(stand.known, view));
}

/** Ways round the wall of the line that is looked at, or of the one that is stuck. */
function ways(stand: Stand, view: WeeksView): StandStep {
  const standing = view.page === 'line' ? standingHere(stand.known, view) : aboutOf(stand, 'Stuck');
  if (!standing) return step(stand, say('No line stands before a wall.'));
  if (!standing.exercise) return step(stand, say(NOT_THERE));
  return askForWay(laid(stand, standing.exercise, standing.line));
}

/** What waits longest, on the stand. */
const layWaiting: WeeksKey = (stand) => {
  const standing = aboutOf(stand, 'Waits');
  return standing ? layStanding(stand, standing) : step(stand, say('No line waits.'));
};

const showGrowing: WeeksKey = (stand, view) => {
  const standing = aboutOf(stand, 'Grows');
  return standing ? showOverTime(stand, view, standing) : step(stand, say('No gain is sure yet.'));
};

/** The exercise of what is under the finger, at the end of today's list. */
function putInList(stand: Stand, view: WeeksView): StandStep {
  const cell = view.page === 'coverage' ? cellHere(stand.known, view) : null;
  const exercise = cell?.exercise ?? (view.page === 'coverage' ? null : standingHere(stand.known, view)?.exercise);
  if (!exercise || view.page === 'minutes') return step(stand);
  const items = [...listToday(stand), listItemOf(exercise)];
  return step(
    stand,
    keep({ kind: 'list', items }),
    say(`${exercise.title} is in today's list, as number ${items.length}.`),
  );
}

const only = (stand: Stand, view: WeeksView, change: Partial<Only>): StandStep =>
  at(stand, view, { only: { ...view.only, ...change }, row: 0 });

/** The next of these after the one that is shown; after the last all of them. */
function nextOf<T>(all: readonly T[], now: T | null): T | null {
  if (now === null) return all[0] ?? null;
  return all[all.indexOf(now) + 1] ?? null;
}

function oneExercise(stand: Stand, view: WeeksView): StandStep {
  if (view.only.exercise !== null) return only(stand, view, { exercise: null });
  return only(stand, view, { exercise: standingHere(stand.known, view)?.line.exercise ?? null });
}

function oneArticulation(stand: Stand, view: WeeksView): StandStep {
  const shown = standingsShown(stand.known, { ...view, only: { ...view.only, articulation: null } });
  const all = [...new Set(shown.map(({ line }) => line.articulation))].toSorted();
  return only(stand, view, { articulation: nextOf(all, view.only.articulation) });
}

function oneKind(stand: Stand, view: WeeksView): StandStep {
  const shown = standingsShown(stand.known, { ...view, only: { ...view.only, kind: null } });
  const all: readonly Kind[] = KINDS.filter((kind) => shown.some(({ exercise }) => exercise?.kind === kind));
  return only(stand, view, { kind: nextOf(all, view.only.kind) });
}

const find: WeeksKey = (stand, view) => at(stand, view, { page: 'lines', isTyping: true, typed: '', row: 0 });

const KEYS: Readonly<Partial<Record<Action, WeeksKey>>> = {
  up: (stand, view) => move(stand, view, -1),
  down: (stand, view) => move(stand, view, 1),
  'key-before': (stand, view) => moveKey(stand, view, -1),
  'key-after': (stand, view) => moveKey(stand, view, 1),
  open,
  'put-on-stand': layOnStand,
  way: ways,
  waits: layWaiting,
  grows: showGrowing,
  page: turnPage,
  coverage: toPage('coverage'),
  minutes: toPage('minutes'),
  bests: toPage('bests'),
  list: putInList,
  find,
  'one-exercise': oneExercise,
  articulation: oneArticulation,
  'one-kind': oneKind,
};

export const onWeeks = (stand: Stand, view: WeeksView, action: Action): StandStep =>
  KEYS[action]?.(stand, view) ?? step(stand);

/** From a line to the page it was opened from, from a search to all lines; null where the way goes on to Today. */
export function backInWeeks(stand: Stand, view: WeeksView): StandStep | null {
  if (view.page === 'line') return at(stand, view, { page: 'lines' });
  const isNarrow = view.typed !== '' || Object.values(view.only).some((one) => one !== null);
  return isNarrow && view.page !== 'coverage' ? at(stand, view, { typed: '', only: EVERYTHING, row: 0 }) : null;
}

const LONGEST = 40;

/** One key while something is looked for. */
export function typeInWeeks(stand: Stand, view: WeeksView, key: string): StandStep {
  if (key === 'escape') return at(stand, view, { isTyping: false, typed: '', row: 0 });
  if (key === 'enter' || key === 'tab') return at(stand, view, { isTyping: false });
  if (key === 'up' || key === 'down') return move(stand, view, key === 'up' ? -1 : 1);
  if (key === 'backspace') return at(stand, view, { typed: [...view.typed].slice(0, -1).join(''), row: 0 });
  const letter = key === 'space' ? ' ' : key;
  const fits = [...letter].length === 1 && !/\p{Cc}/u.test(letter) && [...view.typed].length < LONGEST;
  return fits ? at(stand, view, { typed: view.typed + letter, row: 0 }) : step(stand);
}
