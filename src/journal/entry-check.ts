/**
 * Is this value an entry? Checked by hand, because two hundred thousand of them are read at a start;
 * `entry-schema` says the same for people and other programs, and a test holds the two together.
 */
import type { Entry } from '../diary/entry.ts';

/** Null when the value will do, else what would be right. */
type Check = (value: unknown) => string | null;
type Row = readonly (readonly [field: string, check: Check])[];

const text: Check = (value) => (typeof value === 'string' && value !== '' ? null : 'a text');
const tempo: Check = (value) =>
  typeof value === 'number' && value > 0 && value <= 1000 ? null : 'beats per minute above 0, at most 1000';
const count: Check = (value) =>
  Number.isSafeInteger(value) && (value as number) > 0 ? null : 'a whole number above 0';
const amount: Check = (value) => (typeof value === 'number' && value > 0 && value <= 64 ? null : 'a number above 0');
const oneOf =
  (...words: readonly (string | number)[]): Check =>
  (value) =>
    words.includes(value as string) ? null : `one of ${words.join(', ')}`;
const nullOr =
  (check: Check): Check =>
  (value) =>
    value === null ? null : check(value);
const seconds: Check = (value) =>
  typeof value === 'number' && value >= 0 && value < 1e6 ? null : 'seconds, 0 or more';
const optional =
  (check: Check): Check =>
  (value) =>
    value === undefined ? null : check(value);
const shaped =
  (shape: RegExp, name: string): Check =>
  (value) =>
    typeof value === 'string' && shape.test(value) ? null : name;
const onlyTrue: Check = (value) => (value === true ? null : 'true, or left out');

/** Half of all moments, up to the year 6429: an id at the end of time would leave none for what is kept after it. */
const id = shaped(/^[0-7][0-9a-f]{7}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/, 'a UUID in small letters');
const moment = shaped(
  /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/,
  "a date and time with offset, as '2026-11-25T18:04:09.123+01:00'",
);
const day = shaped(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, "a day, as '2026-11-25'");
const fraction = shaped(/^[1-9]\d*\/[1-9]\d*$/, "a note value, as '1/4'");

export const COMMON = { id, at: moment, day } as const;
const LINE = { exercise: text, articulation: text, key: text } as const;

const PLANNED: Row = Object.entries({
  part: text,
  block: text,
  length: seconds,
  before: seconds,
  exercise: nullOr(text),
  title: optional(text),
});
const LISTED: Row = Object.entries({ exercise: nullOr(text), title: text, length: seconds });
const wholeWith =
  (rows: Row, right: string): Check =>
  (value) =>
    typeof value === 'object' &&
    value !== null &&
    !Array.isArray(value) &&
    firstWrong(value as Readonly<Record<string, unknown>>, rows) === null
      ? null
      : right;
const cents: Check = (value) =>
  typeof value === 'number' && Math.abs(value) <= 1200 ? null : 'cents, at most an octave';
const hertz: Check = (value) => (typeof value === 'number' && value > 0 && value <= 20_000 ? null : 'hertz above 0');
const LYING: Row = Object.entries({
  name: text,
  written: count,
  notes: count,
  cents,
  beginning: cents,
  middle: cents,
  end: cents,
  spread: cents,
});
const planned = wholeWith(PLANNED, 'a block with its length');
const listed = wholeWith(LISTED, 'a thing with its length');
const lying = wholeWith(LYING, 'a note and where it lay');
const listOf =
  (check: Check): Check =>
  (value) =>
    Array.isArray(value) && value.every((one) => check(one) === null) ? null : 'a list, each of it whole';

type Fields<E> = { readonly [F in Exclude<keyof E, 'v' | 'kind' | keyof typeof COMMON>]-?: Check };

/** What each kind must hold besides `v`, `kind` and the common fields; a new kind needs a row here to compile. */
const KINDS: { readonly [K in Entry['kind']]: Fields<Extract<Entry, { kind: K }>> } = {
  mark: {
    ...LINE,
    mark: oneOf('clean', 'tense', 'missed'),
    bpm: tempo,
    beat: fraction,
    notesPerBeat: amount,
    cleanUp: count,
    missedDown: count,
    tenseDown: optional(count),
    next: tempo,
    sounded: optional(text),
    by: oneOf('player', 'rule'),
  },
  tempo: { ...LINE, next: tempo },
  undo: { of: id },
  block: {
    routine: text,
    part: text,
    block: text,
    event: oneOf('started', 'going', 'left', 'done', 'skipped'),
    played: seconds,
    length: seconds,
    exercise: nullOr(text),
  },
  tension: { level: oneOf(0, 1, 2, 3, 4), exercise: nullOr(text) },
  note: { text },
  draw: { pool: text, item: text, laid: optional(onlyTrue) },
  way: { ...LINE, way: text, wall: tempo, outcome: oneOf('played', 'left') },
  plan: { routine: text, items: listOf(planned) },
  list: { items: listOf(listed) },
  added: { routine: text, item: planned },
  heard: {
    ...LINE,
    bpm: tempo,
    instrument: text,
    tuning: oneOf('just', 'equal'),
    a4: hertz,
    notes: listOf(lying),
  },
};

const rowsOf = (fields: object): Row => Object.entries(fields) as unknown as Row;
const COMMON_ROWS = rowsOf(COMMON);
const ROWS: ReadonlyMap<string, Row> = new Map(Object.entries(KINDS).map(([kind, fields]) => [kind, rowsOf(fields)]));

/** Whether this program knows the kind; a newer one may know more. */
export const isKnownKind = (kind: string): boolean => ROWS.has(kind);

function firstWrong(value: Readonly<Record<string, unknown>>, rows: Row): string | null {
  for (const [field, check] of rows) {
    const right = check(value[field]);
    if (right !== null) return `"${field}" should be ${right}`;
  }
  return null;
}

/** Null when the common fields are there, else what is wrong with the first that is not. */
export const wrongInCommon = (value: Readonly<Record<string, unknown>>): string | null =>
  firstWrong(value, COMMON_ROWS);

/** Null when the value is a whole entry of a known kind, else what is wrong with it. */
export const wrongInEntry = (value: Readonly<Record<string, unknown>>): string | null =>
  wrongInCommon(value) ?? firstWrong(value, ROWS.get(value['kind'] as string) ?? []);
