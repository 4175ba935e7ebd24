/** A line whose rule aims at a share of clean repetitions: from its marks of earlier days and of this sitting. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { dayPlus } from '../../src/common/days.ts';
import { climbNow, rungsNow, tempoAfter } from '../../src/practice/line/line-state.ts';
import { openedLine } from '../../src/practice/sitting/put-on-stand.ts';
import { withKnowledge } from '../../src/practice/sitting/line-speed.ts';
import { nextLines } from '../../src/ui/practice/practice-words.ts';
import { settingsScreen } from '../../src/ui/screens/settings-screen.ts';
import { writer } from '../journal/entries.ts';
import { DAY, firstStand } from './daily-sitting.ts';
import { EXERCISE, rehearse } from './rehearsal.ts';

const LINE = { exercise: EXERCISE.id, articulation: 'slurred', key: 'C' };
const AIMING = { ...EXERCISE, ladder: { ...DEFAULT_RULE, aim: 0.8 } };

/** Earlier days with many marks, clean up to 90 and missed above. */
function earlier() {
  const write = writer();
  return [-4, -3, -2].flatMap((days) => {
    const day = { ...LINE, day: dayPlus(DAY, days) };
    const clean = [80, 84, 88, 90].flatMap((bpm) => [0, 1, 2, 3].map(() => write.mark('clean', bpm, bpm, day)));
    return [...clean, ...[0, 1, 2].map(() => write.mark('missed', 102, 102, day))];
  });
}

function known() {
  const stand = firstStand([]);
  return withKnowledge({ ...stand.known, lines: Object.fromEntries(foldAll(earlier()).lines) });
}

function atWork(tempo: number | null = null) {
  const { expectation } = openedLine(known(), AIMING, { line: LINE, key: 'C' }, null);
  const opening = { ...(expectation ? { expectation } : {}), ...(tempo === null ? {} : { climb: startOf(tempo) }) };
  return rehearse({ rule: { aim: 0.8 }, opening });
}

const startOf = (bpm: number) => ({ bpm, cleanRun: 0, missedRun: 0, best: null });

describe('a rule that aims, on the stand', () => {
  it('has what it goes by from the line’s own marks; a rule that counts does without', () => {
    expect(openedLine(known(), AIMING, { line: LINE, key: 'C' }, null).expectation?.played).toHaveLength(15);
    expect(openedLine(known(), EXERCISE, { line: LINE, key: 'C' }, null).expectation).toBeUndefined();
  });

  it('goes up after one clean repetition far below what is expected, by two rungs at most', () => {
    const { press, until, state } = atWork(60);
    const rungs = rungsNow(state());
    press('start-pause');
    until('breath');
    press('clean');
    expect(rungs.indexOf(climbNow(state()).bpm)).toBe(rungs.indexOf(60) + 2);
  });

  it('comes down after a missed one far above, and keeps what it decided in the mark', () => {
    const { press, until, state, drafts } = atWork(120);
    const rungs = rungsNow(state());
    press('start-pause');
    until('breath');
    press('missed');
    const down = rungs[rungs.indexOf(120) - 2];
    expect(climbNow(state()).bpm).toBe(down);
    expect(drafts[0]).toMatchObject({ kind: 'mark', mark: 'missed', bpm: 120, next: down });
  });

  it('says before the mark where each would lead, and keeps to it; taken back, it says the same again', () => {
    const { press, until, state } = atWork(84);
    const before = (['clean', 'tense', 'missed'] as const).map((mark) => tempoAfter(state(), mark));
    const [up] = nextLines(state(), 60);
    expect(up).toContain('80 % aimed at');
    press('start-pause');
    until('breath');
    press('clean');
    expect(climbNow(state()).bpm).toBe(before[0]);
    press('undo');
    expect((['clean', 'tense', 'missed'] as const).map((mark) => tempoAfter(state(), mark))).toEqual(before);
  });

  it('is explained in one sentence where the settings are looked at', () => {
    const stand = firstStand([]);
    const shown = { ...stand, known: { ...stand.known, exercises: [AIMING] } };
    const text = settingsScreen({ ...shown, view: { screen: 'settings' } } as never, canvas())
      .map((line) =>
        line
          .map(({ text: part }) => part)
          .join('')
          .trim(),
      )
      .join(' ');
    expect(text).toContain('Aims at 80 % clean: after each mark the highest rung at which your marks let expect');
    expect(text).toContain('About 8 of 10 clean from the first half hour on');
  });
});

const canvas = () => ({ columns: 100, rows: 30, foot: [] }) as never;
