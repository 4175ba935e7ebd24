/** Registers and starting notes that the file's instrument does not have. */
import { isPassage, writeOut } from '../../music/pattern/written-in-key.ts';
import type { Passage } from '../../music/pattern/passage.ts';
import type { Instrument } from '../../music/pitch/instruments.ts';
import { midiOf } from '../../music/pitch/note-names.ts';
import { type Place, belongsTo, registerOf } from '../../music/pitch/registers.ts';
import { writtenInRound } from '../routine/one-voice-round.ts';
import type { Exercise } from '../routine/exercise.ts';
import type { WrittenPlace } from './routine-schema.ts';

/** What was written of a place, which is a register or a note; undefined where nothing was. */
export function placeOf({ register, from }: WrittenPlace): Place | undefined {
  if (from !== undefined) return { from: `${from.charAt(0).toUpperCase()}${from.slice(1)}` };
  return register === undefined ? undefined : { register };
}

/** What would be right where both were written; null where one was or none. */
export const bothPlaces = ({ register, from }: WrittenPlace): string | null =>
  register !== undefined && from !== undefined
    ? "'register' and 'from' both say where it belongs; leave one of them out."
    : null;

function passagesOf(exercise: Exercise, place: Place, instrument: Instrument): readonly Passage[] {
  const { pattern, keys } = exercise;
  if (pattern === null) return [];
  const written = keys.map((key) => writeOut(writtenInRound({ ...exercise, pattern }, key, instrument, place)));
  return written.filter(isPassage);
}

const writtenIn = ({ notes }: Passage): readonly number[] =>
  notes.flatMap(({ pitch }) => (pitch ? [pitch.written] : []));

/** What would be right in place of a register or note that no key of the exercise has; null where it is right. */
export function placeTrouble(exercise: Exercise, place: Place, instrument: Instrument): string | null {
  const midis = passagesOf(exercise, place, instrument).map(writtenIn);
  const [first] = midis;
  if (first === undefined) return null;
  const { name, low, high } = instrument;
  if ('from' in place) {
    const above = (first[0] ?? 0) - midiOf(place.from);
    return above >= 0 && above < 12
      ? null
      : `a note from which it stays in the range of the ${name}, ${low} to ${high}`;
  }
  const register = registerOf(instrument, place.register);
  const isThere = (own: readonly number[]): boolean =>
    belongsTo(register, { low: Math.min(...own), high: Math.max(...own) });
  return midis.some(isThere) ? null : `another, for in none of its keys it lies in that register of the ${name}`;
}
