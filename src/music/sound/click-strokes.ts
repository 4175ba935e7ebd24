/** What the click strikes in a bar: beats, off-beats, subdivisions, silences. */
import { type BeatOfBar, type Meter, type Tempo, beatsOfBar } from '../time/meter.ts';
import { type Ratio, add, compare, multiply, ratio } from '../time/ratio.ts';
import type { Click } from './sound-commands.ts';
import type { Gain } from '../../common/units.ts';

export type Layer = 'bar' | 'group' | 'beat' | 'subdivision';

export interface ClickStroke {
  /** From the bar line, as a fraction of a whole note. */
  readonly at: Ratio;
  readonly layer: Layer;
  readonly gain: Gain;
  /** The beat that it belongs to, from 0: a silent beat takes its subdivisions along. */
  readonly beat: number;
}

/** Where in its pair the second of two subdivisions falls: swung as a triplet, dotted as a dotted note. */
const SECOND_OF_PAIR = { even: ratio(1, 2), swung: ratio(2, 3), dotted: ratio(3, 4) } as const;

const layerOf = (inBar: BeatOfBar, index: number): Layer =>
  index === 0 ? 'bar' : inBar.startsGroup ? 'group' : 'beat';

function isStruck(click: Click, beat: number): boolean {
  if (click.on === 'beats') return true;
  if (click.on === 'off-beats') return false;
  return click.on === 'first' ? beat === 0 : click.on.includes(beat + 1);
}

/** Parts of the tempo's beat after its start: `partsOf(2, 'swung')` is [2/3]. */
function partsOf(subdivision: number, feel: Click['feel']): readonly Ratio[] {
  const pairs = subdivision % 2 === 0;
  return Array.from({ length: subdivision - 1 }, (_, i) => {
    const k = i + 1;
    if (!pairs || k % 2 === 0) return ratio(k, subdivision);
    return add(ratio(k - 1, subdivision), multiply(ratio(2, subdivision), SECOND_OF_PAIR[feel]));
  });
}

/** The off-beat: half-way, or the last third of a dotted beat, or where the feel puts it. */
function offBeat(inBar: BeatOfBar, feel: Click['feel']): Ratio {
  const dotted = inBar.length.n % 3 === 0;
  return multiply(inBar.length, dotted ? ratio(2, 3) : SECOND_OF_PAIR[feel]);
}

function strokesOfBeat(inBar: BeatOfBar, beat: number, tempo: Tempo, click: Click): ClickStroke[] {
  const strokes: ClickStroke[] = [];
  const strike = (at: Ratio, layer: Layer): void => {
    strokes.push({ at: add(inBar.at, at), layer, gain: click.levels[layer], beat });
  };
  const off = click.on === 'off-beats' ? offBeat(inBar, click.feel) : null;
  if (isStruck(click, beat)) strike(ratio(0), layerOf(inBar, beat));
  if (off) strike(off, 'beat');
  if (!off && !isStruck(click, beat)) return strokes;
  for (const at of subdivisionsOf(inBar.length, tempo.beat, click)) {
    if (!off || compare(at, off) !== 0) strike(at, 'subdivision');
  }
  return strokes;
}

/** Subdivisions have the length that the tempo's beat gives them, also within a longer or a shorter beat. */
function subdivisionsOf(length: Ratio, beat: Ratio, click: Click): Ratio[] {
  const parts = [ratio(0), ...partsOf(click.subdivision, click.feel)];
  const places: Ratio[] = [];
  for (let i = 1; ; i++) {
    const at = multiply(beat, add(ratio(Math.floor(i / parts.length)), parts[i % parts.length] ?? ratio(0)));
    if (compare(at, length) >= 0) return places;
    if (click.subdivision > 1) places.push(at);
  }
}

/** All that may be struck in one bar, in order, before silences. */
export const strokesOfBar = (meter: Meter, tempo: Tempo, click: Click): readonly ClickStroke[] =>
  beatsOfBar(meter, tempo.beat)
    .flatMap((inBar, beat) => strokesOfBeat(inBar, beat, tempo, click))
    .filter((stroke) => stroke.gain > 0)
    .sort((a, b) => compare(a.at, b.at));

/** A number from 0 to 1 that depends on its arguments alone, so that any bar can be asked for first. */
function chance(seed: number, bar: number, beat: number): number {
  let h = (seed | 0) ^ Math.imul(bar + 1, 0x9e3779b1) ^ Math.imul(beat + 1, 0x85ebca6b);
  for (const k of [0x7feb352d, 0x846ca68b]) {
    h = Math.imul(h ^ (h >>> 16), k);
    h ^= h >>> 15;
  }
  return (h >>> 0) / 2 ** 32;
}

/** Whether the click keeps silent in this bar of the span; bars before the span count. */
export function isSilentBar({ silentBars }: Click, bar: number): boolean {
  if (silentBars === null) return false;
  const { play, silent, barsBefore = 0 } = silentBars;
  return (barsBefore + bar) % (play + silent) >= play;
}

/** Whether chance silences this beat. */
export const isSilentBeat = (click: Click, bar: number, beat: number): boolean =>
  click.silentChance !== null && chance(click.silentChance.seed, bar, beat) < click.silentChance.p;

/** What no single setting of a click can say: that the chosen beats are beats of the bar. One sentence, or null. */
export function clickProblem(click: Click, meter: Meter, tempo: Tempo): string | null {
  const beats = beatsOfBar(meter, tempo.beat).length;
  if (typeof click.on === 'string' || click.on.every((beat) => beat <= beats)) return null;
  return `Click: chosen beats must be whole numbers from 1 to ${beats}.`;
}
