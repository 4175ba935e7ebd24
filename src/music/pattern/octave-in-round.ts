/** In which octave a pattern stands in one key of its round, and what the player should know about it. */
import type { Names } from './out-of-range.ts';
import { type Tonality, readKey, tonalityOf } from '../pitch/keys.ts';
import { midiOf, withSigns } from '../pitch/note-names.ts';
import { type KeySpan, type VoiceWish, octavesTogether } from './one-voice.ts';
import { type PatternNote, hasOctaveMarks } from './pattern.ts';
import type { Range } from '../pitch/range.ts';
import { belongsTo, registerOf } from '../pitch/registers.ts';
import { type Direction, spell } from '../pitch/spelling.ts';
import { directions } from './rising-or-falling.ts';
import { type WriteRequest, rangesOf } from './write-request.ts';

/** Names of all notes with the tonic in its fourth octave; null for rests. */
export function namesOf(notes: readonly PatternNote[], tonality: Tonality): Names {
  const ways = directions(notes);
  return notes.map((note, i) => (note.step === null ? null : spell(tonality, note.step, note.alter, ways[i] ?? 'up')));
}

/** Octave marks are honoured: the tonic's octave lies at ease, and the notes stand around it as the marks say. */
const areMarksHonoured = ({ place, pattern }: WriteRequest): boolean => place === undefined && hasOctaveMarks(pattern);

/** What sounds at least once, the first note first: a long pattern is no more work than a short one. */
interface Sound {
  readonly step: number;
  readonly alter: number;
  readonly way: Direction;
}

function soundsOf(notes: readonly PatternNote[]): readonly Sound[] {
  const ways = directions(notes);
  const found = new Map<string, Sound>();
  notes.forEach(({ step, alter }, i) => {
    const way = ways[i] ?? 'up';
    if (step !== null) found.set(`${step} ${alter} ${way}`, { step, alter, way });
  });
  return [...found.values()];
}

function spanIn(sounds: readonly Sound[], tonality: Tonality, request: WriteRequest): KeySpan {
  const midis = sounds.map(({ step, alter, way }) => midiOf(spell(tonality, step, alter, way)));
  const tonic = midiOf(`${tonality.tonic}4`);
  const span = { low: Math.min(...midis), high: Math.max(...midis) };
  const heart = areMarksHonoured(request) ? { low: tonic, high: tonic + 12 } : span;
  return { ...span, first: midis[0] ?? tonic, heart };
}

/** The other keys of the round that the scale has; this one among them, at its place, or after them. */
function roundOf(here: KeySpan, sounds: readonly Sound[], request: WriteRequest): readonly KeySpan[] {
  const { round, scale, key } = request;
  const spans = (round?.keys ?? []).flatMap((name) => {
    if (name === key) return [here];
    const read = readKey(name);
    const tonality = typeof read === 'string' ? read : tonalityOf(read, scale);
    return typeof tonality === 'string' ? [] : [spanIn(sounds, tonality, request)];
  });
  return spans.includes(here) ? spans : [...spans, here];
}

function wishOf(request: WriteRequest): VoiceWish {
  const { place, instrument, round } = request;
  const { full, easy } = rangesOf(request);
  return {
    full,
    ease: place && 'register' in place ? registerOf(instrument, place.register) : easy,
    from: place && 'from' in place ? midiOf(place.from) : null,
    drawn: round?.drawn ?? false,
  };
}

/** So wide that nothing is pushed anywhere. */
const EVERYWHERE: Range = { low: -24, high: 151 };

const raised = ({ low, high }: Range, octaves: number): Range => ({
  low: low + 12 * octaves,
  high: high + 12 * octaves,
});

/** What keeps the notes from where they were asked for; null where nothing does. */
function missed(round: readonly KeySpan[], here: KeySpan, octave: number, request: WriteRequest): string | null {
  const { place, instrument, range } = request;
  const whose = range ? 'the range that was asked for' : `the ${instrument.name}`;
  if (place && 'register' in place) {
    const isThere = belongsTo(registerOf(instrument, place.register), raised(here, octave));
    return isThere ? null : `It does not lie in the ${place.register} register of ${whose} in this key.`;
  }
  if (place && here === round[0]) {
    const above = here.first + 12 * octave - midiOf(place.from);
    return above >= 0 && above < 12 ? null : `From ${withSigns(place.from)} it leaves the range of ${whose}.`;
  }
  if (!areMarksHonoured(request)) return null;
  const free = octavesTogether(round, { ...wishOf(request), full: EVERYWHERE })[round.indexOf(here)] ?? octave;
  const way = free > octave ? 'lower' : 'higher';
  return free === octave ? null : `It stands an octave ${way} than its marks say, to stay in the range of ${whose}.`;
}

/** By how many octaves to move the names of `namesOf`; null where they fit in none. */
export function octaveInRound(
  tonality: Tonality,
  notes: readonly PatternNote[],
  request: WriteRequest,
): { readonly octave: number; readonly remark: string | null } | null {
  const sounds = soundsOf(notes);
  const here = spanIn(sounds, tonality, request);
  const round = roundOf(here, sounds, request);
  const octave = octavesTogether(round, wishOf(request))[round.indexOf(here)] ?? null;
  return octave === null ? null : { octave, remark: missed(round, here, octave, request) };
}
