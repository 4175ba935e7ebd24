/** Writes a pattern out in a key for an instrument. */
import { type Refusal, allOctavesUp, midisOf, outOfRange } from './out-of-range.ts';
import { readKey, tonalityOf } from '../pitch/keys.ts';
import { namesOf, octaveInRound } from './octave-in-round.ts';
import { type Passage, type PassageContext, passageOf } from './passage.ts';
import { unitOf } from './pattern-bars.ts';
import { type PatternNote, isPattern, readPattern } from './pattern.ts';
import { allInRange } from '../pitch/range.ts';
import { degreesIn } from '../pitch/scales.ts';
import { type WriteRequest, rangesOf } from './write-request.ts';

export type { Passage, PassageNote, Pitch } from './passage.ts';
export type { Refusal } from './out-of-range.ts';
export type { KeyRound, WriteRequest } from './write-request.ts';

const refused = (sentence: string): Refusal => ({ troubles: [{ at: 1, sentence }], offers: [] });

function placed(context: PassageContext, notes: readonly PatternNote[], request: WriteRequest): Passage | Refusal {
  const names = namesOf(notes, context.tonality);
  const { full, easy } = rangesOf(request);
  const found = octaveInRound(context.tonality, notes, request);
  if (found !== null) {
    const there = allOctavesUp(names, found.octave);
    const ease = allInRange(easy, midisOf(there)) ? 'easy' : 'full';
    return passageOf(context, notes, there, ease, found.remark === null ? [] : [found.remark]);
  }
  const whose = request.range ? 'the range that was asked for' : `the range of the ${request.instrument.name}`;
  return outOfRange(context, notes, names, full, whose);
}

/**
 * Writes the pattern out: where it belongs, or else in the easy range where it fits, else in the full one, in one voice
 * with the other keys of its round. Where it fits neither, the trouble says which note is out, and the offers are what
 * could be played instead.
 */
export function writeOut(request: WriteRequest): Passage | Refusal {
  const key = readKey(request.key);
  if (typeof key === 'string') return refused(key);
  const tonality = tonalityOf(key, request.scale);
  if (typeof tonality === 'string') return refused(tonality);
  if (request.range && request.range.low > request.range.high)
    return refused('The range stands on its head: its lowest note lies above its highest.');
  const unit = unitOf(request.beat, request.notesPerBeat);
  const pattern = readPattern(request.pattern, { meter: request.meter, unit, degrees: degreesIn(tonality.scale) });
  if (!isPattern(pattern)) return { troubles: pattern, offers: [] };
  const { meter, beat, instrument } = request;
  return placed({ tonality, meter, beat, instrument }, pattern.notes, request);
}

export const isPassage = (result: Passage | Refusal): result is Passage => 'notes' in result;
