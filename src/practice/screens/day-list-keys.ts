/** Today's list by hand: found by typing, put in order, as on another day, kept as a routine. Each change is kept. */
import { weekdayOf, dayPlus } from '../../common/days.ts';
import { BREAK, type ListItem } from '../../diary/entry.ts';
import { LONGEST } from '../../plan/file/written-limits.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { foundExercises } from '../../plan/today/find-exercises.ts';
import { dayBefore, handItems, isDone, listAsOn, listEntryOf, listItemOf } from '../../plan/today/hand-list.ts';
import { act, begin, stop } from '../sitting/sitting.ts';
import { putAtEnd } from '../sitting/added-by-hand.ts';
import type { ListAction, Stand, StandStep, View } from '../stand.ts';
import { andThen, keep, say, step } from '../step.ts';
import type { HandAction } from './own-asked.ts';
import { newTitled } from './own-form-keys.ts';
import { handRoutineOf, knownToday, listToday, planned } from './today-keys.ts';

export type ListView = Extract<View, { readonly screen: 'list' }>;

const opened = (under: View | null, doing: ListView['doing']): ListView => ({
  screen: 'list',
  doing,
  row: 0,
  typed: '',
  found: 0,
  asOn: null,
  under,
});

/** From Today: an empty list begins with looking for something. */
export const openList = (stand: Stand): Stand => ({
  ...stand,
  view: { ...opened(null, listToday(stand).length === 0 ? 'find' : 'order'), row: firstOpen(stand) },
});

/** While a sitting runs: clock and sound stop, and something is looked for. */
export const lookForMore = (stand: Stand): StandStep =>
  andThen(
    andThen(stop(stand), (silent) => act(silent, 'pause')),
    (quiet) => step({ ...quiet, view: opened(quiet.view, 'find') }),
  );

const withView = (stand: Stand, view: ListView, change: Partial<ListView>): Stand => ({
  ...stand,
  view: { ...view, ...change },
});

export const foundNow = (stand: Pick<Stand, 'known'>, { typed }: ListView): readonly Exercise[] =>
  foundExercises(stand.known.exercises, typed);

/** The new list on its way to the disk; what shows is what is there. */
const kept = (stand: Stand, view: ListView, items: readonly ListItem[], change: Partial<ListView>): StandStep =>
  step(withView(stand, view, change), keep({ kind: 'list', items }));

function addToList(stand: Stand, view: ListView, exercise: Exercise): StandStep {
  const list = listToday(stand);
  const next = view.typed === '' ? Math.min(view.found + 1, foundNow(stand, view).length - 1) : 0;
  return kept(stand, view, [...list, listItemOf(exercise)], { row: list.length, typed: '', found: next });
}

/** What nothing is called like is written as an exercise of one's own. */
const writeNew = (stand: Stand, { typed }: ListView): StandStep => newTitled(stand, typed.trim());

function addFound(stand: Stand, view: ListView): StandStep {
  const exercise = foundNow(stand, view)[view.found];
  if (!exercise) return view.under || view.typed.trim() === '' ? step(stand) : writeNew(stand, view);
  if (!view.under) return addToList(stand, view, exercise);
  return putAtEnd({ ...stand, view: view.under }, listItemOf(exercise));
}

const toToday = (stand: Stand): Stand => planned({ ...stand, view: { screen: 'today' } });

const back = (stand: Stand, { under }: ListView): Stand => (under ? { ...stand, view: under } : toToday(stand));

function leaveFinding(stand: Stand, view: ListView): StandStep {
  if (view.typed !== '') return step(withView(stand, view, { typed: '', found: 0 }));
  const isList = !view.under && listToday(stand).length > 0;
  return step(isList ? toOrder(stand, view) : back(stand, view));
}

/** Where one would begin to play: the first thing that is not done. */
function firstOpen(stand: Stand): number {
  const before = knownToday(stand);
  const items = handItems(listToday(stand), stand.known.exercises, before);
  return Math.max(
    0,
    items.findIndex((item) => !isDone(item, before)),
  );
}

const toOrder = (stand: Stand, view: ListView): Stand =>
  withView(stand, view, { doing: 'order', typed: '', found: 0, row: firstOpen(stand) });

function moveFound(stand: Stand, view: ListView, by: number): StandStep {
  const all = foundNow(stand, view).length;
  return step(withView(stand, view, { found: all === 0 ? 0 : (view.found + by + all) % all }));
}

type ListKey = (stand: Stand, view: ListView) => StandStep;

const FIND: Readonly<Record<string, ListKey>> = {
  up: (stand, view) => moveFound(stand, view, -1),
  down: (stand, view) => moveFound(stand, view, 1),
  enter: addFound,
  // A pedal puts in what is there, or goes on to the next, as in every list.
  pagedown: addFound,
  pageup: (stand, view) => moveFound(stand, view, 1),
  escape: leaveFinding,
  tab: (stand, view) => step(view.under ? stand : toOrder(stand, view)),
};

function chooseRow(stand: Stand, view: ListView, by: number): StandStep {
  const all = listToday(stand).length;
  return step(withView(stand, view, { row: all === 0 ? 0 : (view.row + by + all) % all }));
}

function move(stand: Stand, view: ListView, by: number): StandStep {
  const list = listToday(stand);
  const [here, there] = [list[view.row], list[view.row + by]];
  if (!here || !there) return step(stand);
  return kept(stand, view, list.with(view.row, there).with(view.row + by, here), { row: view.row + by });
}

