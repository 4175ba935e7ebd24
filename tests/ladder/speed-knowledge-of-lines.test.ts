/** What is learnt of a few lines, worked out beside the program from the same parts. */
import { describe, expect, it } from 'vitest';
import { lineName } from '../../src/ladder/line.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import {
  NO_BELIEF,
  type Normal,
  afterTallies,
  markingOf,
  normalOf,
  speedEstimate,
  tenseShareOf,
  weakPrior,
  weightsOn,
} from '../../src/ladder/speed/speed-estimate.ts';
import {
  type Reading,
  pooled,
  predictEachFromOthers,
  predictLine,
} from '../../src/ladder/speed/speed-from-other-lines.ts';
import {
  type LineQuestion,
  type PlayedLine,
  estimateOf,
  learnAllLines,
  startOf,
  wallAhead,
} from '../../src/ladder/speed/speed-knowledge.ts';
import { wallOf } from '../../src/ladder/wall/wall.ts';
import { type Played, historyOf } from './histories.ts';
import { FALL, LAST, LINE, RUNGS, WALL, at } from './wall-days.ts';

const DAY = 20_000;
const QUESTION: LineQuestion = { line: LINE, notesPerBeat: 4, rule: DEFAULT_RULE, day: DAY };

const days = (bpm: number): readonly (readonly Played[])[] => [
  at(bpm, 'ccccccctcc'),
  [...at(Math.round(bpm * 1.1), 'ctmcm'), ...at(Math.round(bpm * 1.05), 'ccctccc')],
];

describe('what is learnt of two lines', () => {
  const slow = { exercise: 'thirds', articulation: 'single', key: 'C' };
  const fast = { ...slow, key: 'F' };
  const hardly = { ...slow, key: 'Bb' };
  const histories: readonly PlayedLine[] = [
    { ...historyOf(slow, days(80), DAY), notesPerBeat: 4 },
    { ...historyOf(fast, days(150), DAY - 3), notesPerBeat: 2 },
    { ...historyOf(hardly, [[...at(20, 'c'), ...at(300, 'm')]], DAY), notesPerBeat: 3 },
  ];
  const knowledge = () => learnAllLines(histories);
  /** Counted over all three lines. */
  const marking = markingOf(tenseShareOf({ tense: 6, missed: 5 }));
  const beliefs = histories.map(({ tallies }) => afterTallies(marking, NO_BELIEF, tallies));
  const toNotes = [4, 2, 3].map((notes) => Math.log(notes / 60));

  /** What a line says beside a prior: the precision of a product of two normal densities is the sum of theirs. */
  function reading(i: number, prior: Normal): Reading | null {
    const { mean, sd } = normalOf(weightsOn(beliefs[i]!, prior, beliefs[i]!.day!));
    const precision = sd ** -2 - prior.sd ** -2;
    const own = (mean * sd ** -2 - prior.mean * prior.sd ** -2) / precision;
    return precision < 0.5 ? null : { line: histories[i]!.line, speed: own + toNotes[i]!, sd: precision ** -0.5 };
  }

  it('is read twice: with a wide prior where the marks are, then with what the other lines say', () => {
    const wide = histories.map(({ tallies }) => ({
      mean: tallies.reduce((sum, { bpm }) => sum + Math.log(bpm), 0) / tallies.length,
      sd: 0.35,
    }));
    const first = wide.map((prior, i) => reading(i, prior));
    expect(first[2]).toBeNull();
    const pool = pooled([first[0]!, first[1]!]);
    const lent = predictEachFromOthers(pool);
    const priors = [lent[0]!, lent[1]!, predictLine(pool, hardly)].map(({ mean, sd }, i) => ({
      mean: mean - toNotes[i]!,
      sd,
    }));
    const second = priors.map((prior, i) => reading(i, prior));
    expect(second[2]).toBeNull();
    expect(knowledge().pool.scale).toBe(pool.scale);
    expect(knowledge().pool.readings).toHaveLength(2);
    knowledge().pool.readings.forEach(({ line, speed, sd }, i) => {
      expect(line).toEqual(histories[i]!.line);
      expect(speed).toBeCloseTo(second[i]!.speed, 9);
      expect(sd).toBeCloseTo(second[i]!.sd, 9);
    });
    // Sixteenths at about 80 and eighths at about 150 are nearly as fast.
    expect(Math.abs(second[0]!.speed - second[1]!.speed)).toBeLessThan(0.2);
  });

  it('has the other line in its estimate, together with where the exercise starts', () => {
    const { pool } = knowledge();
    const own = weakPrior(DEFAULT_RULE);
    const both = (lent: Normal, notes: number): Normal => {
      const [a, b] = [lent.sd ** -2, own.sd ** -2];
      return { mean: ((lent.mean - notes) * a + own.mean * b) / (a + b), sd: (a + b) ** -0.5 };
    };
    const unplayed = { ...slow, key: 'Eb' };
    const found = estimateOf(knowledge(), { ...QUESTION, line: unplayed, notesPerBeat: 3 });
    const wanted = speedEstimate(NO_BELIEF, both(predictLine(pool, unplayed), toNotes[2]!), DAY);
    expect(found.bpm).toBeCloseTo(wanted.bpm, 9);
    expect(found.high / found.low).toBeCloseTo(wanted.high / wanted.low, 9);
    expect(found).toMatchObject({ marks: 0, siblings: true });
    const lent = predictEachFromOthers(pool)[0]!;
    const known = estimateOf(knowledge(), { ...QUESTION, line: slow });
    expect(known.bpm).toBeCloseTo(speedEstimate(beliefs[0]!, both(lent, toNotes[0]!), DAY).bpm, 9);
    expect(known).toMatchObject({ marks: 22, siblings: true });
  });

  it('marks as the player does, over all lines', () => {
    expect(knowledge().marking(100).tense.slice(600, 700)).toEqual(marking(100).tense.slice(600, 700));
  });

  it('says that others stand behind a line, though it can say nothing itself yet', () => {
    const two = learnAllLines([histories[0]!, histories[2]!]);
    expect(estimateOf(two, { ...QUESTION, line: hardly }).siblings).toBe(true);
    expect(estimateOf(two, { ...QUESTION, line: slow }).siblings).toBe(false);
  });

  it('leaves out lines without marks, and marks at tempos that nobody can play', () => {
    const never = historyOf({ ...slow, key: 'D' }, [], DAY);
    const impossible = historyOf({ ...slow, key: 'G' }, [at(5, 'ccc')], DAY);
    const more = learnAllLines([...histories, never, impossible]);
    expect([...more.lines.keys()]).toEqual(histories.map(({ line }) => lineName(line)));
    expect(estimateOf(more, { ...QUESTION, line: slow })).toEqual(estimateOf(knowledge(), { ...QUESTION, line: slow }));
  });

  it('of one line alone lends nothing, and rests on where the exercise starts', () => {
    const one = learnAllLines([histories[0]!]);
    const only = markingOf(tenseShareOf({ tense: 3, missed: 2 }));
    const belief = afterTallies(only, NO_BELIEF, histories[0]!.tallies);
    expect(estimateOf(one, { ...QUESTION, line: slow })).toEqual({
      ...speedEstimate(belief, weakPrior(DEFAULT_RULE), DAY),
      siblings: false,
      played: { low: 80, high: 88 },
    });
  });

  it('compares nothing by notes where nobody said how many there are on a beat', () => {
    const [first, ...rest] = histories;
    const untold = learnAllLines([{ ...first!, notesPerBeat: 0 }, ...rest]);
    const once = learnAllLines([{ ...first!, notesPerBeat: 1 }, ...rest]);
    expect(untold.pool.readings[0]!.speed).toBe(once.pool.readings[0]!.speed);
  });
});

