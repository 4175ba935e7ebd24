/** What should sound when: the notes of a drill at a tempo, in the tuning of its drone. */
import type { Bpm, Hertz, Seconds } from '../common/units.ts';
import { tunedFrequency } from '../music/pitch/just-notes.ts';
import type { Drone } from '../music/sound/sound-commands.ts';
import { secondsOf } from '../music/time/meter.ts';
import { add, toNumber } from '../music/time/ratio.ts';
import type { Drill } from '../music/tongue/drill.ts';

export interface ExpectedNote {
  /** Written, 'Bb4', and its number: what the player reads. */
  readonly name: string;
  readonly written: number;
  /** What should sound. */
  readonly hertz: Hertz;
  /** From the first beat of the exercise. */
  readonly from: Seconds;
  readonly to: Seconds;
  /** Both count from 0. */
  readonly bar: number;
  readonly beat: number;
  /** How far into its beat, 0 to 1: 0.5 is the off-beat. */
  readonly place: number;
  /** Whether the tongue begins it, and with what: 'T', 'K', '' where no syllable is spoken. */
  readonly tongued: boolean;
  readonly syllable: string;
}

export type Tuning = Pick<Drone, 'tuning' | 'tonic' | 'a4'>;

/** Ties make one note, rests none. */
export function expectedNotes(drill: Drill, bpm: Bpm, tuning: Tuning): readonly ExpectedNote[] {
  const tempo = { bpm, beat: drill.beat };
  const notes: ExpectedNote[] = [];
  for (const note of drill.notes) {
    if (!note.pitch) continue;
    const to = secondsOf(add(note.at, note.length), tempo);
    const held = note.tiedFrom ? notes.pop() : undefined;
    if (held) {
      notes.push({ ...held, to });
      continue;
    }
    notes.push({
      name: note.pitch.name,
      written: note.pitch.written,
      hertz: tunedFrequency(note.pitch.concert, tuning),
      from: secondsOf(note.at, tempo),
      to,
      bar: note.bar,
      beat: note.beat,
      place: toNumber(note.inBeat),
      tongued: note.stroke !== 'under',
      syllable: note.syllable,
    });
  }
  return notes;
}

/** The note that should sound at a moment; null in rests, before and after. */
export const expectedAt = (notes: readonly ExpectedNote[], at: Seconds): ExpectedNote | null =>
  notes.find(({ from, to }) => at >= from && at < to) ?? null;