function remove(stand: Stand, view: ListView): StandStep {
  const list = listToday(stand);
  if (list.length === 0) return step(stand);
  return kept(stand, view, list.toSpliced(view.row, 1), { row: Math.max(0, Math.min(view.row, list.length - 2)) });
}

const MOST_MINUTES = 240;

function minutes(stand: Stand, view: ListView, by: number): StandStep {
  const list = listToday(stand);
  const here = list[view.row];
  if (!here) return step(stand);
  const length = Math.min(MOST_MINUTES, Math.max(1, Math.round(here.length / 60) + by)) * 60;
  return kept(stand, view, list.with(view.row, { ...here, length }), {});
}

const dayWords = (day: string): string => `${weekdayOf(day)}, ${day}`;

/** As on another day; the list that was there can be had back with u. */
function takeUp(stand: Stand, view: ListView, day: string | null): StandStep {
  const items = day === null ? [] : listAsOn(stand.known.records, day, stand.known);
  if (day === null || items.length === 0) return step(stand, say('There is nothing to take up from then.'));
  return andThen(kept(stand, view, items, { row: 0, asOn: day }), (so) => step(so, say(`As on ${dayWords(day)}.`)));
}

/** As yesterday, or as on the last day there is; again, as on the day before that. */
const asBefore: ListKey = (stand, view) =>
  takeUp(stand, view, dayBefore(stand.known.records, view.asOn ?? stand.known.today, stand.known));

/** As a week ago: on Tuesday, as last Tuesday. */
const asLastWeek: ListKey = (stand, view) => takeUp(stand, view, dayPlus(stand.known.today, -7));

/** What Today proposes, as a list to change. */
function takeProposal(stand: Stand, view: ListView): StandStep {
  const { plan } = planned({ ...stand, day: { ...stand.day, byHand: false } }).day;
  const items = (plan?.items ?? []).flatMap(({ block, exercise, title, minutes: m }) =>
    block === BREAK ? [] : [{ exercise, title, length: Math.round(m * 60) }],
  );
  return items.length === 0 ? step(stand, say('Nothing is proposed today.')) : kept(stand, view, items, { row: 0 });
}

function undo(stand: Stand, view: ListView): StandStep {
  const last = listEntryOf(stand.known.records, stand.known.today);
  return last ? step(withView(stand, view, { row: 0 }), keep({ kind: 'undo', of: last.id })) : step(stand);
}

/** Played from the thing under the finger on. */
const play: ListKey = (stand, { row }) => {
  const today = toToday({ ...stand, day: { ...stand.day, byHand: true } });
  return listToday(stand).length === 0 ? step(stand) : begin({ ...today, day: { ...today.day, row } });
};

const nothingYet = 'There is nothing in the list yet.';

const beginName: ListKey = (stand, view) =>
  listToday(stand).length === 0
    ? step(stand, say(nothingYet))
    : step(withView(stand, view, { doing: 'name', typed: '' }));

const find: ListKey = (stand, view) => step(withView(stand, view, { doing: 'find', typed: '', found: 0 }));

type OrderAction = HandAction | ListAction | 'undo' | 'back';

/** What is done to the list while it is put in order. */
export const HAND: Readonly<Record<OrderAction, ListKey>> = {
  up: (stand, view) => chooseRow(stand, view, -1),
  down: (stand, view) => chooseRow(stand, view, 1),
  open: play,
  find,
  'take-out': remove,
  'move-up': (stand, view) => move(stand, view, -1),
  'move-down': (stand, view) => move(stand, view, 1),
  'minute-more': (stand, view) => minutes(stand, view, 1),
  'minute-less': (stand, view) => minutes(stand, view, -1),
  'as-before': asBefore,
  'as-last-week': asLastWeek,
  'as-proposed': takeProposal,
  undo,
  'keep-list': beginName,
  back: (stand) => step(toToday(stand)),
};

function keepName(stand: Stand, view: ListView): StandStep {
  const title = view.typed.trim();
  if (title === '') return step(stand, say('Write a name for it.'));
  const { instrument } = handRoutineOf(stand);
  const asked = { do: 'routine', title, instrument, items: listToday(stand) } as const;
  return step(withView(stand, view, { doing: 'order', typed: '' }), { type: 'own', asked });
}

const NAME: Readonly<Record<string, ListKey>> = {
  enter: keepName,
  escape: (stand, view) => step(withView(stand, view, { doing: 'order', typed: '' })),
};

const lettersOf = (text: string): readonly string[] => [...text];

/** A letter of what is looked for, or of the name. */
function typeLetter(stand: Stand, view: ListView, key: string): StandStep {
  if (key === 'backspace')
    return step(withView(stand, view, { typed: lettersOf(view.typed).slice(0, -1).join(''), found: 0 }));
  const letter = key === 'space' ? ' ' : key;
  const fits = [...letter].length === 1 && lettersOf(view.typed).length < LONGEST.title && !/\p{Cc}/u.test(letter);
  return step(fits ? withView(stand, view, { typed: view.typed + letter, found: 0 }) : stand);
}

/** One key while something is looked for, or the list's name is written. */
export function typeInList(stand: Stand, view: ListView, key: string): StandStep {
  const named = (view.doing === 'find' ? FIND : NAME)[key];
  return named ? named(stand, view) : typeLetter(stand, view, key);
}
