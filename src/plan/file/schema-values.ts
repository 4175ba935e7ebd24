/**
 * The small values of a routine file as they are written by hand. The message of each says what
 * would be right, so that a sentence can be made of it: "'minutes' is -3; write ...".
 */
import { z } from 'zod';
import { METER } from '../../music/time/meter.ts';
import { BOUNDS, LONGEST, METER_RIGHT, NOTE_VALUE, NOTE_VALUE_RIGHT, rangeWords } from './written-limits.ts';

/** No control characters, nothing that turns the reading order round. */
const ONE_LINE = /^[^\p{Cc}\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]*$/u;
const LINES = /^([^\p{Cc}\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]|\n)*$/u;

export function text(most: number) {
  const right = `a line of at most ${most} characters without control characters`;
  return z.string(right).min(1, right).max(most, right).regex(ONE_LINE, right);
}

export function lines(most: number) {
  const right = `text of at most ${most} characters without control characters`;
  return z.string(right).max(most, right).regex(LINES, right);
}

export function between(low: number, high: number, what = 'a number') {
  const right = rangeWords([low, high], what);
  return z.number(right).min(low, right).max(high, right);
}

export function whole(low: number, high: number, more = '') {
  const right = rangeWords([low, high], 'a whole number') + more;
  return z.number(right).int(right).min(low, right).max(high, right);
}

/** Bars, in halves: 0, 0.5, 1 ... */
export function halves(high: number) {
  const right = `a number of bars from 0 to ${high}, halves too`;
  return z.number(right).min(0, right).max(high, right).multipleOf(0.5, right);
}

const shaped = (pattern: RegExp, right: string) => z.string(right).max(200, right).regex(pattern, right);

/** A list that is not empty: `some(id, 'exercise')`. */
export const some = <Item extends z.ZodType>(item: Item, name: string) =>
  z.array(item, `a list of ${name}s`).min(1, `at least one ${name}`);

export const oneOf = <const T extends readonly string[]>(words: T) => z.enum(words, `one of ${words.join(', ')}`);

export const yesNo = z.union([z.boolean(), z.enum(['yes', 'no'])], 'yes or no');
export const minutes = between(...BOUNDS.minutes, 'a number of minutes');
export const bpm = between(10, 400, 'beats per minute');
export const id = shaped(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'a short name in small letters, digits and hyphens');
/** A short name, or one of another file: 'cornet-daily/five-notes'. */
export const exerciseName = shaped(
  /^([\p{L}\p{N}._-]+\/)?[a-z0-9]+(-[a-z0-9]+)*$/u,
  'the name of an exercise, or one with its file like cornet-daily/five-notes',
);
/** Also such a name with its file, as the program gives it where two files have the same one. */
export const history = shaped(
  /^[\p{L}\p{N}._-]+(\/[\p{L}\p{N}._-]+)?$/u,
  'a short name, or one with its file like cornet-daily/five-notes',
);
export const fileName = shaped(/^[^/\\:\0]+\.ya?ml$/, 'the name of a .yaml file in the same folder, without a path');
export const ends = shaped(
  /^[1-9]\d? (keys?|notes?) [2-9] times$/,
  'how many at each end and how often, like 2 keys 3 times',
);
const DAYS = 'day, week, a number of days from 1 to 366, or words like 3 days and 2 weeks';
export const days = z.union([whole(1, 366), shaped(/^(day|week|[1-9]\d{0,2} days|[1-9]\d? weeks)$/, DAYS)], DAYS);

/** Whatever shape `music/time/meter` reads; what its numbers should be is said there. */
export const meter = shaped(METER, METER_RIGHT);
export const noteValue = shaped(NOTE_VALUE, NOTE_VALUE_RIGHT);
const TEMPO = 'a start in beats per minute, or start and target like 60 -> 132';
export const tempo = z.union([bpm, shaped(/^\d+(\.\d+)?( *(->|→) *\d+(\.\d+)?)?$/, TEMPO)], TEMPO);
export const ladderEnds = shaped(/^\d+(\.\d+)? +to +\d+(\.\d+)?$/, 'lowest and highest rung, like 40 to 208');
const STEP = '3% for equal ratios, 4 for beats per minute, or marks for the traditional ones';
export const step = z.union([between(0.1, 60, 'beats per minute'), shaped(/^(marks|\d+(\.\d+)? ?%)$/, STEP)], STEP);
export const percent = shaped(/^\d+(\.\d+)? ?%$/, 'a percentage like 60%');

/** `ladder/rule/aim` has the same bounds. */
export const LADDER_RULE =
  'aim and a share of clean repetitions from 60 % to 95 %, like aim 80 %, or count for so many in a row';
export const ladderRule = shaped(/^(count|aim ([678]\d|9[0-4])(\.\d+)?( ?%)?|aim 95( ?%)?)$/, LADDER_RULE);

/** `music/pitch/scales` says which there are. */
export const scale = z.union(
  [
    text(60),
    z
      .array(z.union([whole(1, 7), text(3)]))
      .min(2)
      .max(12),
  ],
  'the name of a scale, or a list of rising degrees like [1, 2, b3, 5, 6]',
);

/** `music/pitch/keys` says what is one. */
const key = text(40);
export const keys = z.union(
  [z.enum(['all major', 'all minor', 'all']), key, some(key, 'key')],
  'a list of keys like [C, F, Bb], or one of all major, all minor, all',
);
export const writtenNote = shaped(/^[A-Ga-g](#{1,2}|b{1,2}|♯{1,2}|♭{1,2})?\d$/u, 'a written note like C4 or Bb3');
export const articulation = text(60);
export const articulations = z.union([articulation, some(articulation, 'articulation')], 'a name or a list of names');
export const cues = z.union(
  [text(LONGEST.cue), z.array(text(LONGEST.cue)).max(LONGEST.cues)],
  'a short reminder or a list of them',
);
const LAYERS = 'a list of at most 12 short cues like [sing, sing and play, play]';
export const layers = z.array(text(40), LAYERS).min(1, LAYERS).max(12, LAYERS);

const BREAKS = 'minutes of rest and of work, like 5 after 25, or none';
export const breaks = shaped(/^(none|\d{1,3} after \d{1,3})$/, BREAKS);
