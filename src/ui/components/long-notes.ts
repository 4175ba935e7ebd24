/** Long notes of a strip: how long each lasts over the bars, where a breath is, and the phrases between. */
import type { Strip, StripNote } from '../../music/page/strip.ts';

/** A note or a rest in bars from the beginning; notes that are tied are one. */
export interface LongNote {
  readonly label: string;
  readonly syllable: string;
  readonly isRest: boolean;
  readonly from: number;
  readonly to: number;
}

/** So few notes in a bar are long. */
const MOST_IN_BAR = 2;

function joined(notes: readonly LongNote[], note: StripNote, bar: number): readonly LongNote[] {
  const last = notes.at(-1);
  if (note.kind === 'held' && last) return [...notes.slice(0, -1), { ...last, to: bar + note.to }];
  const { label, syllable, kind } = note;
  return [...notes, { label, syllable, isRest: kind === 'rest', from: bar + note.from, to: bar + note.to }];
}

export const longNotes = ({ bars }: Strip): readonly LongNote[] =>
  bars.reduce<readonly LongNote[]>((all, bar, i) => bar.reduce((so, note) => joined(so, note, i), all), []);

/** Whether a pattern is slow work: several bars of no more than two notes, each of at least two beats. */
export function isSlowWork(strip: Strip): boolean {
  const { bars, beats } = strip;
  const isSparse = bars.every((notes) => notes.filter(({ kind }) => kind !== 'held').length <= MOST_IN_BAR);
  const least = Math.min(1, 2 / beats.length) - 1e-6;
  return bars.length > 1 && isSparse && longNotes(strip).every(({ isRest, from, to }) => isRest || to - from >= least);
}

/** Where a breath is: before a rest, and at the very end. */
export const breathsOf = (notes: readonly LongNote[]): readonly number[] =>
  notes.flatMap(({ to, isRest }, i) => (!isRest && (notes[i + 1]?.isRest ?? true) ? [to] : []));

/** Bars in phrases: each ends with the bar in which a breath is. */
export function phrases(bars: number, breaths: readonly number[]): readonly (readonly number[])[] {
  const ends = new Set(breaths.map((at) => Math.ceil(at - 1e-6) - 1));
  return Array.from({ length: bars }, (_, bar) => bar).reduce<readonly (readonly number[])[]>(
    (so, bar) => (bar === 0 || ends.has(bar - 1) ? [...so, [bar]] : [...so.slice(0, -1), [...(so.at(-1) ?? []), bar]]),
    [],
  );
}

/** Whole phrases as long as they fit; a longer one is cut where the room ends. */
export function pages(all: readonly (readonly number[])[], room: number): readonly (readonly number[])[] {
  const cut = all.flatMap((phrase) =>
    Array.from({ length: Math.ceil(phrase.length / room) }, (_, i) => phrase.slice(i * room, (i + 1) * room)),
  );
  return cut.reduce<readonly (readonly number[])[]>((so, phrase) => {
    const last = so.at(-1);
    return last && last.length + phrase.length <= room ? [...so.slice(0, -1), [...last, ...phrase]] : [...so, phrase];
  }, []);
}
