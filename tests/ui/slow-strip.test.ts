/** Slow work drawn whole: bars side by side, growing lines, seconds, breaths, pages by phrases. */
import { describe, expect, it } from 'vitest';
import { INSTRUMENTS } from '../../src/music/pitch/instruments.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { type Strip, stripOf } from '../../src/music/page/strip.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';
import { readArticulation } from '../../src/music/tongue/articulation.ts';
import { drillOf } from '../../src/music/tongue/drill.ts';
import { isSlowWork } from '../../src/ui/components/long-notes.ts';
import { slowHeight, slowStrip } from '../../src/ui/components/slow-strip.ts';
import { plainText, widthOf } from '../../src/ui/paint.ts';
import { inPlainLetters } from '../../src/ui/plain-letters.ts';

function strip(pattern: string): Strip {
  const asked = { scale: 'major', key: 'Bb', meter: COMMON_TIME, beat: QUARTER, notesPerBeat: 1 };
  const passage = writeOut({ ...asked, pattern, instrument: INSTRUMENTS[0]! });
  const single = readArticulation('single');
  if (!isPassage(passage) || typeof single === 'string') throw new Error('cannot be written');
  return stripOf(drillOf(passage, single));
}

const SIX = '1:1 | 2 | 3 | 2 | 1 | 7,';
const TIED = '1:1~ | 1 | 2~ | 2 | 3:1/2. r:1/4 | 1:1';
const PHRASE = '1:1 | 2 | 3:3/4 r:1/4';
/** Quarter = 60: a bar of four lasts four seconds. */
const drawn = (pattern: string, heard: number | null, columns = 80, height = 6) =>
  slowStrip({ strip: strip(pattern), heard, barSeconds: 4 }, columns, height);
const frame = (...asked: Parameters<typeof drawn>): string => `\n${plainText(drawn(...asked))}\n`;

describe('slow work', () => {
  it('is what has no more than two notes in a bar, over several bars', () => {
    expect(isSlowWork(strip(SIX))).toBe(true);
    expect(isSlowWork(strip(TIED))).toBe(true);
    expect(isSlowWork(strip('1 2 3 4 | 5'))).toBe(false);
    expect(isSlowWork(strip('1:1'))).toBe(false);
    expect(isSlowWork(strip('1:1/2 2:1/2 | 3:1/2 4:1/2'))).toBe(true);
    expect(isSlowWork(strip('1:1/4 r:3/4 | 3:1 | 1'))).toBe(false);
  });

  it('shows six bars of long tones at once in 80 columns, each with its seconds, and the breath at the end', () => {
    expect(frame(SIX, null)).toBe(`
 1            2            3            4            5            6
│B♭3──────── │C4───────── │D4───────── │C4───────── │B♭3──────── │A3─────────,
│T 4 s       │T 4 s       │T 4 s       │T 4 s       │T 4 s       │T 4 s
`);
  });

  it('lets the line of the note that is heard grow, with its seconds', () => {
    expect(frame(SIX, 1.5)).toBe(`
 1           ▼2            3            4            5            6
│B♭3──────── │C4━━━━───── │D4───────── │C4───────── │B♭3──────── │A3─────────,
│T 4 s       │T 2 of 4 s  │T 4 s       │T 4 s       │T 4 s       │T 4 s
`);
  });

  it('draws tied notes as one, counts their seconds over the bar line, and puts a breath before a rest', () => {
    expect(frame(TIED, 1.5)).toBe(`
 1           ▼2            3            4            5            6
│B♭4━━━━━━━━━│━━━━━━───── │C5──────────│─────────── │D5──────, · │B♭4────────,
│T 6 of 8 s  │            │T 8 s       │            │T 3 s       │T 4 s
`);
  });

  it('shows no seconds where no beat says how long they are', () => {
    expect(plainText(slowStrip({ strip: strip(SIX), heard: null, barSeconds: null }, 80, 6))).not.toContain(' s');
  });

  it('turns over by phrases where there are more bars than room, and keeps its height', () => {
    const long = [PHRASE, PHRASE, PHRASE, PHRASE, PHRASE].join(' | ');
    const numbers = (heard: number | null, columns: number): readonly number[] =>
      drawn(long, heard, columns)
        .filter((_, line) => line % 3 === 0)
        .flatMap((line) => plainText([line]).match(/\d+/gu) ?? [])
        .map(Number);
    // Twelve bars of fifteen at once, four phrases of three; then the last one.
    expect(numbers(null, 80)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect(numbers(11.5, 80)[0]).toBe(1);
    expect(numbers(12.5, 80)[0]).toBe(13);
    for (const heard of [null, 0.5, 7.25, 12.5])
      expect(drawn(long, heard, 80).length).toBeLessThanOrEqual(slowHeight(strip(long), 80, 6));
  });

  it.each([40, 60, 80, 120, 200])('never leaves its %i columns, in ASCII neither', (columns) => {
    for (const pattern of [SIX, TIED, [PHRASE, PHRASE, PHRASE].join(' | ')])
      for (const heard of [null, 0.25, 1.5, 5.75])
        for (const line of drawn(pattern, heard, columns)) {
          expect(widthOf(line)).toBeLessThanOrEqual(columns);
          const plain = plainText([inPlainLetters(line)]);
          expect(plain).toMatch(/^[ -~]*$/u);
          expect(plain).not.toContain('?');
        }
  });

  it('tells heard from unheard in ASCII too', () => {
    const plain = plainText(drawn(SIX, 1.5).map(inPlainLetters));
    expect(plain).toContain('|C4====----- |');
    expect(plain).toContain(' v2 ');
  });
});
