/**
 * When what sounds. Spans are chained at exact moments; the moment of a beat is computed from its
 * index in its span, never by adding durations, and is rounded once, to a whole frame, at the end.
 */
import { type ClickStroke, type Layer, isSilentBar, isSilentBeat, strokesOfBar } from './click-strokes.ts';
import { type Exact, compareMoments, decimal, exact, plus, seconds, times } from '../time/exact-seconds.ts';
import { barLength, beatsOfBar } from '../time/meter.ts';
import { type Ratio, add, compare, divide, ratio } from '../time/ratio.ts';
import type { SoundedNote, Span } from './sound-commands.ts';
import type { Gain, Seconds } from '../../common/units.ts';

/** A span of a chain, with the moment at which it begins. */
export interface ChainedSpan {
  readonly span: Span;
  readonly start: Exact;
  /** Bars that will be played; null goes on until it is replaced. */
  readonly bars: number | null;
}

/** What every bar of a span has in common. */
interface SpanPlan {
  /** How long a whole note lasts, in seconds. */
  readonly wholeNote: Exact;
  readonly bar: Exact;
  readonly beats: readonly Ratio[];
  readonly strokes: readonly ClickStroke[];
  /** Bars after which the model begins again. */
  readonly modelBars: number;
}

const plans = new WeakMap<Span, SpanPlan>();

function makePlan(span: Span): SpanPlan {
  const bpm = decimal(span.tempo.bpm);
  const wholeNote = exact(60n * bpm.d * BigInt(span.tempo.beat.d), bpm.n * BigInt(span.tempo.beat.n));
  return {
    wholeNote,
    bar: times(wholeNote, barLength(span.meter)),
    beats: beatsOfBar(span.meter, span.tempo.beat).map((b) => b.at),
    strokes: strokesOfBar(span.meter, span.tempo, span.click),
    modelBars: modelBars(span.model, barLength(span.meter)),
  };
}

function planOf(span: Span): SpanPlan {
  const plan = plans.get(span) ?? makePlan(span);
  plans.set(span, plan);
  return plan;
}

function modelBars(model: readonly SoundedNote[], bar: Ratio): number {
  const ends = model.map((note) => add(note.at, note.length));
  const end = ends.reduce((far, e) => (compare(e, far) > 0 ? e : far), ratio(0));
  const bars = divide(end, bar);
  return Math.max(1, Math.ceil(bars.n / bars.d));
}

/** The moment of a place in a span: a bar, counted from 0, and a fraction of a whole note after its bar line. */
function momentIn(placed: ChainedSpan, bar: number, at: Ratio = ratio(0)): Exact {
  const plan = planOf(placed.span);
  return plus(plus(placed.start, times(plan.bar, ratio(bar))), times(plan.wholeNote, at));
}

/** The moment at which a span ends, or null. */
export const spanEnd = (placed: ChainedSpan): Exact | null =>
  placed.bars === null ? null : momentIn(placed, placed.bars);

const barSeconds = (span: Span): Seconds => seconds(planOf(span).bar);

/** Chains spans from a moment. Spans after an endless one are never reached and are left out. */
export function chainSpans(spans: readonly Span[], start: Exact): readonly ChainedSpan[] {
  const placed: ChainedSpan[] = [];
  let at: Exact | null = start;
  for (const span of spans) {
    if (at === null) break;
    const next: ChainedSpan = { span, start: at, bars: span.bars };
    placed.push(next);
    at = spanEnd(next);
  }
  return placed;
}

/** The bars of a span that touch [from, to), as indices; empty where none does. */
function barsBetween(placed: ChainedSpan, from: Seconds, to: Seconds): [number, number] {
  const length = barSeconds(placed.span);
  const start = seconds(placed.start);
  const last = placed.bars ?? Infinity;
  return [Math.max(0, Math.floor((from - start) / length) - 1), Math.min(last, Math.ceil((to - start) / length) + 1)];
}

interface Onset {
  readonly at: Exact;
  readonly layer: Layer;
  readonly gain: Gain;
  readonly voice: string;
}

/** The strokes of the click in [from, to) seconds, in order. */
export function* onsetsBetween(chain: readonly ChainedSpan[], from: Seconds, to: Seconds): Generator<Onset> {
  for (const placed of chain) {
    const { click, gain } = placed.span;
    const [first, end] = barsBetween(placed, from, to);
    for (let bar = first; bar < end; bar++) {
      if (isSilentBar(click, bar)) continue;
      for (const stroke of planOf(placed.span).strokes) {
        if (isSilentBeat(click, bar, stroke.beat)) continue;
        const at = momentIn(placed, bar, stroke.at);
        const s = seconds(at);
        if (s >= from && s < to) yield { at, layer: stroke.layer, gain: stroke.gain * gain, voice: click.voice };
      }
    }
  }
}

interface Beat {
  readonly at: Seconds;
  readonly span: Span;
  readonly bar: number;
  readonly beat: number;
  readonly beatsInBar: number;
}

/** All beats, heard or silent, in [from, to) seconds, in order. */
export function* beatsBetween(chain: readonly ChainedSpan[], from: Seconds, to: Seconds): Generator<Beat> {
  for (const placed of chain) {
    const { beats } = planOf(placed.span);
    const [first, end] = barsBetween(placed, from, to);
    for (let bar = first; bar < end; bar++) {
      for (const [beat, inBar] of beats.entries()) {
        const at = seconds(momentIn(placed, bar, inBar));
        if (at >= from && at < to) yield { at, span: placed.span, bar, beat, beatsInBar: beats.length };
      }
    }
  }
}

export interface ModelNote {
  readonly at: Seconds;
  readonly length: Seconds;
  readonly note: SoundedNote;
  readonly gain: Gain;
}

/** The notes of the model that sound in [from, to) seconds; one that reaches over the span's end is cut there. */
export function* notesBetween(chain: readonly ChainedSpan[], from: Seconds, to: Seconds): Generator<ModelNote> {
  for (const placed of chain) {
    const { model, gain } = placed.span;
    if (model.length === 0) continue;
    const { modelBars: period, wholeNote } = planOf(placed.span);
    const end = spanEnd(placed);
    const [first, last] = barsBetween(placed, from, to);
    for (let bar = first - (first % period); bar < last; bar += period) {
      for (const note of model) {
        const at = momentIn(placed, bar, note.at);
        const off = plus(at, times(wholeNote, note.length));
        const stop = end !== null && compareMoments(off, end) > 0 ? end : off;
        const sounding = { at: seconds(at), length: seconds(stop) - seconds(at), note, gain: note.gain * gain };
        if (sounding.length > 0 && sounding.at < to && sounding.at + sounding.length > from) yield sounding;
      }
    }
  }
}

/** The bar line at or after a moment, with what was begun before it kept: where a chain may be changed. */
export function barLineFrom(placed: ChainedSpan, from: Seconds): { readonly bar: number; readonly at: Exact } {
  const guess = Math.max(0, Math.ceil((from - seconds(placed.start)) / barSeconds(placed.span)) - 1);
  for (let bar = guess; ; bar++) {
    const at = momentIn(placed, bar);
    if (seconds(at) >= from) return { bar, at };
  }
}
