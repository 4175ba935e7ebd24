/**
 * Ways round a wall, as passages that can be run. They are common practice, no source; which helps whom is
 * remembered, not claimed. Marks given on the way do not move the ladder: it goes on one rung below the wall.
 */
import type { Bpm } from '../../common/units.ts';
import { type Rungs, nearestRung, rungFrom } from '../rule/rungs.ts';

export type WayId =
  | 'half-tempo'
  | 'bursts'
  | 'dotted'
  | 'from-front'
  | 'from-back'
  | 'slurred'
  | 'one-note'
  | 'whispered'
  | 'breathed'
  | 'off-beats';

/** One thing to play, so many times. What is not named is as the line has it. */
export interface Passage {
  readonly bpm: Bpm;
  readonly repetitions: number;
  /** What to do, for the screen: short. */
  readonly say: string;
  readonly click?: 'off-beats';
  /** Even notes in pairs: dotted, or the other way round. */
  readonly rhythm?: 'long-short' | 'short-long';
  /** Only so many notes, from the front or up to the end. */
  readonly notes?: { readonly from: 'front' | 'back'; readonly count: number };
  /**
   * `slurred`: all under one slur. `one-note`: the tonguing and rhythm alone, all on the first note. `whispered` and
   * `breathed`: fingers and syllables without a tone, on tongued and on slurred lines.
   */
  readonly playing?: 'slurred' | 'one-note' | 'whispered' | 'breathed';
  /** So many beats at speed, then so many of rest, through the repetition. */
  readonly burst?: { readonly beats: number; readonly rest: number };
}

export interface Way {
  readonly id: WayId;
  readonly title: string;
  /** One sentence: what it is for. */
  readonly why: string;
  readonly passages: readonly Passage[];
  /** Where the ladder goes on afterwards: one rung below the wall. */
  readonly back: Bpm;
}

export interface WayInput {
  readonly wall: Bpm;
  readonly rungs: Rungs;
  /** Whether there is anything to tongue on this line. */
  readonly tongued: boolean;
  /** Notes of the pattern; null for the player's own material, where they cannot be counted. */
  readonly notes: number | null;
  /** Beats in a bar. */
  readonly beats: number;
}

interface Recipe {
  readonly title: string;
  readonly why: string;
  readonly fits: (input: WayInput) => boolean;
  readonly passages: (input: WayInput) => readonly Passage[];
}

const below = ({ rungs, wall }: WayInput): Bpm => rungFrom(rungs, wall, -1);
/** The rung nearest to a share of the wall's tempo. */
const share = ({ rungs, wall }: WayInput, of: number): Bpm => rungs[nearestRung(rungs, wall * of)] ?? wall;
const always = (): boolean => true;
const tongued = (input: WayInput): boolean => input.tongued;
const slurred = (input: WayInput): boolean => !input.tongued;
const counted = ({ notes }: WayInput): boolean => (notes ?? 0) >= 4;

const asWritten = (input: WayInput): Passage => ({ bpm: below(input), repetitions: 1, say: 'as written' });

/** A note more each time; on long patterns several, so that it stays within eight steps. */
function growing(input: WayInput, from: 'front' | 'back'): readonly Passage[] {
  const notes = input.notes ?? 0;
  const by = Math.max(1, Math.ceil((notes - 2) / 8));
  const counts = Array.from({ length: Math.ceil((notes - 2) / by) }, (_, i) => 2 + i * by);
  const where = from === 'front' ? 'first' : 'last';
  return counts.map((count) => ({
    bpm: below(input),
    repetitions: 2,
    say: `the ${where} ${count} notes`,
    notes: { from, count },
  }));
}

