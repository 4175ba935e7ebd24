/** Widths of signs: Unicode Standard Annex 11 (East Asian Width); what a terminal does is asked of xterm's emulator. */
import { Terminal } from '@xterm/headless';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fit, line, plainText, seg, widthOf, wrapped } from '../../src/ui/paint.ts';
import { cell, columnsOf, cutTo } from '../../src/ui/text-width.ts';

describe('the width of a text', () => {
  it.each([
    ['Five-note study', 15],
    ['練習', 4],
    ['練習 1', 6],
    ['e\u0301tude', 5],
    ['ｶﾅ', 2],
    ['🎺', 2],
    ['👩‍🎤 solo', 7],
    ['B♭ ● ≈ × ▶ █▓░', 14],
  ])('%s takes %i columns', (text, columns) => {
    expect(columnsOf(text)).toBe(columns);
  });

  it('never cuts a wide sign in half, and fills what it would have taken', () => {
    expect(cutTo('練習', 3)).toBe('練');
    expect(plainText([fit(line(seg('練習練習')), 6)])).toBe('練習…');
    expect(widthOf(fit(line(seg('練習練習')), 6))).toBe(6);
    expect(widthOf(fit(line(seg('練習'), seg('abc')), 4))).toBe(4);
    expect(cell('練習練習', 6)).toBe('練習… ');
  });

  const titles = fc.string({
    unit: fc.constantFrom('a', ' ', 'é', '練', '習', '♭', '●', '🎺', 'e\u0301'),
    maxLength: 40,
  });

  it('is what was asked for, whatever a title is made of', () => {
    fc.assert(
      fc.property(titles, fc.integer({ min: 2, max: 30 }), (title, width) => {
        expect(widthOf(fit(line(seg(title)), width))).toBe(width);
        expect(columnsOf(cell(title, width))).toBe(width);
        for (const painted of wrapped(title, 'plain', width)) expect(widthOf(painted)).toBeGreaterThan(0);
      }),
    );
  });

  it('is what a terminal gives it: what follows stands where it should', async () => {
    const terminal = new Terminal({ cols: 40, rows: 1, allowProposedApi: true });
    const title = '練習 B♭ étude ●';
    await new Promise<void>((done) => terminal.write(`${cell(title, 30)}|`, done));
    expect(terminal.buffer.active.cursorX).toBe(31);
  });
});
