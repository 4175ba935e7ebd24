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
      "  120            │┄┄┄┄┄│             target ↑9
        112           ╱┄┄┄┄┄┄┄╲
        108          ╱┄┄┄┄┄┄┄┄┄╲
        104         ╱┄┄┄┄┄┄┄┄┄┄┄╲
        100        ╱┄┄┄┄┄┄┄┄┄┄┄┄┄╲
         96       ╱┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄╲
         92      ╱┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄╲
         88     ╱┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄╲
                │██████ ░░░░░░ ░░░░░│
         84     │██████ ░░░░░░ ░░░░░│     ×●
                │██████ ░░░░░░ ░░░░░│
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
});
