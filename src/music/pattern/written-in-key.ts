/** Writes a pattern out in a key for an instrument. */
import { type Names, type Refusal, allOctavesUp, midisOf, outOfRange } from './out-of-range.ts';
import type { Instrument } from '../pitch/instruments.ts';
import { type Tonality, readKey, tonalityOf } from '../pitch/keys.ts';
import type { Meter } from '../time/meter.ts';
import { type Passage, type PassageContext, passageOf } from './passage.ts';
import { unitOf } from './pattern-bars.ts';
import { type PatternNote, isPattern, readPattern } from './pattern.ts';
import { type Range, easyRange, fullRange, octavesToMiddle } from '../pitch/range.ts';
import type { Ratio } from '../time/ratio.ts';
import { degreesIn } from '../pitch/scales.ts';
import { spell } from '../pitch/spelling.ts';
import { directions } from './rising-or-falling.ts';

export type { Passage, PassageNote, Pitch } from './passage.ts';
export type { Refusal } from './out-of-range.ts';

export interface WriteRequest {
  readonly pattern: string;
  /** Name of the scale in which the degrees are counted. */
  readonly scale: string;
  /** Written key, 'Bb' or 'A minor'. */
  readonly key: string;
  readonly meter: Meter;
  readonly beat: Ratio;
  readonly notesPerBeat: number;
  readonly instrument: Instrument;
  /** The player's own range instead of the instrument's. */
  readonly range?: Range;
  /** The player's own easy range. */
  readonly easy?: Range;
}

const refused = (sentence: string): Refusal => ({ troubles: [{ at: 1, sentence }], offers: [] });

/** Names of all notes with the tonic in its fourth octave; null for rests. */
function namesOf(notes: readonly PatternNote[], tonality: Tonality): Names {
  const ways = directions(notes);
  return notes.map((note, i) => (note.step === null ? null : spell(tonality, note.step, note.alter, ways[i] ?? 'up')));
}

function placed(context: PassageContext, notes: readonly PatternNote[], request: WriteRequest): Passage | Refusal {
  const names = namesOf(notes, context.tonality);
  const midis = midisOf(names);
  const full = request.range ?? fullRange(request.instrument);
  const easy = request.easy ?? (request.range ? full : easyRange(request.instrument));
  const atEase = octavesToMiddle(easy, midis);
  if (atEase !== null) return passageOf(context, notes, allOctavesUp(names, atEase), 'easy', []);
  const anywhere = octavesToMiddle(full, midis);
  if (anywhere !== null) return passageOf(context, notes, allOctavesUp(names, anywhere), 'full', []);
  const whose = request.range ? 'the range that was asked for' : `the range of the ${request.instrument.name}`;
  return outOfRange(context, notes, names, full, whose);
}

/**
 * Writes the pattern out. Placed in the easy range where it fits, else in the full one; where it fits
 * neither, the trouble says which note is out, and the offers are what could be played instead.
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
  const context: PassageContext = {
    tonality,
    meter: request.meter,
    beat: request.beat,
    instrument: request.instrument,
  };
  return placed(context, pattern.notes, request);
}

export const isPassage = (result: Passage | Refusal): result is Passage => 'notes' in result;
