/** What twenty seconds of practice send to the terminal: every beat drawn, and a mark in each breath. */
import { describe, expect, it } from 'vitest';
import { createFrames } from '../../src/runtime/screen/changed-lines.ts';
import { KEYS } from '../../src/ui/keys.ts';
import { COLOURS } from '../../src/ui/theme.ts';
import { wholeScreen } from '../../src/ui/whole-screen.ts';
import { beat, onStand, press } from './practice-states.ts';

/** Two bars of four, one to count in and one to breathe, at 88 beats a minute. */
const SECONDS_A_BEAT = 60 / 88;

/** Measured before this drawing: 1.8 kB a second, in a terminal of 120 by 36. */
const BEFORE = 1800;

function sentIn(seconds: number, columns: number, rows: number) {
  const sent: string[] = [];
  const screen = { columns, rows, write: (text: string) => void sent.push(text), on: () => {}, off: () => {} };
  const frames = createFrames(screen, COLOURS);
  const all = onStand();
  const draw = (): void => frames.paint(wholeScreen(all.stand(), KEYS, { columns, rows }, 'signs'));
  draw();
  press(all, 'start-pause');
  draw();
  sent.length = 0;
  const spans = [
    ['count-in', 0],
    ['repetition', 0],
    ['repetition', 1],
    ['breath', 0],
  ] as const;
  for (let beats = 0; beats * SECONDS_A_BEAT < seconds; beats += 1) {
    const [role, bar] = spans[Math.floor(beats / 4) % 4]!;
    beat(all, role, bar, beats % 4);
    draw();
    if (role === 'breath' && beats % 4 === 1) press(all, 'clean');
    draw();
  }
  return sent;
}

describe('twenty seconds of practice', () => {
  it.each([
    [64, 20],
    [80, 24],
    [120, 36],
  ])('send no more in %i by %i than before, and never clear the screen', (columns, rows) => {
    const sent = sentIn(20, columns, rows);
    expect(sent.length).toBeGreaterThan(20);
    expect(Buffer.byteLength(sent.join('')) / 20).toBeLessThan(BEFORE);
    // ED 2 and 3 (ECMA-48, 8.3.39; xterm) clear all of it.
    expect(
      sent
        .join('')
        .split('\u001b')
        .filter((part) => /^\[[23]J/.test(part)),
    ).toEqual([]);
  });
});
