/**
 * Units, so that every signature says what its numbers mean.
 * They are plain numbers to the compiler and words to the reader.
 */

/** Beats per minute of the tempo's own beat (see `Tempo.beat`). */
export type Bpm = number;
export type Seconds = number;
export type Milliseconds = number;
/** Whole sample frames of the output, or a real number of them before rounding. */
export type Frames = number;
/** Sample frames per second. */
export type FrameRate = number;
export type Hertz = number;
/** Hundredths of an equal-tempered semitone. */
export type Cents = number;
/** Equal-tempered semitones; may be negative. */
export type Semitones = number;
/** MIDI note number: 60 is C4, 69 is A4. */
export type MidiNote = number;
/** Amplitude factor, 0 (silent) to 1 (full scale). */
export type Gain = number;
export type NotesPerSecond = number;