const RECIPES: Readonly<Record<WayId, Recipe>> = {
  'half-tempo': {
    title: 'Half tempo and back',
    why: 'Slow enough to notice what the fast one hides, then back in steps.',
    fits: always,
    passages: (input) =>
      [0.5, 0.6, 0.7, 0.8, 0.9].map((of) => ({
        bpm: share(input, of),
        repetitions: of === 0.5 ? 2 : 1,
        say: of === 0.5 ? 'half tempo, at ease' : `${of * 100} % of the tempo`,
      })),
  },
  bursts: {
    title: 'Short bursts',
    why: 'A little at full speed with a rest after it: speed without the strain of going on.',
    fits: always,
    passages: (input) =>
      [1, 2, input.beats]
        .filter((beats, i, all) => all.indexOf(beats) === i)
        .map((beats) => ({
          bpm: input.wall,
          repetitions: 2,
          say: `${beats === 1 ? '1 beat' : `${beats} beats`} at speed, as long a rest`,
          burst: { beats, rest: beats },
        })),
  },
  dotted: {
    title: 'Dotted both ways',
    why: 'Each note gets its turn to be the quick one; uneven places show.',
    fits: always,
    passages: (input) => [
      { bpm: share(input, 0.75), repetitions: 3, say: 'long, short', rhythm: 'long-short' },
      { bpm: share(input, 0.75), repetitions: 3, say: 'short, long', rhythm: 'short-long' },
    ],
  },
  'from-front': {
    title: 'One note more, from the front',
    why: 'It is never more than one new note; where it breaks is the place.',
    fits: counted,
    passages: (input) => growing(input, 'front'),
  },
  'from-back': {
    title: 'One note more, from the back',
    why: 'You always play towards what you know already.',
    fits: counted,
    passages: (input) => growing(input, 'back'),
  },
  slurred: {
    title: 'Slurred only',
    why: 'Without the tongue: are air and fingers there?',
    fits: tongued,
    passages: (input) => [
      { bpm: below(input), repetitions: 2, say: 'all slurred', playing: 'slurred' },
      { bpm: input.wall, repetitions: 2, say: 'all slurred', playing: 'slurred' },
    ],
  },
  'one-note': {
    title: 'Tongue on one note',
    why: 'Without the fingers: is the tongue there?',
    fits: tongued,
    passages: (input) => [
      { bpm: below(input), repetitions: 2, say: 'all on the first note', playing: 'one-note' },
      { bpm: input.wall, repetitions: 2, say: 'all on the first note', playing: 'one-note' },
    ],
  },
  whispered: {
    title: 'Without a tone',
    why: 'Tongue and fingers keep each other company at no cost, and the lip has a rest.',
    fits: tongued,
    passages: (input) => [
      {
        bpm: below(input),
        repetitions: 2,
        say: 'syllables under the breath, fingers moving',
        playing: 'whispered',
      },
      {
        bpm: input.wall,
        repetitions: 2,
        say: 'syllables under the breath, fingers moving',
        playing: 'whispered',
      },
    ],
  },
  breathed: {
    title: 'Breath and fingers alone',
    why: 'Air and fingers keep each other company without a tone, and the lip has a rest.',
    fits: slurred,
    passages: (input) =>
      [below(input), input.wall].map((bpm) => ({
        bpm,
        repetitions: 2,
        say: 'a syllable breathed on each beat, fingers moving',
        playing: 'breathed' as const,
      })),
  },
  'off-beats': {
    title: 'Click on the off-beats',
    why: 'The beat has to come from you; a pulse that leans on the click shows.',
    fits: always,
    passages: (input) => [
      { bpm: share(input, 0.8), repetitions: 2, say: 'the click is the off-beat', click: 'off-beats' },
      { bpm: below(input), repetitions: 2, say: 'the click is the off-beat', click: 'off-beats' },
    ],
  },
};

export const WAY_IDS = Object.keys(RECIPES) as readonly WayId[];

/** Every way that fits the line, in no order of merit; each ends as written, one rung below the wall. */
export const waysRound = (input: WayInput): readonly Way[] =>
  WAY_IDS.filter((id) => RECIPES[id].fits(input)).map((id) => {
    const { title, why, passages } = RECIPES[id];
    return { id, title, why, passages: [...passages(input), asWritten(input)], back: below(input) };
  });
