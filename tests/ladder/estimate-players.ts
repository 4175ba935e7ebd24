/** The simulated players that the estimate is held against, kind by kind: wider than its own grid, on purpose. */
import { type Chance, evenInLog, normal } from '../../src/common/chance.ts';
import { type SimulatedPlayer, type Variability, simulatedPlayer } from '../../src/ladder/settling/simulated-player.ts';
import type { PlayerCurve } from '../../src/ladder/settling/player-curve.ts';
import { anyPlayer } from './simulated-players.ts';

/** A player, and what the simulated player of the program does not have: it is played from outside, mark by mark. */
export interface TrialPlayer {
  readonly player: SimulatedPlayer;
  /** Repetitions of a day. */
  readonly aDay: number;
  /** Standard deviation of a run of repetitions that share their luck, and how many such a run has on average. */
  readonly streak: { readonly sd: number; readonly length: number };
  /** Gained from each day of practice to the next, whatever was marked. */
  readonly gain: number;
  /** Something else is played before this line on every day. */
  readonly warm?: boolean;
}

const CALM: Variability = { drift: 0.005, form: 0.01, learning: 0, ceiling: 400, fatigue: 0.0005, rust: 0.004 };
const NO_STREAK = { sd: 0, length: 1 };

/** The ranges in words, for the tables. Who is ordinary was written down before there was a table: `anyPlayer`. */
export const RANGES = [
  'All: 6 to 24 marks a day, the first day begun at 70 to 105 % of the true tempo, every other where the program ' +
    'says first thing in the day, but for the row that says otherwise.',
  'Ordinary: threshold 60 to 200, slope 6 to 40, lapses 0 to 6 %, tense 0 to 50 %; drift and form to 2 % a day each, ' +
    'fatigue to 0.1 % a repetition, learning to 0.15 % a clean one.',
  'Anybody: threshold 50 to 220, slope 4.5 to 48 (the grid: 5 to 42), lapses 0 to 8 % (the grid: 0.5 to 6.5 %), ' +
    'tense 0 to 60 %; drift and form to 2 %, fatigue to 0.1 %, learning to 0.05 %.',
  'All others: threshold 50 to 220, slope 6 to 40, lapses 0 to 6 %, tense 0 to 60 %, drift 0.5 %, form 1 %, fatigue ' +
    '0.05 %, and what the row says.',
];

function curveIn(chance: Chance, slope: readonly [number, number], lapse: number, tense: number): PlayerCurve {
  return {
    threshold: evenInLog(chance, 50, 220),
    slope: evenInLog(chance, ...slope),
    lapse: lapse * chance(),
    tense: tense * chance(),
  };
}

const anyDay = (chance: Chance): number => Math.round(evenInLog(chance, 6, 24));

/** Wider than the grid in every respect. */
const anybody = (chance: Chance): TrialPlayer => ({
  ...ordinary(chance),
  player: simulatedPlayer(curveIn(chance, [4.5, 48], 0.08, 0.6), {
    drift: 0.02 * chance(),
    form: 0.02 * chance(),
    fatigue: 0.001 * chance(),
    learning: 0.0005 * chance(),
    ceiling: 400,
    rust: 0.004,
  }),
});

interface Oddity {
  readonly curve?: Partial<PlayerCurve>;
  readonly variability?: Partial<Variability>;
  readonly streak?: TrialPlayer['streak'];
  readonly gain?: number;
}

/** A calm player who is odd in one thing. */
const odd =
  (oddity: (chance: Chance) => Oddity) =>
  (chance: Chance): TrialPlayer => {
    const { curve, variability, streak = NO_STREAK, gain = 0 } = oddity(chance);
    const player = simulatedPlayer({ ...curveIn(chance, [6, 40], 0.06, 0.6), ...curve }, { ...CALM, ...variability });
    return { player, aDay: anyDay(chance), streak, gain };
  };

const ordinary = (chance: Chance): TrialPlayer => ({
  player: anyPlayer(chance),
  aDay: anyDay(chance),
  streak: NO_STREAK,
  gain: 0,
});

export const KINDS = {
  ordinary,
  'ordinary, not the first line of the day': (chance) => ({ ...ordinary(chance), warm: true }),
  anybody,
  'day form 4 %': odd(() => ({ variability: { form: 0.04 } })),
  'drift 3 % a day': odd(() => ({ variability: { drift: 0.03 } })),
  'streaks 5 %, of eight': odd(() => ({ streak: { sd: 0.05, length: 8 } })),
  'fatigue 0.2 % a repetition': odd(() => ({ variability: { fatigue: 0.002 } })),
  'slope 6 to 9': odd((chance) => ({ curve: { slope: evenInLog(chance, 6, 9) } })),
  'slope 30 to 40': odd((chance) => ({ curve: { slope: evenInLog(chance, 30, 40) } })),
  'lapses 6 %': odd(() => ({ curve: { lapse: 0.06 } })),
  'tense 60 %': odd(() => ({ curve: { tense: 0.6 } })),
  'learning 2 % a day': odd(() => ({ gain: 0.02 })),
} as const satisfies Readonly<Record<string, (chance: Chance) => TrialPlayer>>;

export type Kind = keyof typeof KINDS;

/** Whether the next repetition begins another run of luck. */
export const nextLuck = ({ sd, length }: TrialPlayer['streak'], luck: number, chance: Chance): number =>
  sd > 0 && chance() < 1 / length ? sd * normal(chance) : luck;
