import { type Line } from '../../src/ladder/line.ts';
import { describe, expect, it } from 'vitest';
import { type Chance, normal, seeded } from '../../src/common/chance.ts';
import { startAt } from '../../src/ladder/rule/climb.ts';
import {
  type PlayedLine,
  estimateOf,
  learnAllLines,
  learnLineAgain,
  startOf,
} from '../../src/ladder/speed/speed-knowledge.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { simulatedPlayer, playLadder } from '../../src/ladder/settling/simulated-player.ts';
import { historyOf } from './histories.ts';
import { tempoWhereClean } from './simulated-players.ts';

const EXERCISES = ['five-notes', 'thirds', 'broken-chords'];
const ARTICULATIONS = ['slurred', 'single', 'double'];
const KEYS = ['C', 'F', 'Bb', 'Eb', 'D'];
const RUNGS = rungsOf(DEFAULT_RULE);
const DAY = 20_000;
const KNOWN: Line = { exercise: 'thirds', articulation: 'double', key: 'C' };
const QUESTION = { line: KNOWN, notesPerBeat: 4, rule: DEFAULT_RULE, day: DAY };

interface Truth {
  readonly line: Line;
  /** Beats per minute at nine clean in ten. */
  readonly bpm: number;
}

/**
 * A player whose lines differ: standard deviations of 25 % between exercises, 12 % between articulations, 8 %
 * between keys, 4 % for a line alone. Invented; not the ones that the program supposes.
 */
function truths(chance: Chance): readonly Truth[] {
  const effects = (names: readonly string[], sd: number): Map<string, number> =>
    new Map(names.map((name) => [name, sd * normal(chance)]));
  const own = Math.log(92) + 0.2 * normal(chance);
  const [e, a, k] = [effects(EXERCISES, 0.25), effects(ARTICULATIONS, 0.12), effects(KEYS, 0.08)];
  return EXERCISES.flatMap((exercise) =>
    ARTICULATIONS.flatMap((articulation) =>
      KEYS.map((key) => {
        const log = own + e.get(exercise)! + a.get(articulation)! + k.get(key)! + 0.04 * normal(chance);
        return { line: { exercise, articulation, key }, bpm: Math.exp(log) };
      }),
    ),
  );
}

/** 24 marks of a line on the ladder, begun a little below where it is safe. */
function played({ line, bpm }: Truth, chance: Chance): PlayedLine {
  const curve = { threshold: bpm * Math.exp(2.4 / 14), slope: 14, lapse: 0.02, tense: 0.3 };
  const at = RUNGS.findLast((rung) => rung <= tempoWhereClean(curve, 0.9) * 0.9) ?? RUNGS[0]!;
  const { marks } = playLadder(simulatedPlayer(curve), startAt(at), DEFAULT_RULE, RUNGS, 24, chance);
  return historyOf(line, [marks], DAY);
}

const logError = (found: number, truth: number): number => Math.abs(Math.log(found / truth));
const mean = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0) / numbers.length;

describe('what lines lend each other', () => {
  const chance = seeded(31);
  const trials = Array.from({ length: 30 }, () => {
    const all = truths(chance);
    const isPlayed = all.map(() => chance() < 0.6);
    const knowledge = learnAllLines(all.filter((_, i) => isPlayed[i]).map((truth) => played(truth, chance)));
    const ask = (line: Line) => estimateOf(knowledge, { line, notesPerBeat: 4, rule: DEFAULT_RULE, day: DAY });
    const own = Math.exp(mean(all.filter((_, i) => isPlayed[i]).map(({ line }) => Math.log(ask(line).bpm))));
    return all.flatMap(({ line, bpm }, i) => (isPlayed[i] ? [] : [{ bpm, own, found: ask(line) }]));
  }).flat();

  it("predicts an unplayed key at least a third better than the player's mean over all lines", () => {
    const hierarchical = mean(trials.map(({ bpm, found }) => logError(found.bpm, bpm)));
    const overall = mean(trials.map(({ bpm, own }) => logError(own, bpm)));
    expect(hierarchical).toBeLessThan((overall * 2) / 3);
  });

  it('with an 80 % interval that holds the truth about that often', () => {
    const covered = mean(trials.map(({ bpm, found: { low, high } }) => (low <= bpm && bpm <= high ? 1 : 0)));
    expect(covered).toBeGreaterThan(0.72);
    expect(covered).toBeLessThan(0.9);
  });

  it('with a wider interval than a played line has, and says that it borrowed', () => {
    const [line] = truths(seeded(1)).slice(7, 8);
    const others = truths(seeded(1)).filter((_, i) => i % 3 === 0);
    const knowledge = learnAllLines([...others, line!].map((truth) => played(truth, seeded(2))));
    const ask = (name: Line) => estimateOf(knowledge, { line: name, notesPerBeat: 4, rule: DEFAULT_RULE, day: DAY });
    const known = ask(line!.line);
    const unknown = ask({ ...line!.line, key: 'Gb' });
    expect(unknown.high / unknown.low).toBeGreaterThan(known.high / known.low);
    expect(unknown).toMatchObject({ marks: 0, siblings: true });
  });

  it('in notes per second: the same line in quarters stands at twice the tempo of eighths', () => {
    const knowledge = learnAllLines(
      truths(seeded(5))
        .slice(0, 12)
        .map((truth) => played(truth, seeded(6))),
    );
    const rule = { ...DEFAULT_RULE, start: 90 };
    const ask = (notesPerBeat: number): number =>
      estimateOf(knowledge, {
        line: { exercise: 'five-notes', articulation: 'slurred', key: 'Gb' },
        notesPerBeat,
        rule,
        day: DAY,
      }).bpm;
    expect(ask(2) / ask(4)).toBeGreaterThan(1.7);
    expect(ask(2) / ask(4)).toBeLessThan(2.1);
  });
});

