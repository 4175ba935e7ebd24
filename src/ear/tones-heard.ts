/** Tones where nothing is expected: each stretch of one pitch, against the tempered note that lies nearest. */
import type { Cents, Hertz, MidiNote, Seconds } from '../common/units.ts';
import { frequencyOf } from '../music/pitch/tuning.ts';
import { centsAbove } from './cents.ts';
import { type HeardNote, heardNote } from './note-heard.ts';
import type { Reading } from './sound-readings.ts';

export interface ToneHeard {
  /** What sounded, as a MIDI number. */
  readonly concert: MidiNote;
  readonly hertz: Hertz;
  readonly heard: HeardNote;
}

/** From one reading to the next no vibrato goes so far. */
const LEAP: Cents = 40;
const GAP: Seconds = 0.05;

function isNext(before: Reading | undefined, one: Reading): boolean {
  if (!before) return true;
  return one.at - before.at > GAP || Math.abs(centsAbove(one.hertz as Hertz, before.hertz as Hertz)) > LEAP;
}

function stretches(readings: readonly Reading[]): readonly (readonly Reading[])[] {
  const all: Reading[][] = [];
  for (const reading of readings) {
    if (reading.hertz === null) continue;
    const now = all.at(-1);
    if (isNext(now?.at(-1), reading)) all.push([reading]);
    else now?.push(reading);
  }
  return all;
}

const middleOf = (stretch: readonly Reading[]): Hertz => stretch[stretch.length >> 1]?.hertz ?? NaN;

/** Tones long enough to be judged, in the order in which they came. */
export const tonesHeard = (readings: readonly Reading[], a4: Hertz): readonly ToneHeard[] =>
  stretches(readings).flatMap((stretch) => {
    const concert = Math.round(69 + 12 * Math.log2(middleOf(stretch) / a4));
    const hertz = frequencyOf(concert, a4);
    const heard = heardNote(stretch, hertz);
    return heard ? [{ concert, hertz, heard }] : [];
  });
