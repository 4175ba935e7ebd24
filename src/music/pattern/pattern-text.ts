/**
 * From the text of a pattern to its items in order, with every repeat written out. See `pattern.ts` for the language.
 */
import { type Ratio, multiply, ratio } from '../time/ratio.ts';
import { inTimeOf } from '../time/note-values.ts';

/** What is wrong with a pattern, and at which column (from 1) of its text. */
export interface PatternTrouble {
  readonly at: number;
  readonly sentence: string;
}

export type PatternItem =
  | {
      readonly kind: 'note';
      /** Steps of the scale above the tonic. */
      readonly step: number;
      readonly alter: number;
      readonly value: Ratio | null;
      readonly tied: boolean;
      readonly at: number;
    }
  | { readonly kind: 'rest'; readonly value: Ratio | null; readonly at: number }
  | { readonly kind: 'bar'; readonly at: number };

/** Longest text, and most notes and bar lines after the repeats are written out. */
const MAX_TEXT = 8000;
const MAX_ITEMS = 4000;
const MAX_DEGREE = 50;
const MAX_NESTED = 8;

const TOKEN = /\S+?(?=\s|$|[()|]|:\|)|[()|]|:\|/uy;
const LENGTH = String.raw`:(\d{1,2})(?:\/(1|2|4|8|16|32|64))?(\.{0,2})(?:(t)(\d{1,2})?)?`;
const DEGREE = String.raw`(\d{1,3})([',]{0,4})`;
const NOTE = new RegExp(`^(#{1,2}|♯{1,2}|b{1,2}|♭{1,2})?${DEGREE}(?:${LENGTH})?([-~])?$`, 'u');
const RUN = new RegExp(`^${DEGREE}\\.\\.${DEGREE}$`, 'u');
const REST = new RegExp(`^[zr](?:${LENGTH})?$`, 'u');
const SETTING = new RegExp(`^(?:${LENGTH}|:)$`, 'u');
const TIMES = /x(\d{1,3})([+-]\d{1,2})?/uy;

class PatternError extends Error {
  readonly at: number;

  constructor(at: number, sentence: string) {
    super(sentence);
    this.at = at;
  }
}

/** What the reader holds while it goes through the text. */
interface Cursor {
  readonly text: string;
  readonly degrees: number;
  position: number;
  value: Ratio | null;
  /** How many groups are open. */
  open: number;
}

const show = (word: string): string => `'${word.length > 20 ? `${word.slice(0, 20)}…` : word}'`;

function lengthOf(parts: readonly (string | undefined)[], at: number): Ratio | null {
  const [count, unit = '1', dots = '', tuplet, written = '3'] = parts;
  if (count === undefined) return null;
  if (Number(count) === 0)
    throw new PatternError(at, 'A note lasts longer than nothing: write a note value like :1/4 or :1/8.');
  const plain = multiply(ratio(Number(count), Number(unit)), ratio(2 ** (dots.length + 1) - 1, 2 ** dots.length));
  return tuplet === undefined ? plain : multiply(plain, inTuplet(Number(written), at));
}

function inTuplet(notes: number, at: number): Ratio {
  if (notes > 13 || (notes & (notes - 1)) === 0) {
    throw new PatternError(at, `t${notes} is no tuplet: write t for a triplet, or t5, t6, t7 up to t13.`);
  }
  return ratio(inTimeOf(notes), notes);
}

function stepOf(number: string, marks: string, cursor: Cursor, at: number): number {
  const degree = Number(number);
  if (degree === 0)
    throw new PatternError(
      at,
      "There is no degree 0: degrees count from 1, and the one below 1 is the scale's last with a comma, like 7,",
    );
  if (degree > MAX_DEGREE)
    throw new PatternError(
      at,
      `Degree ${degree} is too high: ${MAX_DEGREE} is the limit; write octaves with ' like 1'`,
    );
  let octaves = 0;
  for (const mark of marks) octaves += mark === "'" ? 1 : -1;
  return degree - 1 + octaves * cursor.degrees;
}

const altered = (signs = ''): number => signs.length * (signs.startsWith('b') || signs.startsWith('♭') ? -1 : 1);

function readWord(word: string, at: number, cursor: Cursor): readonly PatternItem[] {
  const note = NOTE.exec(word);
  if (note) {
    const value = lengthOf(note.slice(4, 9), at) ?? cursor.value;
    const step = stepOf(note[2] ?? '', note[3] ?? '', cursor, at);
    return [{ kind: 'note', step, alter: altered(note[1]), value, tied: note[9] !== undefined, at }];
  }
  const rest = REST.exec(word);
  if (rest) return [{ kind: 'rest', value: lengthOf(rest.slice(1, 6), at) ?? cursor.value, at }];
  const setting = SETTING.exec(word);
  if (setting) {
    cursor.value = lengthOf(setting.slice(1, 6), at);
    return [];
  }
  return readRun(word, at, cursor);
}

