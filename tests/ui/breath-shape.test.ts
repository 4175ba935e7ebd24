/** A breath drawn as a shape, with the player's own lengths. The breath itself is common practice, no source. */
import { describe, expect, it } from 'vitest';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { breathNow, fullness, lengthOfBreath } from '../../src/plan/run/breaths.ts';
import { breathShape } from '../../src/ui/components/breath-shape.ts';
import { plainText, widthOf } from '../../src/ui/paint.ts';
import { inPlainLetters } from '../../src/ui/plain-letters.ts';

const EACH = { out: 6, wait: 2, back: 4 };

describe('a breath', () => {
  it('empties, waits, comes back and is over, each as long as the player says', () => {
    const stages = [0, 5.9, 6, 7.5, 8, 11.9, 12, 20].map((seconds) => breathNow(EACH, seconds).stage);
    expect(stages).toEqual(['out', 'out', 'wait', 'wait', 'back', 'back', 'over', 'over']);
    expect(breathNow(EACH, 7.5).seconds).toBe(1.5);
    expect(breathNow({ ...EACH, wait: 0 }, 6).stage).toBe('back');
    expect(lengthOfBreath(EACH)).toBe(12);
  });

  it('is full, then empty, then full again', () => {
    expect([0, 3, 6, 7, 8, 10, 12, 99].map((seconds) => fullness(EACH, seconds))).toEqual([1, 0.5, 0, 0, 0, 0.5, 1, 1]);
  });
});

describe('the shape of a breath', () => {
  const drawn = (seconds: number, columns = 40, height = 4) => breathShape(EACH, seconds, columns, height);

  it('goes down, along the ground and up again; what is over is solid, and its words count', () => {
    expect(`\n${plainText(drawn(7, 40))}\n`).toBe(`
██                                 ░
███████                         ░░░░
███████████                  ░░░░░░░
████████████████          ░░░░░░░░░░
━━━━━━━━━━━━━━━━━━━━━───────────────
empty out 6 s  ·  wait 1 of 2 s  ·  let it come back 4 s
`);
  });

  it('has no more columns than there are, and is told apart in ASCII', () => {
    for (const columns of [60, 80, 120])
      for (const seconds of [0, 3, 7, 11, 30])
        for (const line of drawn(seconds, columns, 8)) {
          expect(widthOf(line)).toBeLessThanOrEqual(columns - 4);
          expect(plainText([inPlainLetters(line)])).toMatch(/^[ -~]*$/u);
        }
    expect(plainText(drawn(7).map(inPlainLetters))).toContain('################          ..........');
  });
});

describe('each breath in a file', () => {
  const read = (each: string) => {
    const parsed = parseRoutine(`exercises:\n  empty: {breaths: 4, each breath: ${each}}\n`, 'a.yaml', () => ({
      trouble: 'there is no such file.',
    }));
    return 'troubles' in parsed ? parsed.troubles.map(troubleLine).join() : parsed.routine.exercises[0]?.eachBreath;
  };

  it('has its own seconds; without a wait it has none', () => {
    expect(read('{out: 6, wait: 2, back: 4}')).toEqual(EACH);
    expect(read('{out: 8, back: 4}')).toEqual({ out: 8, wait: 0, back: 4 });
  });

  it.each([
    ['{out: 0, back: 4}', "'out' is 0; write a number of seconds from 1 to 60."],
    ['{out: 6, wait: 90, back: 4}', "'wait' is 90; write a number of seconds from 0 to 30."],
    ['{out: 6}', "'back' is missing; write a number of seconds from 1 to 60."],
    ['{outt: 6, back: 3}', "there is no 'outt' in each breath; did you mean 'out'?"],
  ])('is refused in one clear sentence: %s', (each, sentence) => {
    expect(read(each)).toContain(sentence);
  });
});
