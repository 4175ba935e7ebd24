/** The form of an exercise of the player's own: opened, typed into key by key, kept, or left with a question. */
import type { Exercise } from '../../plan/routine/exercise.ts';
import { formOf } from '../../plan/own/form-of-exercise.ts';
import { mistakesIn } from '../../plan/own/form-mistakes.ts';
import {
  BLANK_FORM,
  CHOICES,
  FIELDS,
  type Field,
  type OwnForm,
  isSameForm,
  nextChoice,
  withField,
} from '../../plan/own/own-form.ts';
import type { Stand, StandStep, View } from '../stand.ts';
import { listItemOf } from '../../plan/today/hand-list.ts';
import { type Effect, andThen, keep, say, step } from '../step.ts';
import { chosen } from './line-choice.ts';
import type { Draft, OwnAnswer, OwnPlace } from './own-asked.ts';
import { listToday } from './today-keys.ts';

export type FormView = Extract<View, { readonly screen: 'form' }>;

/** More in one field is no exercise. */
const MOST_TYPED = 12_000;

const draftOf = ({ fields, start, of, copied }: FormView): Draft => ({
  fields,
  start,
  of,
  ...(copied ? { copied } : {}),
});

const draft = (one: Draft | null): Effect => ({ type: 'draft', draft: one });

const lettersOf = (text: string): readonly string[] => [...text];

const fromOf = ({ view }: Stand): FormView['from'] =>
  view.screen === 'today' || view.screen === 'list' ? view.screen : 'exercises';

function openWith(stand: Stand, one: Draft, sentence: string | null): StandStep {
  const at = one.fields.title === '' || one.of || stand.draft === one ? 'title' : 'from';
  const cursor = lettersOf(one.fields[at]).length;
  const view: FormView = { screen: 'form', ...one, at, cursor, asks: false, from: fromOf(stand) };
  return step({ ...stand, view }, ...(sentence ? [say(sentence)] : []));
}

const NOT_YET_KEPT = 'This is what you were writing before: it is not kept yet.';

/** What was being written before comes first: nothing else may take its place. */
export const openForm = (stand: Stand, one: Draft): StandStep =>
  stand.draft ? openWith(stand, stand.draft, NOT_YET_KEPT) : openWith(stand, one, null);

const BLANK_DRAFT: Draft = { fields: BLANK_FORM, start: BLANK_FORM, of: null };

export const newExercise = (stand: Stand): StandStep => openForm(stand, BLANK_DRAFT);

/** A new one whose title is typed already. */
export const newTitled = (stand: Stand, title: string): StandStep =>
  openForm(stand, { ...BLANK_DRAFT, fields: { ...BLANK_FORM, title } });

const placeOf = ({ file, name }: Exercise): OwnPlace => ({ file, name });

const isOwn = ({ known }: Stand, { file }: Exercise): boolean => known.own.includes(file);

const exerciseHere = (stand: Stand): Exercise | null => chosen(stand.choice, stand.known.exercises);

const NOT_YOURS = 'This one came with the program. y makes one of your own of it, which you can change.';

export function changeExercise(stand: Stand): StandStep {
  const exercise = exerciseHere(stand);
  if (!exercise) return step(stand);
  if (!isOwn(stand, exercise)) return step(stand, say(NOT_YOURS));
  const fields = formOf(exercise);
  return openForm(stand, { fields, start: fields, of: placeOf(exercise) });
}

export function copyExercise(stand: Stand): StandStep {
  const exercise = exerciseHere(stand);
  if (!exercise) return step(stand);
  const fields = formOf(exercise);
  const title = `${[...fields.title].slice(0, 72).join('')}, my own`;
  return openForm(stand, { ...BLANK_DRAFT, fields: { ...fields, title }, copied: placeOf(exercise) });
}

/** Retired, or brought back. */
export function retireExercise(stand: Stand): StandStep {
  const exercise = exerciseHere(stand);
  if (!exercise) return step(stand);
  if (!isOwn(stand, exercise)) return step(stand, say(NOT_YOURS));
  const isRetired = exercise.retired !== true;
  return step(stand, { type: 'own', asked: { do: 'retire', place: placeOf(exercise), isRetired } });
}

const LIST = { screen: 'list', row: 0, typed: '', found: 0, asOn: null, under: null } as const;

const closed = (stand: Stand, { from }: FormView): Stand => ({
  ...stand,
  view: from === 'list' ? { ...LIST, doing: 'find' } : { screen: from },
});

/** Typed or not: an unchanged form needs no question. */
const isUntouched = ({ fields, start }: FormView): boolean => isSameForm(fields, start);

function typed(stand: Stand, view: FormView, fields: OwnForm, cursor: number): StandStep {
  const next: FormView = { ...view, fields, cursor };
  return step({ ...stand, view: next, draft: draftOf(next) }, draft(draftOf(next)));
}

function insert(stand: Stand, view: FormView, letter: string): StandStep {
  const letters = lettersOf(view.fields[view.at]);
  if (letters.length >= MOST_TYPED) return step(stand, say('This field is full; nothing more fits in.'));
  const text = [...letters.slice(0, view.cursor), letter, ...letters.slice(view.cursor)].join('');
  return typed(stand, view, withField(view.fields, view.at, text), view.cursor + 1);
}