function readRun(word: string, at: number, cursor: Cursor): readonly PatternItem[] {
  const run = RUN.exec(word);
  if (!run) {
    throw new PatternError(
      at,
      `${show(word)} is neither a note nor a rest: write a degree like 5, #4, 1' or 2:1/8, or z for a rest.`,
    );
  }
  const from = stepOf(run[1] ?? '', run[2] ?? '', cursor, at);
  const to = stepOf(run[3] ?? '', run[4] ?? '', cursor, at);
  const direction = to < from ? -1 : 1;
  return Array.from({ length: Math.abs(to - from) + 1 }, (_, i): PatternItem => {
    return { kind: 'note', step: from + i * direction, alter: 0, value: cursor.value, tied: false, at };
  });
}

function nextWord(cursor: Cursor): { readonly word: string; readonly at: number } | null {
  while (/\s/u.test(cursor.text[cursor.position] ?? '')) cursor.position += 1;
  if (cursor.position >= cursor.text.length) return null;
  for (const sign of ['|:', ':|', '||', '|', '(', ')']) {
    if (cursor.text.startsWith(sign, cursor.position)) return take(cursor, sign);
  }
  TOKEN.lastIndex = cursor.position;
  return take(cursor, TOKEN.exec(cursor.text)?.[0] ?? cursor.text[cursor.position] ?? '');
}

function take(cursor: Cursor, word: string): { readonly word: string; readonly at: number } {
  const at = cursor.position + 1;
  cursor.position += word.length;
  return { word, at };
}

/** The 'x4+1' after a closing sign. */
function readTimes(cursor: Cursor, usual: number): { readonly times: number; readonly rise: number } {
  TIMES.lastIndex = cursor.position;
  const found = TIMES.exec(cursor.text);
  if (!found) return { times: usual, rise: 0 };
  cursor.position += found[0].length;
  const times = Number(found[1]);
  if (times === 0)
    throw new PatternError(cursor.position - found[0].length + 1, 'x0 leaves nothing to play: repeat at least once.');
  return { times, rise: Number(found[2] ?? 0) };
}

function repeated(body: readonly PatternItem[], times: number, rise: number, at: number): readonly PatternItem[] {
  checkSize(body.length * times, at);
  const round = (k: number): readonly PatternItem[] =>
    body.map((item) => (item.kind === 'note' ? { ...item, step: item.step + k * rise } : item));
  return Array.from({ length: times }, (_, k) => round(k)).flat();
}

function checkSize(items: number, at: number): void {
  if (items > MAX_ITEMS)
    throw new PatternError(at, `The pattern comes to more than ${MAX_ITEMS} notes and bar lines, which is the limit.`);
}

/** Reads up to the sign that closes it (null: the end of the text). */
function readGroup(cursor: Cursor, closing: ')' | ':|' | null, openedAt: number): readonly PatternItem[] {
  const items: PatternItem[] = [];
  if (cursor.open > MAX_NESTED)
    throw new PatternError(openedAt, `Repeats stand in one another at most ${MAX_NESTED} deep.`);
  cursor.open += 1;
  for (let next = nextWord(cursor); next !== null; next = nextWord(cursor)) {
    if (next.word === closing) {
      cursor.open -= 1;
      return items;
    }
    items.push(...readPart(cursor, next.word, next.at));
    checkSize(items.length, next.at);
  }
  if (closing !== null)
    throw new PatternError(openedAt, `This ${closing === ')' ? '(' : '|:'} is never closed: a ${closing} is missing.`);
  return items;
}

function readPart(cursor: Cursor, word: string, at: number): readonly PatternItem[] {
  const bar: PatternItem = { kind: 'bar', at };
  if (word === '(') {
    const body = readGroup(cursor, ')', at);
    const { times, rise } = readTimes(cursor, 1);
    return repeated(body, times, rise, at);
  }
  if (word === '|:') {
    const body = readGroup(cursor, ':|', at);
    const { times, rise } = readTimes(cursor, 2);
    return [bar, ...repeated([...body, bar], times, rise, at)];
  }
  if (word === '|' || word === '||') return [bar];
  if (word === ')' || word === ':|')
    throw new PatternError(at, `This ${word} closes nothing: a ${word === ')' ? '(' : '|:'} is missing before it.`);
  return readWord(word, at, cursor);
}

/** Every item of the pattern in order. Never throws for what is written in the text. */
export function patternItems(
  text: string,
  degrees: number,
): { readonly items: readonly PatternItem[] } | { readonly troubles: readonly PatternTrouble[] } {
  if (text.length > MAX_TEXT) {
    return {
      troubles: [
        {
          at: 1,
          sentence:
            `The pattern has ${text.length} characters, ${MAX_TEXT} is the limit: use repeats like (1 2 ` + `3 2)x4.`,
        },
      ],
    };
  }
  try {
    return { items: readGroup({ text, degrees, position: 0, value: null, open: 0 }, null, 1) };
  } catch (error) {
    if (error instanceof PatternError) return { troubles: [{ at: error.at, sentence: error.message }] };
    throw error;
  }
}
