/** What a form says, as the settings of a routine file, and the exercise that comes of it. */
import { exerciseOfWritten, type ReportSetting } from '../file/exercise-defaults.ts';
import type { WrittenExercise } from '../file/routine-schema.ts';
import { readKey } from '../../music/pitch/keys.ts';
import { DEFAULT_RULE } from '../../ladder/rule/ladder-rule.ts';
import type { Exercise } from '../routine/exercise.ts';
import type { Written } from './written-text.ts';
import type { Settings } from './exercise-edit.ts';
import type { Field, OwnForm } from './own-form.ts';

const clean = (text: string): string => text.trim();

const numberOr = (text: string): Written => (/^\d+(\.\d+)?$/.test(text) ? Number(text) : text);

const listOf = (text: string, by: string): readonly string[] =>
  text
    .split(by)
    .map(clean)
    .filter((one) => one !== '');

const isKey = (text: string): boolean => typeof readKey(text) !== 'string';

const MANY_KEYS = ['all', 'all major', 'all minor'];

/** `keysIn('C F Bb')` is ['C', 'F', 'Bb'], and so is 'C, F, Bb'; 'all major' stays what it is. */
function keysIn(text: string): Written {
  if (MANY_KEYS.includes(text)) return text;
  const words = listOf(text, ' ');
  const names = !text.includes(',') && !isKey(text) && words.every(isKey) ? words : listOf(text, ',');
  return names;
}

function tempoOf({ from, to }: OwnForm): Written | null {
  const [start, target] = [clean(from), clean(to)];
  if (target === '') return start === '' ? null : numberOr(start);
  return `${start === '' ? DEFAULT_RULE.start : start} -> ${target}`;
}

/** Breaths are counted where the work goes by them; then their number says it all. */
const workOf = ({ work, breaths }: OwnForm): Written | null =>
  work === '' || (work === 'breaths' && clean(breaths) !== '') ? null : work;

const orNull = (text: string, read: (text: string) => Written = (one) => one): Written | null =>
  clean(text) === '' ? null : read(clean(text));

/** A setting of the file, what of the form it is made of, and how. */
const SETTINGS: readonly (readonly [setting: string, fields: readonly Field[], (form: OwnForm) => Written | null])[] = [
  ['title', ['title'], ({ title }) => orNull(title)],
  ['kind', ['kind'], ({ kind }) => orNull(kind)],
  ['material', ['material'], ({ material }) => orNull(material)],
  ['spot', ['spot'], ({ spot }) => orNull(spot)],
  ['pattern', ['pattern'], ({ pattern }) => orNull(pattern, numberOr)],
  ['scale', ['scale'], ({ scale }) => orNull(scale)],
  ['keys', ['keys'], ({ keys }) => orNull(keys, keysIn)],
  ['articulations', ['articulations'], ({ articulations }) => orNull(articulations, (text) => listOf(text, ','))],
  ['tempo', ['from', 'to'], tempoOf],
  ['meter', ['meter'], ({ meter }) => orNull(meter)],
  ['beat', ['beat'], ({ beat }) => orNull(beat)],
  ['bars', ['bars'], ({ bars }) => orNull(bars, numberOr)],
  ['notes', ['notes'], ({ notes }) => orNull(notes, numberOr)],
  ['work', ['work', 'breaths'], workOf],
  ['breaths', ['breaths'], ({ breaths }) => orNull(breaths, numberOr)],
  ['minutes', ['minutes'], ({ minutes }) => orNull(minutes, numberOr)],
  ['cues', ['cues'], ({ cues }) => orNull(cues, (text) => listOf(text, ';'))],
];

/** The field that a setting's mistake belongs to. */
export const fieldOf = (setting: string): Field => SETTINGS.find(([name]) => name === setting)?.[1][0] ?? 'title';

/** All that a form says; what it leaves out is not there. */
export const settingsOf = (form: OwnForm): Readonly<Record<string, Written>> =>
  Object.fromEntries(
    SETTINGS.flatMap(([setting, , write]) => {
      const value = write(form);
      return value === null ? [] : [[setting, value]];
    }),
  );

/** Only what differs between two forms: null where it is taken out. */
export const changedSettings = (before: OwnForm, after: OwnForm): Settings =>
  Object.fromEntries(
    SETTINGS.filter(([, fields]) => fields.some((field) => before[field] !== after[field])).map(
      ([setting, , write]) => [setting, write(after)],
    ),
  );

const unheard: ReportSetting = () => {};

/** The exercise that a form says, whatever is wrong with it going to `report`. */
export const exerciseOfForm = (form: OwnForm, report: ReportSetting = unheard): Exercise =>
  exerciseOfWritten({ name: 'own', file: 'own' }, settingsOf(form) as WrittenExercise, {}, report);
