/** The repetition cycle as a chain of spans: count-in, the repetition, breathing, and what then. */
import { pulsesIn } from '../../music/tongue/vibrato.ts';
import type { Click, Span } from '../../music/sound/sound-commands.ts';
import type { Bpm } from '../../common/units.ts';
import { inHalves } from '../../music/time/half-bar.ts';
import { isTurnOver } from '../../plan/rotation/next-turn.ts';
import type { Practice } from './line-on-stand.ts';
import { isRunning, modelNotes, passageNow, ruleOf, spanHeard } from './line-state.ts';

/** A softer click while the player breathes or has not marked yet. */
const BREATH_GAIN = 0.45;
const WAIT_GAIN = 0.3;

type Stretch = Pick<Span, 'role' | 'bars' | 'gain'> & { readonly bpm: Bpm; readonly slow?: true };

/** A new tempo, like a start from silence, is always counted in. */
const mustCountIn = (practice: Practice, bpm: Bpm): boolean =>
  !isRunning(practice) || spanHeard(practice)?.tempo.bpm !== bpm;

type CountIn = 'where it must be' | 'in any case';

function countInBars(practice: Practice, bpm: Bpm, counted: CountIn): number {
  const { exercise, way } = practice;
  const isNeeded = way !== null || counted === 'in any case' || mustCountIn(practice, bpm);
  return exercise.countInBars === 0 && isNeeded ? 1 : exercise.countInBars;
}

/** A way round a wall goes on by its breathing bars: there is always one. */
const breathBars = ({ exercise, way }: Practice): number =>
  way ? Math.max(1, exercise.breathBars) : exercise.breathBars;

const repetitionAt = ({ exercise }: Practice, bpm: Bpm): Stretch => ({
  role: 'repetition',
  bars: exercise.bars,
  gain: 1,
  bpm,
});

const breathAt = (practice: Practice, bpm: Bpm): readonly Stretch[] =>
  [{ role: 'breath' as const, bars: breathBars(practice), gain: BREATH_GAIN, bpm }].filter(({ bars }) => bars > 0);

const countInAt = (practice: Practice, bpm: Bpm, counted: CountIn): readonly Stretch[] =>
  [{ role: 'count-in' as const, bars: countInBars(practice, bpm, counted), gain: 1, bpm }].filter(
    ({ bars }) => bars > 0,
  );

/** With alternation, a slow repetition goes before the one at tempo; only the latter is marked. */
function stretchesOf(practice: Practice, bpm: Bpm, counted: CountIn): readonly Stretch[] {
  const played = [repetitionAt(practice, bpm), ...breathAt(practice, bpm)];
  const { order, slowShare } = ruleOf(practice);
  if (order !== 'alternate' || practice.way) return [...countInAt(practice, bpm, counted), ...played];
  const slowly = Math.max(10, Math.round(bpm * slowShare));
  const slow = [...countInAt(practice, slowly, 'in any case'), repetitionAt(practice, slowly)];
  const first = slow.map((stretch): Stretch => ({ ...stretch, slow: true }));
  return [...first, ...countInAt(practice, bpm, 'in any case'), ...played];
}

/** Whether repetitions run on: on the ladder, where neither tempo nor key changes after each. */
export const flows = (practice: Practice): boolean =>
  practice.exercise.flow === true &&
  practice.way === null &&
  ruleOf(practice).order !== 'alternate' &&
  !isTurnOver(practice.exercise, false, 'clean');

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
  const { role, bars } = stretch;
  return {
    id: `${serial}${stretch.slow ? '-slow' : ''}-${role}`,
    role,
    gain: stretch.gain,
    tempo: { bpm: stretch.bpm, beat: exercise.beat },
    ...(bars === null
      ? { bars, meter: exercise.meter }
      : inHalves(exercise.meter, bars, role === 'count-in' ? 'first' : 'last')),
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

/**
 * From a count-in at this tempo to the end of the breathing bar, and the wait after it if the exercise waits. Where
 * nothing is to be counted in, it begins with the repetition.
 */
export const cycle = (practice: Practice, bpm: Bpm, counted: CountIn = 'where it must be'): Chain =>
  chainOf(practice, [...stretchesOf(practice, bpm, counted), ...waitIfAsked(practice, bpm)]);

/** Missed half way: breathe at the old tempo first, then the cycle at the new one. */
export const breathThenCycle = (practice: Practice, old: Bpm, bpm: Bpm, counted: CountIn = 'where it must be'): Chain =>
  chainOf(practice, [
    ...breathAt(practice, old),
    ...stretchesOf(practice, bpm, counted),
    ...waitIfAsked(practice, bpm),
  ]);

/** The click goes on softly until the mark comes. */
export const wait = (practice: Practice, bpm: Bpm): Chain => chainOf(practice, [waitStretch(bpm)]);

/** Breathing, and the soft click after it. */
export const breathThenWait = (practice: Practice, bpm: Bpm): Chain =>
  chainOf(practice, [...breathAt(practice, bpm), waitStretch(bpm)]);

/** So many repetitions one after the other, each with its breath, and the wait after them if the exercise waits. */
const runOf = (practice: Practice, bpm: Bpm, repetitions: number): readonly Stretch[] => [
  ...Array.from({ length: repetitions }, () => [repetitionAt(practice, bpm), ...breathAt(practice, bpm)]).flat(),
  ...waitIfAsked(practice, bpm),
];

/** After the breath: more repetitions without a count-in. */
export const runOn = (practice: Practice, bpm: Bpm, repetitions: number): Chain =>
  chainOf(practice, runOf(practice, bpm, repetitions));

/** The same after a repetition, which has its breath first. */
export const breathThenRunOn = (practice: Practice, bpm: Bpm, repetitions: number): Chain =>
  chainOf(practice, [...breathAt(practice, bpm), ...runOf(practice, bpm, repetitions)]);

export const isSlow = (span: Span): boolean => span.id.includes('-slow-');
