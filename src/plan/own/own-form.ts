/** An exercise of the player's own as a form: every field a line of text as it is typed, empty where it is left out. */
import { KINDS } from '../routine/exercise.ts';

/** In the order in which one goes through them. */
export const FIELDS = [
  'title',
  'from',
  'to',
  'material',
  'spot',
  'pattern',
  'scale',
  'keys',
  'articulations',
  'meter',
  'beat',
  'bars',
  'notes',
  'kind',
  'work',
  'breaths',
  'minutes',
  'cues',
] as const;

export type Field = (typeof FIELDS)[number];
export type OwnForm = Readonly<Record<Field, string>>;

/** Fields where one chooses instead of typing; the first is what it is when nothing is chosen. */
export const CHOICES: Readonly<Partial<Record<Field, readonly string[]>>> = {
  kind: ['technique', ...KINDS.filter((kind) => kind !== 'technique')],
  work: ['ladder', 'breaths', 'clock'],
};

export const BLANK_FORM: OwnForm = Object.fromEntries(FIELDS.map((field) => [field, ''])) as OwnForm;

export const withField = (form: OwnForm, field: Field, value: string): OwnForm => ({ ...form, [field]: value });

export const isSameForm = (a: OwnForm, b: OwnForm): boolean => FIELDS.every((field) => a[field] === b[field]);

/** The next choice of a field, or the one before; empty is the first. */
export function nextChoice(form: OwnForm, field: Field, by: number): OwnForm {
  const words = CHOICES[field] ?? [];
  const at = Math.max(0, words.indexOf(form[field]));
  const next = words[(at + by + words.length) % words.length] ?? '';
  return withField(form, field, next === words[0] ? '' : next);
}