describe('of a line that is known', () => {
  const history: PlayedLine = historyOf(
    LINE,
    Array.from({ length: 60 }, () => FALL),
    LAST,
  );
  const rule = { ...DEFAULT_RULE, missedDown: 2 };
  const ask = { line: LINE, notesPerBeat: 4, rule, day: LAST };

  it('the wall is seen; there is none before a line never played', () => {
    const knowledge = learnAllLines([history]);
    const { marking } = knowledge;
    const wall = wallAhead(knowledge, ask, RUNGS);
    expect(wall).toMatchObject({ bpm: WALL, seen: 'falls' });
    expect(wall).toEqual(wallOf({ history, rule, rungs: RUNGS, marking, prior: weakPrior(rule), day: LAST }));
    expect(wallAhead(knowledge, { ...ask, line: { ...LINE, key: 'F' } }, RUNGS)).toBeNull();
    expect(wallAhead(knowledge, { ...ask, day: LAST + 40 }, RUNGS)).toBeNull();
  });

  it("today's start keeps to the best, and a key never played to what the others say", () => {
    const easy = historyOf(LINE, [at(90, 'ccccccccc'), at(92, 'ccccccccc')], LAST);
    const knowledge = learnAllLines([{ ...easy, best: { bpm: 79, day: '2020-01-01' } }]);
    const warm = { ...ask, warm: true };
    expect(startOf(knowledge, warm, RUNGS)).toEqual({
      bpm: RUNGS.findLast((rung) => rung <= 79),
      reason: expect.stringContaining('your best') as string,
    });
    const start = startOf(knowledge, { ...warm, line: { ...LINE, key: 'F' } }, RUNGS);
    expect(start.reason).toContain('not played yet; where its other keys and articulations point');
    expect(startOf(learnAllLines([easy]), warm, RUNGS).bpm).toBeGreaterThan(79);
    const cold = startOf(knowledge, { ...ask, line: { ...LINE, key: 'F' } }, RUNGS);
    expect(cold.bpm).toBe(RUNGS[RUNGS.indexOf(start.bpm) - 2]);
  });
});