describe('before anything is known', () => {
  const ask = {
    line: { exercise: 'thirds', articulation: 'single', key: 'C' },
    notesPerBeat: 4,
    rule: DEFAULT_RULE,
    day: DAY,
  };

  it('the estimate is wide and near the start, and the start is the exercise own', () => {
    const { bpm, low, high, marks, siblings } = estimateOf(learnAllLines([]), ask);
    expect(high / low).toBeGreaterThan(2.5);
    expect(bpm).toBeGreaterThan(60);
    expect([marks, siblings]).toEqual([0, false]);
    // The rung nearest to 60: of two as near, the lower.
    expect(startOf(learnAllLines([]), ask, RUNGS).bpm).toBe(RUNGS.findLast((rung) => rung <= 60));
  });
});

/** Nothing but clean marks, so that how the player marks stays the same. */
const clean = (days: readonly (readonly number[])[]): PlayedLine =>
  historyOf(
    KNOWN,
    days.map((bpms) => bpms.map((bpm) => ({ bpm, mark: 'clean' as const }))),
    DAY,
  );

describe('one mark more or less', () => {
  it('is the same as learning again, as far as the line itself goes; undoing is exact', () => {
    const truth = truths(seeded(8))[0]!;
    const line = truth.line;
    const before = played(truth, seeded(9));
    const last = before.tallies.at(-1)!;
    const after: PlayedLine = {
      ...before,
      tallies: [...before.tallies.slice(0, -1), { ...last, missed: last.missed + 3 }],
    };
    const ask = { line, notesPerBeat: 4, rule: DEFAULT_RULE, day: DAY };
    const knowledge = learnAllLines([before]);
    const marked = learnLineAgain(knowledge, after);
    expect(estimateOf(marked, ask).bpm).toBeLessThan(estimateOf(knowledge, ask).bpm);
    expect(estimateOf(learnLineAgain(marked, before), ask)).toEqual(estimateOf(knowledge, ask));
  });

  it('a mark taken back from an earlier day is taken back too', () => {
    const line = truths(seeded(8))[0]!.line;
    const days = [0, 1].map(() =>
      [90, 93, 96].flatMap((bpm) => [
        { bpm, mark: 'clean' as const },
        { bpm, mark: 'tense' as const },
      ]),
    );
    const history = historyOf(line, days, DAY);
    const [first, ...rest] = history.tallies;
    const less: PlayedLine = { ...history, tallies: [{ ...first!, tense: 0 }, ...rest] };
    const ask = { line, notesPerBeat: 4, rule: DEFAULT_RULE, day: DAY };
    const other = learnLineAgain(learnAllLines([history]), less);
    expect(estimateOf(other, ask).bpm).toBeGreaterThan(estimateOf(learnAllLines([history]), ask).bpm);
    expect(estimateOf(other, ask).marks).toBe(11);
  });

  it('is the same as learning again on a new day too', () => {
    const yesterday = { ...clean([[90, 93, 96]]), lastDay: '', tallies: clean([[90, 93, 96], []]).tallies };
    const today = clean([
      [90, 93, 96],
      [96, 99],
    ]);
    const before = learnAllLines([{ ...yesterday, lastDay: yesterday.tallies[0]!.day }]);
    expect(estimateOf(learnLineAgain(before, today), QUESTION)).toEqual(estimateOf(learnAllLines([today]), QUESTION));
  });

  it('goes on resting on other lines', () => {
    const others = truths(seeded(5)).filter(({ line }) => line.key !== 'C');
    const all = others.map((truth) => played(truth, seeded(6)));
    const line = { exercise: 'thirds', articulation: 'single', key: 'C' };
    const knowledge = learnAllLines(all);
    const ask = { ...QUESTION, line };
    const unplayed = estimateOf(knowledge, ask);
    const first = historyOf(line, [[{ bpm: Math.round(unplayed.bpm), mark: 'tense' }]], DAY);
    const marked = estimateOf(learnLineAgain(knowledge, first), ask);
    const learnt = estimateOf(learnAllLines([...all, first]), ask);
    expect(marked.bpm / learnt.bpm).toBeCloseTo(1, 2);
    expect(marked.high / marked.low / (learnt.high / learnt.low)).toBeCloseTo(1, 1);
    expect(marked).toMatchObject({ marks: 1, siblings: true });
    // And it stays so with the marks that follow.
    const second = learnLineAgain(learnLineAgain(knowledge, first), first);
    expect(estimateOf(second, ask)).toEqual(marked);
  });
});
