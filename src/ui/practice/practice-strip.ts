/** The note strip of the line on the stand: which bar and beat of it are being heard. */
import type { Drill } from '../../music/tongue/drill.ts';
import { type Lettering, type Strip, stripOf } from '../../music/page/strip.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';
import { drillNow, spanHeard } from '../../practice/line/line-state.ts';
import { noteStrip, stripHeight } from '../components/note-strip.ts';
import { type PaintedLine, line, seg, toHeight } from '../paint.ts';

/** Made once for each drill and lettering, not at each beat. */
const strips: Readonly<Record<Lettering, WeakMap<Drill, Strip>>> = { signs: new WeakMap(), plain: new WeakMap() };

function stripFor(drill: Drill, lettering: Lettering): Strip {
  const known = strips[lettering].get(drill);
  if (known) return known;
  const strip = stripOf(drill, lettering);
  strips[lettering].set(drill, strip);
  return strip;
}

/** The bar and beat of the repetition that is heard; the first bar, without a beat, before and after it. */
function heardIn(practice: Practice, bars: number): { readonly bar: number; readonly beat: number | null } {
  const span = spanHeard(practice);
  if (!practice.heard || span?.role !== 'repetition') return { bar: 0, beat: null };
  return { bar: practice.heard.bar % bars, beat: practice.heard.beat };
}

/** The first bar of a drill, nothing heard: for a block without a click. */
export function quietStrip(drill: Drill | null, columns: number, lettering: Lettering): readonly PaintedLine[] {
  if (!drill || drill.bars === 0) return [];
  const strip = stripFor(drill, lettering);
  const height = stripHeight(strip, columns, 6);
  return toHeight(noteStrip({ strip, bar: 0, beat: null, next: drill.bars > 1 ? 1 : null }, columns, height), height);
}

/** Nothing for an exercise of the player's own material. */
export function practiceStrip(
  practice: Practice,
  columns: number,
  rows: number,
  lettering: Lettering,
): readonly PaintedLine[] {
  const drill = drillNow(practice);
  if (!drill || drill.bars === 0) return [];
  const { bar, beat } = heardIn(practice, drill.bars);
  const next = bar + 1 < drill.bars ? bar + 1 : null;
  const strip = stripFor(drill, lettering);
  const height = stripHeight(strip, columns, rows >= 30 ? 10 : 6);
  return toHeight(noteStrip({ strip, bar, beat, next }, columns, height), height);
}

/** What to get and the hard spot, for material that the player has; nothing where neither is said. */
export function materialLines({ exercise: { material, spot } }: Practice): readonly PaintedLine[] {
  const said = [
    ['On the stand', material],
    ['Hard spot', spot],
  ] as const;
  return said.flatMap(([name, words]) => (words ? [line(seg(` ${name}: `, 'dim'), seg(words, 'strong'))] : []));
}
