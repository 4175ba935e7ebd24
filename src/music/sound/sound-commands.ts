/**
 * What may be asked of the sound, and what it tells back: plain data, so that the pure
 * parts can speak of sound without importing any. Sound is a chain of spans; each span is
 * so many bars at one tempo, and the chain may only change at a bar line.
 */
import type { Meter, Tempo } from '../time/meter.ts';
import type { Ratio } from '../time/ratio.ts';
import type { Cents, Gain, Hertz, MidiNote, Milliseconds } from '../../common/units.ts';

/** Levels of the click's layers; a layer at 0 is not heard. */
interface ClickLevels {
  readonly bar: Gain;
  readonly group: Gain;
  readonly beat: Gain;
  readonly subdivision: Gain;
}

/** Bars in turn, counted on from span to span. */
interface SilentBars {
  readonly play: number;
  readonly silent: number;
  /** Bars already counted when the span begins; 0 where it is left out. */
  readonly barsBefore?: number;
}

export interface Click {
  /** Which of the beats are struck; numbers count beats from 1. */
  readonly on: 'beats' | 'off-beats' | 'first' | readonly number[];
  /** Notes per beat that are struck softly between the beats, 1 (none) to 8. */
  readonly subdivision: number;
  readonly feel: 'even' | 'dotted' | 'swung';
  readonly levels: ClickLevels;
  /** Name of a click sound in `sounds/`, or a path to the player's own WAV file. */
  readonly voice: string;
  /** Play so many bars, then stay silent for so many; null for always on. */
  readonly silentBars: SilentBars | null;
  /** Chance, 0 to 1, that a beat stays silent, drawn from a generator with this seed. */
  readonly silentChance: { readonly p: number; readonly seed: number } | null;
}

export const PLAIN_CLICK: Click = {
  on: 'beats',
  subdivision: 1,
  feel: 'even',
  levels: { bar: 1, group: 0.75, beat: 0.6, subdivision: 0.3 },
  voice: 'wood',
  silentBars: null,
  silentChance: null,
};

/**
 * One note of a pattern that the program plays to the player; times are fractions of a whole note from the span's
 * start.
 */
export interface SoundedNote {
  readonly at: Ratio;
  readonly length: Ratio;
  /** Concert pitch; a fraction tunes it. */
  readonly midi: MidiNote;
  readonly gain: Gain;
  /** A slurred note starts without a new attack. */
  readonly slurred: boolean;
}

export interface Span {
  /** Unique within a sitting; reports name it. */
  readonly id: string;
  readonly role: 'count-in' | 'repetition' | 'breath' | 'wait' | 'free';
  readonly tempo: Tempo;
  readonly meter: Meter;
  /** How many bars; null goes on until it is replaced. */
  readonly bars: number | null;
  readonly click: Click;
  /** Level of the whole span, for a soft click while waiting. */
  readonly gain: Gain;
  /** The pattern played softly as a model; repeated if the span is longer than it. */
  readonly model: readonly SoundedNote[];
}

export const DRONE_TIMBRES = ['reed', 'organ', 'string', 'pure'] as const;
export type DroneTimbre = (typeof DRONE_TIMBRES)[number];

export interface Drone {
  /** Concert pitch of the tonic; the voices are built on it. */
  readonly tonic: MidiNote;
  readonly voices: readonly ('tonic' | 'octave' | 'fifth' | 'major-third' | 'minor-third')[];
  readonly tuning: 'equal' | 'just';
  /** Frequency of A4, 380 to 500. */
  readonly a4: Hertz;
  readonly timbre: DroneTimbre;
  readonly gain: Gain;
  /** Deviation of the whole drone from the reference. */
  readonly detune: Cents;
}

/** What the program asks of the sound. */
export type SoundCommand =
  /** From silence: the chain starts with the first span at once. */
  | { readonly ask: 'play'; readonly spans: readonly Span[] }
  /** Replace all that follows the current span, or the current bar if `cut`. Never in the middle of a bar. */
  | { readonly ask: 'then'; readonly spans: readonly Span[]; readonly cut: boolean }
  /** Silence at once (a fade of a few milliseconds), the chain is forgotten. The drone goes on. */
  | { readonly ask: 'stop' }
  | { readonly ask: 'drone'; readonly drone: Drone | null }
  | { readonly ask: 'volume'; readonly click: Gain; readonly drone: Gain }
  /** One gentle sound at the next bar line (or now if nothing plays): the end of a block. */
  | { readonly ask: 'chime' };

/** What the sound tells, at the moment when the player hears it. */
export type SoundReport =
  | {
      readonly tell: 'beat';
      readonly span: string;
      /** Both count from 0 within the span. */
      readonly bar: number;
      /** Counts from 0 within the bar. */
      readonly beat: number;
      readonly beatsInBar: number;
      /** How long after its moment the report went out. A late beat is not drawn, but a bar line still counts. */
      readonly lateBy: Milliseconds;
    }
  /** The last span has run out. */
  | { readonly tell: 'end'; readonly span: string }
  /** The state of the way out; `sentence` is for the player. */
  | { readonly tell: 'output'; readonly state: 'sounding' | 'silent'; readonly sentence: string };

/** Anything that takes commands and reports back: the child process, the silent twin, a recorder in a test. */
export interface SoundOutput {
  send(command: SoundCommand): void;
  /** Returns a function that ends the subscription. */
  listen(listener: (report: SoundReport) => void): () => void;
  close(): Promise<void>;
}
