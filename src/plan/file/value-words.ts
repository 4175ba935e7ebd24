/** The meaning of the small words of a routine file. What they may look like is `schema-values`' to say. */
import { type KeyName } from '../../ladder/line.ts';
import type { RungStep } from '../../ladder/rule/ladder-rule.ts';
import { ALL_MAJOR, ALL_MINOR, readKey } from '../../music/pitch/keys.ts';
import type { Meter } from '../../music/time/meter.ts';
import { type Ratio, multiply, ratio } from '../../music/time/ratio.ts';
import type { Bpm } from '../../common/units.ts';

export const isYes = (word: boolean | 'yes' | 'no' | undefined): boolean => word === true || word === 'yes';

export const asList = <T>(word: T | readonly T[] | undefined): readonly T[] =>
  word === undefined ? [] : Array.isArray(word) ? word : [word as T];

const VALUES: Readonly<Record<string, Ratio>> = {
  whole: ratio(1),
  half: ratio(1, 2),
  quarter: ratio(1, 4),
  eighth: ratio(1, 8),
  sixteenth: ratio(1, 16),
};

/** `readNoteValue('dotted quarter')` and `readNoteValue('3/8')` are 3/8. */
export function readNoteValue(word: string): Ratio {
  const [n, d] = word.split('/').map(Number);
  if (d !== undefined && n !== undefined) return ratio(n, d);
  const dotted = word.startsWith('dotted ');
  const value = VALUES[word.replace('dotted ', '')] ?? ratio(1, 4);
  return dotted ? multiply(value, ratio(3, 2)) : value;
}

/** The beat that a meter is usually counted in: three units in compound time, else the unit. */
export const usualBeat = (meter: Meter): Ratio =>
  meter.groups.every((group) => group === 3) && meter.unit >= 8 ? ratio(3, meter.unit) : ratio(1, meter.unit);

/** `readTempo('60 -> 132')` is start 60 and target 132; a start alone has no target. */
export function readTempo(word: string | number): { readonly start: Bpm; readonly target: Bpm | null } {
  const [start = 0, target = null] = `${word}`.split(/->|→/).map(Number);
  return { start, target };
}

export function readLadderEnds(word: string): { readonly floor: Bpm; readonly top: Bpm } {
  const [floor = 0, top = 0] = word.split('to').map(Number);
  return { floor, top };
}

export const readPercent = (word: string): number => Number.parseFloat(word);

export function readStep(word: string | number): RungStep {
  if (typeof word === 'number') return { by: 'beats', bpm: word };
  return word === 'marks' ? { by: 'marks' } : { by: 'ratio', percent: readPercent(word) };
}

/** `readEnds('2 keys 3 times')`: the first and last two come three times, those between them once. */
export function readEnds(word: string): { readonly keys: number; readonly times: number } {
  const [keys = 1, times = 1] = (word.match(/\d+/g) ?? []).map(Number);
  return { keys, times };
}

/** `readAim('aim 80 %')` is 0.8; null where clean and missed ones in a row are counted. */
export const readAim = (word: string): number | null =>
  word === 'count' ? null : readPercent(word.replace('aim', '')) / 100;

/** `readDays('2 weeks')` is 14. */
export function readDays(word: string | number): number {
  if (typeof word === 'number') return word;
  const count = Number.parseInt(word, 10) || 1;
  return word.includes('week') ? count * 7 : count;
}

/** Keys as written; the words for many at once are spelled out. What is no key comes back as a sentence. */
export function readKeys(word: string | readonly string[]): readonly KeyName[] | string {
  if (word === 'all major') return ALL_MAJOR;
  if (word === 'all minor') return ALL_MINOR;
  if (word === 'all') return [...ALL_MAJOR, ...ALL_MINOR];
  const keys = asList(word).map(readKey);
  const wrong = keys.find((key) => typeof key === 'string');
  return wrong ?? [...new Set(keys.flatMap((key) => (typeof key === 'string' ? [] : [key.name])))];
}
