/**
 * The newest stretch of a journal without reading the rest of it: for looking through the journals of many
 * players; pure. Every line says its day once and plainly, as the program writes it; one that does not is read whole.
 */
import type { Entry } from '../../diary/entry.ts';
import { linesOf, ordered, parseLine } from '../../journal/journal-lines.ts';

const DAY = /"day":"(\d{4}-\d\d-\d\d)"/;

export interface RecentEntries {
  /** From the first day on, in the order of their ids. */
  readonly entries: readonly Entry[];
  /** Lines looked at, and how many of them are no entries. */
  readonly lines: number;
  readonly bad: number;
}

/** @param from the first day, 'YYYY-MM-DD' */
export function recentEntries(text: string, from: string): RecentEntries {
  const entries: Entry[] = [];
  let lines = 0;
  let bad = 0;
  for (const [line] of linesOf(text)) {
    if (line.trim() === '') continue;
    lines += 1;
    const day = DAY.exec(line)?.[1];
    if (day !== undefined && day < from) continue;
    const parsed = parseLine(line);
    if (parsed.is === 'bad') bad += 1;
    else if (parsed.is === 'entry' && parsed.entry.day >= from) entries.push(parsed.entry);
  }
  return { entries: ordered(entries), lines, bad };
}
