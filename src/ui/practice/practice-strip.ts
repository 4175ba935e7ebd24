/** The note strip of the line on the stand: which bar and beat of it are being heard. */
import type { Seconds } from '../../common/units.ts';
import { barLength, secondsOf } from '../../music/time/meter.ts';
import type { Drill } from '../../music/tongue/drill.ts';
import { type Lettering, type Strip, stripOf } from '../../music/page/strip.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';
import { drillNow, spanHeard, tempoNow } from '../../practice/line/line-state.ts';
import { noteStrip, stripHeight } from '../components/note-strip.ts';
import { isSlowWork } from '../components/long-notes.ts';
import { type SlowView, slowHeight, slowStrip } from '../components/slow-strip.ts';
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

function slow(view: SlowView, columns: number, most: number): readonly PaintedLine[] {
  const height = slowHeight(view.strip, columns, most);
  return toHeight(slowStrip(view, columns, height), height);
}

/** A drill without anything heard, for a block without a click: slow work whole, else its first bar. */
export function quietStrip(drill: Drill | null, columns: number, lettering: Lettering): readonly PaintedLine[] {
  if (!drill || drill.bars === 0) return [];
  const strip = stripFor(drill, lettering);
  if (isSlowWork(strip)) return slow({ strip, heard: null, barSeconds: null }, columns, 6);
  const height = stripHeight(strip, columns, 6);
  return toHeight(noteStrip({ strip, bar: 0, beat: null, next: drill.bars > 1 ? 1 : null }, columns, height), height);
}

/** How long a bar lasts at the tempo that sounds or comes. */
function secondsOfBar(practice: Practice, { meter, beat }: Drill): Seconds {
  return secondsOf(barLength(meter), { bpm: tempoNow(practice), beat });
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
  const strip = stripFor(drill, lettering);
  const most = rows >= 30 ? 10 : 6;
  if (isSlowWork(strip)) {
    const heard = beat === null ? null : bar + (strip.beats[beat]?.to ?? 1);
    return slow({ strip, heard, barSeconds: secondsOfBar(practice, drill) }, columns, most);
  }
  const next = bar + 1 < drill.bars ? bar + 1 : null;
  const height = stripHeight(strip, columns, most);
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
