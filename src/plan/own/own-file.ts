/** The file of the exercises that the player adds on the screen, and what becomes of it when one is kept. */
import { parseRoutine, type ReadInclude } from '../file/routine-file.ts';
import { troubleLine } from '../file/place-in-file.ts';
import type { Exercise } from '../routine/exercise.ts';
import { type Settings, withSettings } from './exercise-edit.ts';
import { saidInFile } from './said-in-file.ts';
import { changedSettings, settingsOf } from './form-written.ts';
import { formOf } from './form-of-exercise.ts';
import { FIELDS, type OwnForm } from './own-form.ts';

export const OWN_FILE = 'my-exercises';

export const NEW_OWN_FILE = `# Exercises of your own, added on the screen or by hand.
# 'history' is the name under which an exercise's marks are kept: leave it as it is when you call one otherwise.
`;

/** An exercise as it is to be kept. */
export interface Keeping {
  /** Its name in its file. */
  readonly name: string;
  /** The form as it was when it was opened; null for a new exercise. */
  readonly before: OwnForm | null;
  readonly form: OwnForm;
  /** Under which its marks are kept. */
  readonly history: string;
  /** A name for what was typed, where the file says something else meanwhile. */
  readonly beside: { readonly name: string; readonly history: string };
  /** What a new one is a copy of. */
  readonly copied?: Copied | null;
}

/** An exercise of any file, and that file's text. */
export interface Copied {
  readonly text: string;
  readonly exercise: Exercise;
}

/** What the file is to be, or why it stays as it is. */
export type FileChange =
  { readonly text: string; readonly name: string; readonly sentence: string } | { readonly wrong: string };

const TIED = 'its values are tied together so that they cannot be changed one by one; change it in an editor.';

function exerciseIn(
  text: string,
  fileName: string,
  name: string,
  include: ReadInclude,
): Exercise | null | { wrong: string } {
  if (text.trim() === '') return null;
  const read = parseRoutine(text, fileName, include);
  if ('routine' in read) return read.routine.exercises.find((one) => one.name === name) ?? null;
  return { wrong: `${read.troubles[0] ? troubleLine(read.troubles[0]) : fileName} Mend it; what you typed is kept.` };
}

/** What was typed wrongly, where everything else is right; null where a text can be read again as a routine file. */
export function mistakeOf(text: string, fileName: string, include: ReadInclude): string | null {
  const read = parseRoutine(text, fileName, include);
  return 'troubles' in read ? `Not kept yet: ${read.troubles[0]?.sentence ?? TIED}` : null;
}

/** Nothing that cannot be read again is written. */
function checked(text: string | null, fileName: string, include: ReadInclude, name: string, said: string): FileChange {
  if (text === null) return { wrong: `${fileName} is as it was: ${TIED}` };
  const wrong = mistakeOf(text, fileName, include);
  return wrong === null ? { text, name, sentence: said } : { wrong };
}

/** What the form says, and behind it what no form shows of the exercise that it was made of. */
function asNew(form: OwnForm, history: string, copied: Copied | null): Settings {
  const said = copied ? saidInFile(copied.text, copied.exercise.name) : null;
  if (!copied || !said) return { ...settingsOf(form), history };
  return { title: form.title.trim(), ...said, ...changedSettings(formOf(copied.exercise), form), history };
}

/** Fields that the player changed here, and that say something else again in the file by now. */
const conflicts = (before: OwnForm, now: OwnForm, mine: OwnForm): readonly string[] =>
  FIELDS.filter((field) => mine[field] !== before[field] && now[field] !== before[field] && now[field] !== mine[field]);

const quoted = (fields: readonly string[]): string => fields.map((field) => `'${field}'`).join(', ');

/**
 * The file's text with the exercise in it. What an editor changed meanwhile stays: other settings beside the player's,
 * and where both changed the same one, the file's exercise as it is and the player's beside it under a name of its own.
 */
export function keptIn(text: string, fileName: string, keeping: Keeping, include: ReadInclude): FileChange {
  const { name, before, form, history, beside } = keeping;
  const now = exerciseIn(text, fileName, name, include);
  if (now && 'wrong' in now) return now;
  const start = text.trim() === '' ? NEW_OWN_FILE : text;
  if (now === null || before === null) {
    const [own, kept] = now === null ? [name, history] : [beside.name, beside.history];
    const settings = asNew(form, kept, keeping.copied ?? null);
    return checked(withSettings(start, own, settings), fileName, include, own, `${form.title.trim()}: kept.`);
  }
  const wrong = conflicts(before, formOf(now), form);
  if (wrong.length === 0)
    return checked(
      withSettings(text, name, changedSettings(before, form)),
      fileName,
      include,
      name,
      `${form.title.trim()}: kept.`,
    );
  const mine = { ...form, title: `${form.title.trim().slice(0, 70)} (typed)` };
  const said = `The file said something else of ${quoted(wrong)} meanwhile: both are kept, yours as '${mine.title}'.`;
  const settings = asNew(mine, beside.history, { text, exercise: now });
  return checked(withSettings(text, beside.name, settings), fileName, include, beside.name, said);
}

/** Retired, or brought back: one setting of the exercise. */
export const retiredIn = (
  text: string,
  fileName: string,
  name: string,
  isRetired: boolean,
  include: ReadInclude,
): FileChange => {
  const now = exerciseIn(text, fileName, name, include);
  if (now === null) return { wrong: `${fileName} no longer has '${name}'.` };
  if ('wrong' in now) return now;
  const said = isRetired ? `${now.title}: retired; what was played of it stays.` : `${now.title}: back again.`;
  return checked(withSettings(text, name, { retired: isRetired ? 'yes' : null }), fileName, include, name, said);
};
