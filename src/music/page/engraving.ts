/**
 * A drill as it is printed: note values that exist, ties, tuplets, slurs, beams and the accidentals that have to be
 * shown.
 */
import type { Drill } from '../tongue/drill.ts';
import { alteredBy } from '../pitch/keys.ts';
import { type Meter, barLength, beatsOfBar } from '../time/meter.ts';
import { type NoteValue, noteValueOf } from '../time/note-values.ts';
import { type PitchName, readPitch } from '../pitch/note-names.ts';
import { type Ratio, ZERO, add, compare, multiply, ratio, subtract } from '../time/ratio.ts';
import { slursOf } from '../tongue/tongue-strokes.ts';

export interface PrintedNote {
  /** Null for a rest. */
  readonly pitch: PitchName | null;
  readonly value: NoteValue;
  readonly length: Ratio;
  /** From the passage's start. */
  readonly at: Ratio;
  readonly bar: number;
  /** Which beam group of the bar it belongs to. */
  readonly group: number;
  /** Fills its bar alone. */
  readonly wholeBar: boolean;
  readonly tieStart: boolean;
  readonly tieStop: boolean;
  readonly slurStart: boolean;
  readonly slurStop: boolean;
  readonly tupletStart: boolean;
  readonly tupletStop: boolean;
  /** The accidental is not known from the signature or from before in the bar. */
  readonly accidental: boolean;
  readonly syllable: string;
}

type Piece = Omit<PrintedNote, 'tupletStart' | 'tupletStop' | 'accidental'>;

/** Lengths that stand as one note, longest first. */
const PLAIN: readonly Ratio[] = [1, 2, 4, 8, 16, 32, 64].flatMap((head) => [ratio(3, 2 * head), ratio(1, head)]);

/**
 * One note where there is a value for it, else the longest that fit, to be tied: five eighths are a half and an
 * eighth.
 */
function valuesFor(length: Ratio): readonly (readonly [Ratio, NoteValue])[] {
  const whole = noteValueOf(length);
  if (whole) return [[length, whole]];
  const part = PLAIN.find((one) => compare(one, length) <= 0 && noteValueOf(one) !== null);
  const value = part && noteValueOf(part);
  if (!part || !value) throw new RangeError(`no note value lasts ${length.n}/${length.d} of a whole note`);
  return [[part, value], ...valuesFor(subtract(length, part))];
}

/** Where beams may not go over: beats of a quarter or longer, else the meter's groups. */
function beamStarts(meter: Meter, beat: Ratio): readonly Ratio[] {
  const beats = beatsOfBar(meter, beat);
  const short = beats.some(({ length }) => compare(length, ratio(1, 4)) < 0);
  return beats.filter(({ startsGroup }) => !short || startsGroup).map(({ at }) => at);
}

function piecesOf(drill: Drill): readonly Piece[] {
  const bar = barLength(drill.meter);
  const starts = beamStarts(drill.meter, drill.beat);
  const slurs = slursOf(drill.notes.map((note) => note.stroke));
  return drill.notes.flatMap((note, i) => {
    let at = note.at;
    const values = valuesFor(note.length);
    return values.map(([length, value], k): Piece => {
      const [first, last] = [k === 0, k === values.length - 1];
      const inBar = subtract(at, multiply(bar, ratio(note.bar)));
      const piece = {
        pitch: note.pitch && readPitch(note.pitch.name),
        value,
        length,
        at,
        bar: note.bar,
        group: starts.findLastIndex((start) => compare(start, inBar) <= 0),
        wholeBar: compare(note.length, bar) === 0,
        tieStart: note.pitch !== null && (!last || note.tiedTo),
        tieStop: note.pitch !== null && (!first || note.tiedFrom),
        slurStart: first && slurs.some(([from]) => from === i),
        slurStop: last && slurs.some(([, to]) => to === i),
        syllable: first ? note.syllable : '',
      };
      at = add(at, length);
      return piece;
    });
  });
}

const isPowerOfTwo = (n: number): boolean => (n & (n - 1)) === 0;

/** A tuplet runs until what it fills can be written without one. */
function withTuplets(pieces: readonly Piece[]): readonly Omit<PrintedNote, 'accidental'>[] {
  let open: Ratio | null = null;
  return pieces.map((piece) => {
    if (!piece.value.tuplet) {
      open = null;
      return { ...piece, tupletStart: false, tupletStop: false };
    }
    const tupletStart = open === null;
    const filled: Ratio = add(open ?? ZERO, piece.length);
    const tupletStop = isPowerOfTwo(filled.d);
    open = tupletStop ? null : filled;
    return { ...piece, tupletStart, tupletStop };
  });
}

/** An accidental holds to the end of the bar, in its own octave. */
function withAccidentals(pieces: readonly Omit<PrintedNote, 'accidental'>[], fifths: number): readonly PrintedNote[] {
  let [bar, seen] = [-1, new Map<string, number>()];
  return pieces.map((piece) => {
    if (piece.bar !== bar) [bar, seen] = [piece.bar, new Map()];
    const { pitch } = piece;
    if (!pitch || piece.tieStop) return { ...piece, accidental: false };
    const position = `${pitch.letter}${pitch.octave}`;
    const accidental = pitch.alter !== (seen.get(position) ?? alteredBy(pitch.letter, fifths));
    seen.set(position, pitch.alter);
    return { ...piece, accidental };
  });
}

/**
 * Every note of the drill in the order of the page. Throws RangeError for lengths that no notation knows (none of the
 * pattern language).
 */
export const engraved = (drill: Drill): readonly PrintedNote[] =>
  withAccidentals(withTuplets(piecesOf(drill)), drill.tonality.fifths);

/** How many flags or beams a value has: one for an eighth. */
export const flags = ({ head }: NoteValue): number => Math.max(0, Math.log2(head) - 2);

/** Text that stands in a file of one line: control characters out. */
export const oneLine = (text: string): string => text.replaceAll(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ').trim();
