/**
 * Journals as sets of lines; pure. Merging is their union, so it does not matter who merges with whom, in
 * which order or how often; entries carry their own ids, and reading sorts by them and keeps each once.
 */
import type { Milliseconds } from '../common/units.ts';
import { FAR_AHEAD, momentOf } from './entry-ids.ts';
import { linesOf, parseLine } from './journal-lines.ts';

export interface Taken {
  /** Lines of the other journal that ours lacks, in the order of their ids. */
  readonly lines: readonly string[];
  /** How many of its entries were here already. */
  readonly known: number;
  /** Numbers of its lines that are no entries; they are not taken. */
  readonly left: readonly number[];
  /** Numbers of its lines whose ids are further ahead of our clock than clocks differ; they are not taken either. */
  readonly ahead: readonly number[];
}

const idOf = (line: string): string | null => {
  const parsed = parseLine(line);
  if (parsed.is === 'bad') return null;
  return parsed.is === 'entry' ? parsed.entry.id : parsed.foreign.id;
};

const entryLines = (text: string): ReadonlySet<string> =>
  new Set([...linesOf(text)].map(([line]) => line).filter((line) => line.trim() !== ''));

const byIdThenText = ([idA, a]: readonly [string, string], [idB, b]: readonly [string, string]): number =>
  idA < idB ? -1 : idA > idB ? 1 : a < b ? -1 : 1;

/**
 * What our journal lacks of another.
 * @param now milliseconds since 1970 by our clock; without one, ids may be of any moment
 */
export function missingFrom(ours: string, other: string, now: Milliseconds = Infinity): Taken {
  const here = entryLines(ours);
  const found = new Map<string, string>();
  const left: number[] = [];
  const ahead: number[] = [];
  let known = 0;
  for (const [line, number] of linesOf(other)) {
    if (line.trim() === '') continue;
    const id = idOf(line);
    if (id === null) left.push(number);
    else if (here.has(line)) known += 1;
    else if (momentOf(id) > now + FAR_AHEAD) ahead.push(number);
    else found.set(line, id);
  }
  const lines = [...found].map(([line, id]) => [id, line] as const).sort(byIdThenText);
  return { lines: lines.map(([, line]) => line), known, left, ahead };
}

/** The text of our journal with all that another holds. */
export function merged(ours: string, other: string): string {
  const whole = ours === '' || ours.endsWith('\n') ? ours : `${ours}\n`;
  return (
    whole +
    missingFrom(ours, other)
      .lines.map((line) => `${line}\n`)
      .join('')
  );
}
