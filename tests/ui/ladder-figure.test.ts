import { describe, expect, it } from 'vitest';
import { DEFAULT_RULE, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { type LadderView, ladderFigure } from '../../src/ui/components/ladder-figure.ts';
import { plainText, widthOf } from '../../src/ui/paint.ts';

const VIEW: LadderView = {
  rungs: rungsOf({ ...DEFAULT_RULE, step: { by: 'beats', bpm: 4 }, floor: 60, top: 140, start: 60, target: 120 }),
  bpm: 84,
  best: 80,
  target: 120,
  cleanRun: 1,
  cleanUp: 3,
  missedRun: 0,
  aim: null,
  missedDown: 2,
  wall: null,
  safe: null,
  early: null,
  marks: new Map<number, readonly Mark[]>([
    [80, ['clean', 'clean', 'clean']],
    [84, ['missed', 'clean']],
  ]),
  triedBefore: new Set([76, 80]),
};

describe('the ladder', () => {
  it('is drawn leaning to the target, held rungs solid, the current one thick and filled by clean repetitions', () => {
    expect(plainText(ladderFigure(VIEW, 48, 15))).toMatchInlineSnapshot(`
      "  120            │┄┄┄┄┄│             target
                      ┆       ┆           ┆ 2 rungs
        108          ╱┄┄┄┄┄┄┄┄┄╲
        104         ╱┄┄┄┄┄┄┄┄┄┄┄╲
        100        ╱┄┄┄┄┄┄┄┄┄┄┄┄┄╲
         96       ╱┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄╲
         92      ╱┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄╲
         88     ╱┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄╲
                │██████ ░░░░░░ ░░░░░│     ●○○ up
         84     │██████ ░░░░░░ ░░░░░│     ×●
                │██████ ░░░░░░ ░░░░░│     ○○ down
         80    ╱━━━━━━━━━━━━━━━━━━━━━╲    ●●● best
         76   ╱━━━━━━━━━━━━━━━━━━━━━━━╲
         72  ╱━━━━━━━━━━━━━━━━━━━━━━━━━╲
         68 ╱━━━━━━━━━━━━━━━━━━━━━━━━━━━╲"
    `);
  });

  it.each([
    [40, 12],
    [48, 15],
    [48, 19],
    [58, 17],
    [76, 30],
    [76, 40],
  ])('fills exactly %i columns and %i rows, wherever on the ladder', (width, height) => {
    for (const bpm of VIEW.rungs) {
      const lines = ladderFigure({ ...VIEW, bpm }, width, height);
      expect(lines).toHaveLength(height);
      for (const painted of lines) expect(widthOf(painted)).toBe(width);
    }
  });

  it('ends where the ladder ends', () => {
    const text = plainText(ladderFigure({ ...VIEW, bpm: 60 }, 48, 15));
    expect(text.trimEnd().split('\n').at(-1)).toMatch(/│█+ ░+ ░+│/);
  });

  it('shows any number of clean repetitions that a rule may ask for', () => {
    for (const cleanUp of [1, 2, 3, 5, 10, 20]) {
      const text = plainText(ladderFigure({ ...VIEW, cleanUp, cleanRun: cleanUp - 1 }, 48, 15));
      expect(text).toMatch(/░/);
    }
  });

  it('stands a far target off by a break of so many rungs, and draws none where every rung is there', () => {
    // From 84 in steps of 4: 112 and 116 are not drawn between 108 and the target of 120.
    expect(plainText(ladderFigure(VIEW, 48, 15))).toMatch(/120 .*target\n .*┆ 2 rungs\n +108 /);
    expect(plainText(ladderFigure({ ...VIEW, target: 108 }, 48, 15))).not.toContain('┆');
  });

  it('breaks twice where the best is far too', () => {
    const text = plainText(ladderFigure({ ...VIEW, bpm: 64, best: 112 }, 48, 15));
    // 120, one rung between (116), 112, and what fits above 64.
    expect(text).toMatch(/120 .*target\n .*┆ 1 rung\n +112 .*best\n .*┆ \d rungs\n/);
  });

  it('draws the wall where it stands', () => {
    expect(plainText(ladderFigure({ ...VIEW, wall: 92 }, 48, 15))).toMatch(/ 92 +╱▞+╲ .*wall/);
  });

  it('brackets the rungs that are safe, and one alone', () => {
    const text = plainText(ladderFigure({ ...VIEW, safe: { low: 74, high: 81 } }, 48, 15)).split('\n');
    expect(text.find((row) => row.includes(' 80 '))).toMatch(/╲ +┐/);
    expect(text.find((row) => row.includes(' 76 '))).toMatch(/╲ +┘/);
    expect(plainText(ladderFigure({ ...VIEW, safe: { low: 79, high: 81 } }, 48, 15))).toMatch(/ 80 .*\]●●● best/);
    expect(plainText(ladderFigure({ ...VIEW, safe: { low: 200, high: 210 } }, 48, 15))).not.toMatch(/[┐┘\]]/);
  });

  it('shows the run towards the fall beside the run towards the climb, and as a crack in the rung', () => {
    const text = plainText(ladderFigure({ ...VIEW, cleanRun: 0, missedRun: 1, missedDown: 2 }, 48, 15));
    expect(text).toMatch(/│░+ ░+ ░+│ +○○○ up/);
    expect(text).toMatch(/│(╲╱)+╲?[░ ]+│ +×○ down/);
    expect(plainText(ladderFigure(VIEW, 48, 15))).not.toContain('╲╱');
  });
});