function erase(stand: Stand, view: FormView): StandStep {
  const letters = lettersOf(view.fields[view.at]);
  if (view.cursor === 0) return step(stand);
  const text = [...letters.slice(0, view.cursor - 1), ...letters.slice(view.cursor)].join('');
  return typed(stand, view, withField(view.fields, view.at, text), view.cursor - 1);
}

const moveTo = (stand: Stand, view: FormView, at: Field): StandStep =>
  step({ ...stand, view: { ...view, at, cursor: [...view.fields[at]].length } });

const moveBy = (stand: Stand, view: FormView, by: number): StandStep =>
  moveTo(stand, view, FIELDS[(FIELDS.indexOf(view.at) + by + FIELDS.length) % FIELDS.length] ?? 'title');

/** To what is wrong first; what is right goes to the file. */
function keepIt(stand: Stand, view: FormView): StandStep {
  const [wrong] = mistakesIn(view.fields);
  if (wrong) {
    const there = moveTo(stand, { ...view, asks: false }, wrong.field);
    return andThen(there, (state) => step(state, say(`Not kept yet: ${wrong.sentence}`)));
  }
  return step(
    { ...stand, view: { ...view, asks: false } },
    { type: 'own', asked: { do: 'keep', draft: draftOf(view) } },
  );
}

const drop = (stand: Stand, view: FormView): StandStep =>
  step(closed({ ...stand, draft: null }, view), draft(null), say('What you typed is dropped.'));

const leaveForLater = (stand: Stand, view: FormView): StandStep =>
  step(closed({ ...stand, draft: draftOf(view) }, view), say('What you typed waits for you: n goes on with it.'));

const ANSWERS: Readonly<Record<string, (stand: Stand, view: FormView) => StandStep>> = {
  enter: keepIt,
  d: drop,
  l: leaveForLater,
  escape: (stand, view) => step({ ...stand, view: { ...view, asks: false } }),
};

function moveCursor(stand: Stand, view: FormView, by: number): StandStep {
  if (view.at in CHOICES) return typed(stand, view, nextChoice(view.fields, view.at, by), 0);
  const cursor = Math.min([...view.fields[view.at]].length, Math.max(0, view.cursor + by));
  return step({ ...stand, view: { ...view, cursor } });
}

const KEYS: Readonly<Record<string, (stand: Stand, view: FormView) => StandStep>> = {
  enter: keepIt,
  escape: (stand, view) => step(isUntouched(view) ? closed(stand, view) : { ...stand, view: { ...view, asks: true } }),
  tab: (stand, view) => moveBy(stand, view, 1),
  down: (stand, view) => moveBy(stand, view, 1),
  pagedown: (stand, view) => moveBy(stand, view, 1),
  up: (stand, view) => moveBy(stand, view, -1),
  pageup: (stand, view) => moveBy(stand, view, -1),
  left: (stand, view) => moveCursor(stand, view, -1),
  right: (stand, view) => moveCursor(stand, view, 1),
  backspace: erase,
};

/** A letter goes to the next choice that begins with it; a blank to the next of all. */
function choose(stand: Stand, view: FormView, letter: string): StandStep {
  if (letter === ' ') return moveCursor(stand, view, 1);
  const words = CHOICES[view.at] ?? [];
  const at = words.findIndex((word) => word.startsWith(letter.toLowerCase()));
  return at < 0
    ? step(stand)
    : typed(stand, view, withField(view.fields, view.at, at === 0 ? '' : (words[at] ?? '')), 0);
}

/** One key while the form shows. */
export function typeInForm(stand: Stand, view: FormView, key: string): StandStep {
  if (view.asks) return ANSWERS[key]?.(stand, view) ?? step(stand);
  const named = KEYS[key];
  if (named) return named(stand, view);
  const letter = key === 'space' ? ' ' : key;
  if ([...letter].length !== 1) return step(stand);
  return view.at in CHOICES ? choose(stand, view, letter) : insert(stand, view, letter);
}

/** What was written from the list is in it. */
const listed = (stand: Stand, exercise: Exercise): Effect =>
  keep({ kind: 'list', items: [...listToday(stand), listItemOf(exercise)] });

/** Written: the list has the exercise under the finger. Not written: the form stays as it is. */
export function ownAnswered(stand: Stand, { sentence, written }: OwnAnswer): StandStep {
  if (!written) return step(stand, say(sentence));
  const { view, known } = stand;
  const row = known.exercises.findIndex(({ file, name }) => file === written.file && name === written.name);
  const here: Stand = row < 0 ? stand : { ...stand, choice: { ...stand.choice, row } };
  if (view.screen !== 'form') return step(here, say(sentence));
  const exercise = known.exercises[row];
  const added = exercise && view.from === 'list' ? [listed(stand, exercise)] : [];
  return step(closed({ ...here, draft: null }, view), draft(null), say(sentence), ...added);
}
