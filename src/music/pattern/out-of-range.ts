/** What can be played of a pattern that does not fit the instrument's range. */
import { type Passage, type PassageContext, passageOf } from './passage.ts';
import type { PatternNote, PatternTrouble } from './pattern.ts';
import { midiOf, withSigns } from '../pitch/note-names.ts';
import { type Range, allInRange, fewestOctaves, octavesLeastOutside, semitonesOutside } from '../pitch/range.ts';
import { barLength } from '../time/meter.ts';
import { add, multiply, ratio } from '../time/ratio.ts';
import { octavesUp } from '../pitch/spelling.ts';
import type { MidiNote } from '../../common/units.ts';

/** Names one by one for the notes of a pattern; null is a rest. */
export type Names = readonly (string | null)[];

/** Why it cannot be written out, and what could be played instead. */
export interface Refusal {
  readonly troubles: readonly PatternTrouble[];
  readonly offers: readonly Passage[];
}

export const midisOf = (names: Names): readonly MidiNote[] =>
  names.flatMap((name) => (name === null ? [] : [midiOf(name)]));

export const allOctavesUp = (names: Names, octaves: number): Names =>
  names.map((name) => name && octavesUp(name, octaves));

/**
 * Each bar an octave or more towards the range; a bar that still does not fit is moved note by note. Null where even
 * that fails.
 */
function foldedIn(notes: readonly PatternNote[], names: Names, range: Range): Names | null {
  const folded: (string | null)[] = [];
  for (const bar of barsOf(notes)) {
    const own = bar.map((i) => names[i] ?? null);
    const together = fewestOctaves(range, midisOf(own));
    for (const name of own) {
      const octave = together ?? (name === null ? 0 : fewestOctaves(range, [midiOf(name)]));
      if (octave === null) return null;
      folded.push(name && octavesUp(name, octave));
    }
  }
  return folded;
}

/** Indices of the notes of each bar. */
function barsOf(notes: readonly PatternNote[]): readonly (readonly number[])[] {
  const bars: number[][] = [];
  notes.forEach((note, i) => (bars[note.bar] ??= []).push(i));
  return bars;
}

/** The bars that lie in the range, in order, closed up. */
function shortened(context: PassageContext, notes: readonly PatternNote[], names: Names, range: Range) {
  const bar = barLength(context.meter);
  const kept = barsOf(notes).filter((one) => allInRange(range, midisOf(one.map((i) => names[i] ?? null))));
  const moves = kept.flatMap((one, newBar) =>
    one.map((i) => ({ i, newBar, back: multiply(bar, ratio(newBar - (notes[i]?.bar ?? 0))) })),
  );
  const shorter = moves.flatMap(({ i, newBar, back }) => {
    const note = notes[i];
    return note ? [{ ...note, bar: newBar, at: add(note.at, back) }] : [];
  });
  return { notes: shorter, names: moves.map(({ i }) => names[i] ?? null) };
}

const shown = (name: string): string => withSigns(name);

/** The trouble and the offers for what lies outside the range in every octave; `whose` is what the range is called. */
export function outOfRange(
  context: PassageContext,
  notes: readonly PatternNote[],
  names: Names,
  range: Range,
  whose: string,
): Refusal {
  const near = allOctavesUp(names, octavesLeastOutside(range, midisOf(names)));
  const out = near.findIndex((name) => name !== null && semitonesOutside(range, midiOf(name)) > 0);
  const worst = near[out] ?? '';
  const side = midiOf(worst) > range.high ? 'above' : 'below';
  const what = `${context.tonality.name} does not fit ${whose}`;
  const folded = foldedIn(notes, near, range);
  const short = shortened(context, notes, near, range);
  const offers: Passage[] = [];
  if (folded) {
    offers.push(
      passageOf(context, notes, folded, 'nearest octave', [
        `${what}, so some notes stand an octave ${side === 'above' ? 'lower' : 'higher'}.`,
      ]),
    );
  }
  if (midisOf(short.names).length > 0) {
    offers.push(
      passageOf(context, short.notes, short.names, 'abbreviated', [`${what}, so only the bars that do are here.`]),
    );
  }
  const bar = (notes[out]?.bar ?? 0) + 1;
  const sentence = `${what}: ${shown(worst)} in bar ${bar} lies ${side} it. ${offerWords(offers)}`;
  return { troubles: [{ at: 1, sentence }], offers };
}

function offerWords(offers: readonly Passage[]): string {
  const words = offers.map((offer) =>
    offer.placed === 'abbreviated'
      ? `the abbreviated form of ${offer.bars} ${offer.bars === 1 ? 'bar' : 'bars'}`
      : 'the nearest octave, bar by bar',
  );
  return words.length > 0 ? `It can be played in ${words.join(', or as ')}.` : 'Choose another key or widen the range.';
}
