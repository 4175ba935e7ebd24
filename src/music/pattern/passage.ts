/** A passage: the notes of a pattern in a key, for an instrument, as they are shown, played and printed. */
import type { Instrument } from '../pitch/instruments.ts';
import type { Tonality } from '../pitch/keys.ts';
import { type Meter, barLength, beatsOfBar } from '../time/meter.ts';
import type { PatternNote } from './pattern.ts';
import { midiOf } from '../pitch/note-names.ts';
import { type Ratio, compare, multiply, ratio, subtract } from '../time/ratio.ts';
import type { MidiNote } from '../../common/units.ts';

export interface Pitch {
  /** Written, 'Bb4'. */
  readonly name: string;
  readonly written: MidiNote;
  /** What sounds. */
  readonly concert: MidiNote;
}

export interface PassageNote {
  /** Null for a rest. */
  readonly pitch: Pitch | null;
  /** From the passage's start, as a fraction of a whole note. */
  readonly at: Ratio;
  readonly length: Ratio;
  /** Both count from 0. */
  readonly bar: number;
  readonly beat: number;
  /** How far into its beat, as a fraction of the beat: 1/2 is the off-beat. */
  readonly inBeat: Ratio;
  /** Held over from the note before; held over into the next. */
  readonly tiedFrom: boolean;
  readonly tiedTo: boolean;
}

export interface Passage {
  readonly tonality: Tonality;
  readonly meter: Meter;
  /** Note value of the tempo's beat. */
  readonly beat: Ratio;
  readonly instrument: Instrument;
  readonly bars: number;
  readonly notes: readonly PassageNote[];
  /** Whether it lies in the easy range, only in the full one, or was altered to fit. */
  readonly placed: 'easy' | 'full' | 'nearest octave' | 'abbreviated';
  /** What the player should know about spelling or placing, in sentences. */
  readonly remarks: readonly string[];
}

/** What all passages of one request have in common. */
export type PassageContext = Pick<Passage, 'tonality' | 'meter' | 'beat' | 'instrument'>;

const pitchOf = (name: string, instrument: Instrument): Pitch => {
  const written = midiOf(name);
  return { name, written, concert: written + instrument.transposition };
};

/** Which beat of the bar a place in it belongs to, and how far into that beat it is. */
export function beatIn(
  context: Pick<PassageContext, 'meter' | 'beat'>,
  inBar: Ratio,
): Pick<PassageNote, 'beat' | 'inBeat'> {
  const beats = beatsOfBar(context.meter, context.beat);
  const beat = Math.max(
    0,
    beats.findLastIndex((one) => compare(one.at, inBar) <= 0),
  );
  const { at, length } = beats[beat] ?? { at: inBar, length: context.beat };
  const into = subtract(inBar, at);
  return { beat, inBeat: ratio(into.n * length.d, into.d * length.n) };
}

/** `names` belong to `notes` one by one; null is a rest. */
export function passageOf(
  context: PassageContext,
  notes: readonly PatternNote[],
  names: readonly (string | null)[],
  placed: Passage['placed'],
  remarks: readonly string[],
): Passage {
  const bar = barLength(context.meter);
  // Where fitting moved or dropped what a tie leads to, the note ends there.
  const ties = notes.map((note, i) => note.tied && names[i] === names[i + 1]);
  const written = notes.map((note, i): PassageNote => {
    const name = names[i] ?? null;
    return {
      pitch: name === null ? null : pitchOf(name, context.instrument),
      at: note.at,
      length: note.length,
      bar: note.bar,
      ...beatIn(context, subtract(note.at, multiply(bar, ratio(note.bar)))),
      tiedFrom: ties[i - 1] ?? false,
      tiedTo: ties[i] ?? false,
    };
  });
  const own = context.tonality.respelled === null ? [] : [context.tonality.respelled];
  return { ...context, bars: (notes.at(-1)?.bar ?? 0) + 1, notes: written, placed, remarks: [...own, ...remarks] };
}

/** The lowest and the highest of its notes; null where there are none but rests. */
export function endsOf({ notes }: Pick<Passage, 'notes'>): { readonly low: Pitch; readonly high: Pitch } | null {
  const pitches = notes.flatMap(({ pitch }) => pitch ?? []).sort((a, b) => a.written - b.written);
  const [low, high] = [pitches[0], pitches.at(-1)];
  return low && high ? { low, high } : null;
}

/** What the drone sounds for this passage: the lowest concert pitch of its tonic among the notes' octaves. */
export function droneTonicOf(passage: Passage): MidiNote {
  const lowest = Math.min(...passage.notes.flatMap((note) => (note.pitch ? [note.pitch.concert] : [])));
  const pitchClass = midiOf(`${passage.tonality.tonic}4`) + passage.instrument.transposition;
  return lowest - ((((lowest - pitchClass) % 12) + 12) % 12);
}
