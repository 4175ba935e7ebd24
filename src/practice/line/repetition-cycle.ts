/** The repetition cycle as a chain of spans: count-in, the repetition, breathing, and what then. */
import { pulsesIn } from '../../music/tongue/vibrato.ts';
import type { Click, Span } from '../../music/sound/sound-commands.ts';
import type { Bpm } from '../../common/units.ts';
import type { Practice } from './line-on-stand.ts';
import { modelNotes, passageNow, ruleOf } from './line-state.ts';

/** A softer click while the player breathes or has not marked yet. */
const BREATH_GAIN = 0.45;
const WAIT_GAIN = 0.3;

type Stretch = Pick<Span, 'role' | 'bars' | 'gain'> & { readonly bpm: Bpm; readonly slow?: true };

function stretchesAt({ exercise }: Practice, bpm: Bpm): readonly Stretch[] {
  return [
    { role: 'count-in', bars: exercise.countInBars, gain: 1, bpm },
    { role: 'repetition', bars: exercise.bars, gain: 1, bpm },
    { role: 'breath', bars: exercise.breathBars, gain: BREATH_GAIN, bpm },
  ];
}

/** With alternation, a slow repetition goes before the one at tempo; only the latter is marked. */
function stretchesOf(practice: Practice, bpm: Bpm): readonly Stretch[] {
  const atTempo = stretchesAt(practice, bpm);
  const { order, slowShare } = ruleOf(practice);
  if (order !== 'alternate' || practice.way) return atTempo;
  const slowly = Math.max(10, Math.round(bpm * slowShare));
  const slow = stretchesAt(practice, slowly).map((stretch): Stretch => ({ ...stretch, slow: true }));
  return [...slow.slice(0, 2), ...atTempo];
}

const waitStretch = (bpm: Bpm): Stretch => ({ role: 'wait', bars: null, gain: WAIT_GAIN, bpm });

/** Pulses of vibrato are struck softly between the beats, unless the exercise has a subdivision of its own. */
function pulsed(click: Click, articulation: string): Click {
  const pulses = pulsesIn(articulation);
  return pulses === null || pulses > 8 || click.subdivision > 1 ? click : { ...click, subdivision: pulses };
}

/** Other beats fall silent in each repetition; the same ones again for the same state. */
const drawnAnew = (click: Click, serial: number): Click =>
  click.silentChance === null
    ? click
    : { ...click, silentChance: { ...click.silentChance, seed: click.silentChance.seed + serial } };

/** A way round a wall may leave the beat to the player. */
const clickOf = (practice: Practice): Click =>
  passageNow(practice)?.click === 'off-beats'
    ? { ...practice.exercise.click, on: 'off-beats' }
    : pulsed(practice.exercise.click, practice.line.articulation);

/** Counting in and breathing are always on every beat, whatever the exercise leaves out. */
const everyBeat = ({ exercise }: Practice): Click => ({
  ...exercise.click,
  on: 'beats',
  silentBars: null,
  silentChance: null,
});

/** Bars of silence are counted on over the repetitions. */
const countedOn = (click: Click, barsBefore: number): Click =>
  click.silentBars === null ? click : { ...click, silentBars: { ...click.silentBars, barsBefore } };

/** `barsBefore`: bars of repetitions of this sitting before this span. */
function toSpan(practice: Practice, stretch: Stretch, serial: number, barsBefore: number): Span {
  const { exercise } = practice;
  const plays = stretch.role === 'repetition';
  return {
    id: `${serial}${stretch.slow ? '-slow' : ''}-${stretch.role}`,
    role: stretch.role,
    bars: stretch.bars,
    gain: stretch.gain,
    tempo: { bpm: stretch.bpm, beat: exercise.beat },
    meter: exercise.meter,
    click: plays ? countedOn(drawnAnew(clickOf(practice), serial), barsBefore) : everyBeat(practice),
    model: plays && practice.model ? modelNotes(practice) : [],
  };
}

export interface Chain {
  readonly spans: readonly Span[];
  readonly serial: number;
}

/** Bars in which the player plays. */
export const barsOfRepetitions = (stretches: readonly Pick<Span, 'role' | 'bars'>[]): number =>
  stretches.reduce((sum, { role, bars }) => (role === 'repetition' ? sum + (bars ?? 0) : sum), 0);

function chainOf(practice: Practice, stretches: readonly Stretch[]): Chain {
  const spans = stretches.map((stretch, k) => {
    const barsBefore = practice.barsBegun + barsOfRepetitions(stretches.slice(0, k));
    return toSpan(practice, stretch, practice.serial + k, barsBefore);
  });
  return { spans, serial: practice.serial + stretches.length };
}

const waitIfAsked = (practice: Practice, bpm: Bpm): readonly Stretch[] =>
  practice.exercise.noMark === 'wait' && !practice.way ? [waitStretch(bpm)] : [];

/** From a count-in at this tempo to the end of the breathing bar, and the wait after it if the exercise waits. */
export const cycle = (practice: Practice, bpm: Bpm): Chain =>
  chainOf(practice, [...stretchesOf(practice, bpm), ...waitIfAsked(practice, bpm)]);

const breathAt = (practice: Practice, bpm: Bpm): readonly Stretch[] =>
  stretchesAt(practice, bpm).filter(({ role }) => role === 'breath');

/** Missed half way: breathe at the old tempo first, then the cycle at the new one. */
export const breathThenCycle = (practice: Practice, old: Bpm, bpm: Bpm): Chain =>
  chainOf(practice, [...breathAt(practice, old), ...stretchesOf(practice, bpm), ...waitIfAsked(practice, bpm)]);

/** The click goes on softly until the mark comes. */
export const wait = (practice: Practice, bpm: Bpm): Chain => chainOf(practice, [waitStretch(bpm)]);

/** Breathing, and the soft click after it. */
export const breathThenWait = (practice: Practice, bpm: Bpm): Chain =>
  chainOf(practice, [...breathAt(practice, bpm), waitStretch(bpm)]);

export const isSlow = (span: Span): boolean => span.id.includes('-slow-');
