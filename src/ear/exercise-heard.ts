/** An exercise as it was played: each of its notes, what they have in common, its time. */
import type { Cents, Seconds } from '../common/units.ts';
import { type Evenness, evennessOf, onsetsOfNotes } from './evenness.ts';
import type { ExpectedNote } from './expected-notes.ts';
import { type HeardNote, heardNote } from './note-heard.ts';
import type { Reading } from './sound-readings.ts';
import { median, middleHalf } from './statistics.ts';

export interface NotePlayed {
  readonly note: ExpectedNote;
  /** Null where it was not heard, or is too short for its pitch to be judged. */
  readonly heard: HeardNote | null;
}

/** Where a written note lies, over all times that it was played. */
export interface Tendency {
  readonly name: string;
  readonly written: number;
  /** How often it was heard. */
  readonly notes: number;
  readonly cents: Cents;
  readonly beginning: Cents;
  readonly middle: Cents;
  readonly end: Cents;
  readonly spread: Cents;
}

export interface ExerciseHeard {
  /** When its first beat was, from the first frame of the recording. */
  readonly start: Seconds;
  readonly notes: readonly NotePlayed[];
  readonly tendencies: readonly Tendency[];
  /** Of its tongued notes; null where too few were heard. */
  readonly evenness: Evenness | null;
}

type Heard = NotePlayed & { readonly heard: HeardNote };

const isHeard = (one: NotePlayed): one is Heard => one.heard !== null;

function tendencyOf(name: string, written: number, all: readonly Heard[]): Tendency {
  const over = (figure: (heard: HeardNote) => number): Cents => median(all.map(({ heard }) => figure(heard)));
  return {
    name,
    written,
    notes: all.length,
    cents: over(({ cents }) => cents),
    beginning: over(({ beginning }) => beginning),
    middle: over(({ middle }) => middle),
    end: over(({ end }) => end),
    spread: middleHalf(all.flatMap(({ heard }) => heard.line.map(({ cents }) => cents))),
  };
}

/** By written note, the lowest first. */
export function tendenciesOf(notes: readonly NotePlayed[]): readonly Tendency[] {
  const names = new Map(notes.map(({ note }) => [note.name, note.written]));
  return [...names]
    .toSorted(([, a], [, b]) => a - b)
    .flatMap(([name, written]) => {
      const own = notes.filter(isHeard).filter(({ note }) => note.name === name);
      return own.length === 0 ? [] : [tendencyOf(name, written, own)];
    });
}

export interface Recording {
  readonly readings: readonly Reading[];
  readonly onsets: readonly Seconds[];
  readonly start: Seconds;
}

/** Each note is looked for in its own time only: what was played elsewhere is another note. */
export function exerciseHeard(
  expected: readonly ExpectedNote[],
  { readings, onsets, start }: Recording,
): ExerciseHeard {
  const notes = expected.map((note): NotePlayed => {
    const own = readings.filter(({ at }) => at - start >= note.from && at - start < note.to);
    return { note, heard: heardNote(own, note.hertz) };
  });
  const evenness = evennessOf(onsetsOfNotes(expected, onsets, start));
  return { start, notes, tendencies: tendenciesOf(notes), evenness };
}
