/**
 * The language in which a pattern is written by hand, in scale degrees:
 *
 *     1 2 3 4 5 4 3 2 | 1         degrees; a bar line; a note alone in its bar lasts the bar
 *     8 9 7, 1'                   8 is the octave of 1; , an octave down, ' an octave up
 *     #4 b7                       a semitone up, down
 *     1:1/4 2:1/8. 3:1/8t 4:7/8   one note's value: quarter, dotted eighth, triplet eighth, seven eighths
 *     1:1/16t5                    five in the time of four
 *     :1/16 1 2 3 4               the value of all that follow; : alone goes back to the exercise's own
 *     z z:1/4 1- 1                rests; a tie, as in ABC (abcnotation.com, standard 2.1); r and 1~ 1 are read too
 *     1..8 8..1                   every degree between
 *     (1 2 3 2)x4 (1 3)x6+1       repeats; six times, each time one degree higher (-1: lower)
 *     |: 1 2 3 4 :| 1             the same between repeat signs, twice; :|x3 three times
 *
 * Without a value of its own a note takes the exercise's (its beat divided by its notes per beat).
 */
import type { Meter } from '../time/meter.ts';
import { type Pattern, setInBars, usualNotesPerBeat } from './pattern-bars.ts';
import { type PatternTrouble, patternItems } from './pattern-text.ts';
import type { Ratio } from '../time/ratio.ts';

export type { Pattern, PatternNote } from './pattern-bars.ts';
export type { PatternTrouble } from './pattern-text.ts';

/** What a pattern needs to know to become bars. */
interface PatternContext {
  readonly meter: Meter;
  /** Length of a note without a value of its own. */
  readonly unit: Ratio;
  /** Degrees below the octave: 7 in a major scale (`degreesIn`). */
  readonly degrees: number;
}

/**
 * Reads a pattern and sets it into bars, or lists what is wrong. Where bar lines are drawn, each bar
 * must fill the meter; a pattern without any is divided by the meter.
 */
export function readPattern(text: string, context: PatternContext): Pattern | readonly PatternTrouble[] {
  const items = patternItems(text, context.degrees);
  return 'troubles' in items ? items.troubles : setInBars(items.items, context.meter, context.unit);
}

export const isPattern = (read: Pattern | readonly PatternTrouble[]): read is Pattern => !Array.isArray(read);

/** Whether it says by ' or , in which octave its notes lie. */
export const hasOctaveMarks = (text: string): boolean => /[',]/u.test(text);

/** What an exercise's notes per beat come to if nobody gives a number; 1 where the pattern cannot be read. */
export function notesPerBeatOf(text: string, meter: Meter, beat: Ratio): number {
  const items = patternItems(text, 7);
  return 'troubles' in items ? 1 : usualNotesPerBeat(items.items, meter, beat);
}
