/** Sets the items of a pattern into bars, and says which bar does not fill the meter. */
import { type Meter, barLength } from '../time/meter.ts';
import { noteValueName } from '../time/note-values.ts';
import type { PatternItem, PatternTrouble } from './pattern-text.ts';
import { type Ratio, ZERO, add, compare, divide, format, multiply, ratio, subtract, toNumber } from '../time/ratio.ts';

/** One note or rest before it has a key: where it stands and for how long, in fractions of a whole note. */
export interface PatternNote {
  /** Steps of the scale above its tonic, 0 for the tonic itself; null for a rest. */
  readonly step: number | null;
  /** Semitones by accidentals on top of that. */
  readonly alter: number;
  /** From the pattern's start. */
  readonly at: Ratio;
  readonly length: Ratio;
  /** Counts from 0. */
  readonly bar: number;
  /** Goes on into the next note without a new attack. */
  readonly tied: boolean;
}

export interface Pattern {
  readonly notes: readonly PatternNote[];
  readonly bars: number;
}

/** Most bars of a pattern. */
const MAX_BARS = 200;

type Sounding = Exclude<PatternItem, { kind: 'bar' }>;
/** An item with the length that it has in its bar. */
interface Timed {
  readonly item: Sounding;
  readonly length: Ratio;
}

function splitAtBars(items: readonly PatternItem[]): readonly (readonly Sounding[])[] {
  const bars: Sounding[][] = [[]];
  for (const item of items) {
    if (item.kind === 'bar') bars.push([]);
    else bars.at(-1)?.push(item);
  }
  return bars.filter((bar) => bar.length > 0);
}

/** A note alone in its bar, without a value of its own, lasts the bar. */
function timed(bar: readonly Sounding[], whole: Ratio, unit: Ratio): readonly Timed[] {
  const alone = bar.length === 1;
  return bar.map((item) => ({ item, length: item.value ?? (alone ? whole : unit) }));
}

const total = (bar: readonly Timed[]): Ratio => bar.reduce((sum, one) => add(sum, one.length), ZERO);

const inUnits = (length: Ratio, meter: Meter): string => {
  const units = multiply(length, ratio(meter.unit));
  return units.d === 1 ? `${units.n}/${meter.unit}` : format(length);
};

function barTrouble(bar: readonly Timed[], index: number, meter: Meter): PatternTrouble | null {
  const length = total(bar);
  const off = subtract(length, barLength(meter));
  if (off.n === 0) return null;
  const by = off.n < 0 ? ratio(-off.n, off.d) : off;
  const name = noteValueName(by);
  const named = name.includes('of a whole') ? name : `${format(by)} (${name})`;
  const sentence =
    `Bar ${index + 1} is too ${off.n < 0 ? 'short' : 'long'} by ${named}: it holds ` +
    `${inUnits(length, meter)}, and the meter is ${meter.count}/${meter.unit}.`;
  return { at: bar[0]?.item.at ?? 1, sentence };
}

/** Cuts the parts of an undivided pattern at the bar lines of the meter; a note that is cut goes on with a tie. */
function divided(parts: readonly Timed[], whole: Ratio): readonly (readonly Timed[])[] {
  const bars: Timed[][] = [[]];
  let room = whole;
  for (const part of parts) {
    let left = part.length;
    while (left.n > 0) {
      if (room.n === 0) {
        bars.push([]);
        room = whole;
      }
      const length = compare(left, room) > 0 ? room : left;
      left = subtract(left, length);
      room = subtract(room, length);
      bars
        .at(-1)
        ?.push({ item: left.n > 0 && part.item.kind === 'note' ? { ...part.item, tied: true } : part.item, length });
      if (bars.length > MAX_BARS) return bars;
    }
  }
  return bars;
}

function tieTrouble(notes: readonly PatternNote[], items: readonly Sounding[]): PatternTrouble | null {
  const wrong = notes.findIndex((note, i) => {
    const next = notes[i + 1];
    return note.tied && (next === undefined || next.step !== note.step || next.alter !== note.alter);
  });
  if (wrong < 0) return null;
  return {
    at: items[wrong]?.at ?? 1,
    sentence: 'A tie (-) holds a note into the next, which must be the same degree, like 1- 1.',
  };
}

function placed(bars: readonly (readonly Timed[])[], whole: Ratio): readonly PatternNote[] {
  return bars.flatMap((bar, index) => {
    let at = multiply(whole, ratio(index));
    return bar.map(({ item, length }): PatternNote => {
      const note = {
        step: item.kind === 'note' ? item.step : null,
        alter: item.kind === 'note' ? item.alter : 0,
        at,
        length,
        bar: index,
        tied: item.kind === 'note' && item.tied,
      };
      at = add(at, length);
      return note;
    });
  });
}

function inBars(items: readonly PatternItem[], whole: Ratio, unit: Ratio): readonly (readonly Timed[])[] {
  const bars = splitAtBars(items);
  if (items.some((item) => item.kind === 'bar') || bars[0]?.length === 1)
    return bars.map((bar) => timed(bar, whole, unit));
  return bars.flatMap((bar) => divided(timed(bar, whole, unit), whole));
}

/** The pattern in bars, or every bar that is wrong. */
export function setInBars(
  items: readonly PatternItem[],
  meter: Meter,
  unit: Ratio,
): Pattern | readonly PatternTrouble[] {
  const whole = barLength(meter);
  const bars = inBars(items, whole, unit);
  if (!items.some((item) => item.kind === 'note'))
    return [{ at: 1, sentence: 'The pattern holds no note: write degrees like 1 2 3 4 5.' }];
  if (bars.length > MAX_BARS) {
    return [
      { at: 1, sentence: `The pattern comes to more than ${MAX_BARS} bars, which is the limit for one repetition.` },
    ];
  }
  const troubles = bars.map((bar, index) => barTrouble(bar, index, meter)).filter((one) => one !== null);
  if (troubles.length > 0) return troubles;
  const notes = placed(bars, whole);
  const tie = tieTrouble(
    notes,
    bars.flatMap((bar) => bar.map((one) => one.item)),
  );
  return tie ? [tie] : { notes, bars: bars.length };
}

/**
 * The length of a note without a value of its own: `unitOf(QUARTER, 4)` is a sixteenth. Notes per beat may be
 * fractions.
 */
export const unitOf = (beat: Ratio, notesPerBeat: number): Ratio =>
  divide(beat, ratio(Math.round(notesPerBeat * 48), 48));

/**
 * Notes per beat where nobody gave a number: those without a value of their own share the fullest bar evenly;
 * where every note has one, the shortest counts.
 */
export function usualNotesPerBeat(items: readonly PatternItem[], meter: Meter, beat: Ratio): number {
  const whole = barLength(meter);
  const shares = splitAtBars(items).flatMap((bar) => {
    const own = bar.flatMap((item) => (item.value ? [item.value] : []));
    const left = subtract(whole, own.reduce(add, ZERO));
    const sharing = bar.length - own.length;
    return sharing > 0 && left.n > 0 ? [...own, divide(left, ratio(sharing))] : own;
  });
  const shortest = shares.reduce((least, one) => (compare(one, least) < 0 ? one : least), whole);
  return toNumber(divide(beat, shortest));
}
