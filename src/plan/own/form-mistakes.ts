/** What is wrong in a form, each mistake at its field, with what would be right. */
import { harmless, holdsControls } from '../../common/harmless-text.ts';
import { METER } from '../../music/time/meter.ts';
import { BOUNDS, LONGEST, METER_RIGHT, NOTE_VALUE, NOTE_VALUE_RIGHT, rangeWords } from '../file/written-limits.ts';
import { exerciseOfForm, fieldOf } from './form-written.ts';
import { FIELDS, type Field, type OwnForm } from './own-form.ts';

export interface FormMistake {
  readonly field: Field;
  readonly sentence: string;
  /** Column in the field, from 1; null where it is about the whole of it. */
  readonly at: number | null;
}

type Right = (text: string) => string | null;

const shown = (text: string): string => `'${harmless(text, 24)}'`;

const numberWithin =
  (bounds: readonly [number, number], what: string, isWhole = false): Right =>
  (text) => {
    const value = Number(text);
    const isRight = /^\d+(\.\d+)?$/.test(text) && value >= bounds[0] && value <= bounds[1];
    return isRight && (!isWhole || Number.isInteger(value)) ? null : `${rangeWords(bounds, what)}, not ${shown(text)}`;
  };

const shaped =
  (shape: RegExp, right: string): Right =>
  (text) =>
    shape.test(text) ? null : `${right}, not ${shown(text)}`;

const tempo = numberWithin(BOUNDS.tempo, 'beats per minute');

/** Each field by itself. What they may not be together is the exercise's own to say. */
const RIGHT: Readonly<Partial<Record<Field, Right>>> = {
  from: tempo,
  to: tempo,
  meter: shaped(METER, METER_RIGHT),
  beat: shaped(NOTE_VALUE, NOTE_VALUE_RIGHT),
  bars: numberWithin(BOUNDS.bars, 'a whole number', true),
  notes: numberWithin(BOUNDS.notes, 'a number'),
  breaths: numberWithin(BOUNDS.breaths, 'a whole number', true),
  minutes: numberWithin(BOUNDS.minutes, 'a number of minutes'),
};

/** Characters that a field takes. */
export const LONGEST_IN: Readonly<Record<Field, number>> = {
  ...(Object.fromEntries(FIELDS.map((field) => [field, 40])) as Record<Field, number>),
  title: LONGEST.title,
  material: LONGEST.material,
  spot: LONGEST.spot,
  pattern: LONGEST.pattern,
  keys: 400,
  articulations: 400,
  cues: LONGEST.cue * LONGEST.cues,
};

const mistake = (field: Field, sentence: string, at: number | null = null): FormMistake => ({
  field,
  sentence: sentence.endsWith('.') ? sentence : `${sentence}.`,
  at,
});

function asText(field: Field, text: string): FormMistake | null {
  const long = [...text].length;
  if (long > LONGEST_IN[field]) return mistake(field, `write at most ${LONGEST_IN[field]} characters, not ${long}`);
  if (!holdsControls(text)) return null;
  const at = [...text].findIndex(holdsControls) + 1;
  return mistake(field, `take out character ${at}: it is one that a terminal obeys or that turns text round`, at);
}

function cuesMistake(cues: string): FormMistake | null {
  const all = cues.split(';').map((cue) => cue.trim());
  if (all.length > LONGEST.cues) return mistake('cues', `write at most ${LONGEST.cues} cues, not ${all.length}`);
  const isLong = all.some((cue) => [...cue].length > LONGEST.cue);
  return isLong ? mistake('cues', `write cues of at most ${LONGEST.cue} characters, with ; between them`) : null;
}

function fieldMistake(form: OwnForm, field: Field): FormMistake | null {
  const text = form[field].trim();
  const wrong = asText(field, form[field]);
  if (wrong) return wrong;
  if (field === 'title' && text === '') return mistake('title', 'write a title, as you would call it yourself');
  if (field === 'breaths' && text !== '' && form.work !== 'breaths')
    return mistake('breaths', "leave this empty, or let it go by 'breaths'");
  if (field === 'cues') return cuesMistake(form.cues);
  const right = text === '' ? null : (RIGHT[field]?.(text) ?? null);
  return right === null ? null : mistake(field, `write ${right}`);
}

/** What the fields come to together: a key that is none, a pattern that does not fill its bars. */
function togetherMistakes(form: OwnForm): readonly FormMistake[] {
  const found: FormMistake[] = [];
  exerciseOfForm(form, (setting, right, sentence) => {
    const field = fieldOf(setting);
    found.push(
      sentence ? mistake(field, right, setting === 'pattern' ? sentence.at : null) : mistake(field, `write ${right}`),
    );
  });
  return found;
}

const aloneMistakes = (form: OwnForm): readonly FormMistake[] =>
  FIELDS.flatMap((field) => fieldMistake(form, field) ?? []);

const without = (form: OwnForm, wrong: readonly FormMistake[]): OwnForm =>
  wrong.reduce((so, { field }) => ({ ...so, [field]: '' }), form);

/** The form with nothing in the fields that cannot be read. */
export const withoutMistakes = (form: OwnForm): OwnForm => without(form, aloneMistakes(form));

/** In the order of the fields; empty where all is well. */
export function mistakesIn(form: OwnForm): readonly FormMistake[] {
  const alone = aloneMistakes(form);
  const isWrong = new Set(alone.map(({ field }) => field));
  const rest = without(form, alone);
  const all = [...alone, ...togetherMistakes(rest).filter(({ field }) => !isWrong.has(field))];
  return all.toSorted((a, b) => FIELDS.indexOf(a.field) - FIELDS.indexOf(b.field));
}
