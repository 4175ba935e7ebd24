/** Whether a line rises or falls at each of its notes: melodic minor and the chromatic scale are spelled by it. */
import type { Direction } from '../pitch/spelling.ts';
import type { PatternNote } from './pattern.ts';

/** Which way the line leaves each note; the last note keeps the way by which it was reached. */
export function directions(notes: readonly PatternNote[]): readonly Direction[] {
  const found: Direction[] = [];
  let way: Direction | null = null;
  let next: number | null = null;
  for (let i = notes.length - 1; i >= 0; i -= 1) {
    const here: number | null = notes[i]?.step ?? next;
    if (here !== null && next !== null && next !== here) way = next > here ? 'up' : 'down';
    next = here;
    found[i] = way ?? arrival(notes, i);
  }
  return found;
}

function arrival(notes: readonly PatternNote[], i: number): Direction {
  const here = notes[i]?.step ?? 0;
  const before = notes.slice(0, i).findLast((note) => note.step !== null && note.step !== here)?.step ?? here;
  return before > here ? 'down' : 'up';
}
