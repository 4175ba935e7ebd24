/** The repetition cycle as a chain of spans: count-in, the repetition, breathing, and what then. */
import { pulsesIn } from '../../music/tongue/vibrato.ts';
import type { Click, Span } from '../../music/sound/sound-commands.ts';
import type { Bpm } from '../../common/units.ts';
import type { Practice } from './line-on-stand.ts';

/** A softer click while the player breathes or has not marked yet. */
const BREATH_GAIN = 0.45;
const WAIT_GAIN = 0.3;

type Part = Pick<Span, 'role' | 'bars' | 'gain'> & { readonly bpm: Bpm; readonly slow?: true };

function partsAt(practice: Practice, bpm: Bpm): readonly Part[] {
  const { exercise } = practice;
  return [
    { role: 'count-in', bars: exercise.countInBars, gain: 1, bpm },
    { role: 'repetition', bars: exercise.bars, gain: 1, bpm },
    { role: 'breath', bars: exercise.breathBars, gain: BREATH_GAIN, bpm },
  ];
}

/** With alternation, a slow repetition goes before the one at tempo; only the latter is marked. */
function partsOf(practice: Practice, bpm: Bpm): readonly Part[] {
  const atTempo = partsAt(practice, bpm);
  if (practice.rule.order !== 'alternate' || practice.way) return atTempo;
  const slowly = Math.max(10, Math.round(bpm * practice.rule.slowShare));
  const slow = partsAt(practice, slowly).map((part): Part => ({ ...part, slow: true }));
  return [...slow.slice(0, 2), ...atTempo];
}

const waitPart = (bpm: Bpm): Part => ({ role: 'wait', bars: null, gain: WAIT_GAIN, bpm });

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
function clickOf({ exercise, line, way }: Practice): Click {
  const passage = way?.way.passages[way.at];
  return passage?.click === 'off-beats'
    ? { ...exercise.click, on: 'off-beats' }
    : pulsed(exercise.click, line.articulation);
}

/** Bars of silence are counted on over the repetitions. */
const countedOn = (click: Click, barsBefore: number): Click =>
  click.silentBars === null ? click : { ...click, silentBars: { ...click.silentBars, barsBefore } };

/** `barsBefore`: bars of repetitions played at this line before this span. */
function toSpan(practice: Practice, part: Part, serial: number, barsBefore: number): Span {
  const { exercise } = practice;
  const plays = part.role === 'repetition';
  return {
    id: `${serial}${part.slow ? '-slow' : ''}-${part.role}`,
    role: part.role,
    bars: part.bars,
    gain: part.gain,
    tempo: { bpm: part.bpm, beat: exercise.beat },
    meter: exercise.meter,
    // Counting in and breathing are always on every beat, whatever the exercise leaves out.
    click: plays
      ? countedOn(drawnAnew(clickOf(practice), serial), barsBefore)
      : { ...exercise.click, on: 'beats', silentBars: null, silentChance: null },
    model: plays && practice.model ? practice.notes : [],
  };
}

export interface Chain {
  readonly spans: readonly Span[];
  readonly serial: number;
}

const isRepetition = ({ role }: Part): boolean => role === 'repetition';

function chainOf(practice: Practice, parts: readonly Part[], repetitionsPlayed: number): Chain {
  const spans = parts.map((part, k) => {
    const repetitions = repetitionsPlayed + parts.slice(0, k).filter(isRepetition).length;
    return toSpan(practice, part, practice.serial + k, repetitions * practice.exercise.bars);
  });
  return { spans, serial: practice.serial + parts.length };
}

const open = (practice: Practice, bpm: Bpm): readonly Part[] =>
  practice.exercise.noMark === 'wait' && !practice.way ? [waitPart(bpm)] : [];

/**
 * From a count-in at this tempo to the end of the breathing bar, and the wait after it if the exercise waits.
 * `repetitionsPlayed`: repetitions begun at this line so far, slow ones too; bars of silence go on from there.
 */
export const cycle = (practice: Practice, bpm: Bpm, repetitionsPlayed = 0): Chain =>
  chainOf(practice, [...partsOf(practice, bpm), ...open(practice, bpm)], repetitionsPlayed);

/** Missed half way: breathe at the old tempo first, then the cycle at the new one. */
export function breathThenCycle(practice: Practice, old: Bpm, bpm: Bpm, repetitionsPlayed = 0): Chain {
  const breath = partsAt(practice, old).filter((part) => part.role === 'breath');
  return chainOf(practice, [...breath, ...partsOf(practice, bpm), ...open(practice, bpm)], repetitionsPlayed);
}

/** The click goes on softly until the mark comes. */
export const wait = (practice: Practice, bpm: Bpm): Chain => chainOf(practice, [waitPart(bpm)], 0);

/** Breathing, and the soft click after it. */
export function breathThenWait(practice: Practice, bpm: Bpm): Chain {
  const breath = partsAt(practice, bpm).filter((part) => part.role === 'breath');
  return chainOf(practice, [...breath, waitPart(bpm)], 0);
}

export const isSlow = (span: Span): boolean => span.id.includes('-slow-');
