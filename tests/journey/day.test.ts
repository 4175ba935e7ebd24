/** A whole sitting of 25 minutes, by a clock that runs forty times as fast, killed in the third block. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import type { Entry } from '../../src/diary/entry.ts';
import { itWith } from '../programs.ts';
import { inSitting, standside } from './program.ts';
import { SMALL, eventually, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

/** Four blocks by the clock, that go on by themselves; no rest falls due within 25 minutes. */
const ROUTINE = `
routine: A short day
breaks: none
parts:
  - part: First
    blocks:
      - {do: Breathe, minutes: 5, kind: body, always: yes, at end: go on}
      - {do: Stretch, minutes: 5, kind: body, always: yes, at end: go on}
  - part: Second
    blocks:
      - {do: Listen, minutes: 8, kind: sound, always: yes, at end: go on}
      - {do: Sing, minutes: 7, kind: sound, always: yes, at end: go on}
`;

const goesOn = (entry: Entry): boolean => entry.kind === 'block' && entry.event === 'going' && entry.block === 'listen';

describe('the day', () => {
  it(
    'of 25 minutes is killed in block three, gone on with, and finished',
    inSitting(async (sitting) => {
      writeFileSync(join(sitting.data, 'routines', 'journey.yaml'), ROUTINE);
      const terminal = await sitting.terminal(SMALL);
      await terminal.type(standside(sitting, '--silent --clock-rate 40'));
      await terminal.until('25 minutes');
      await terminal.until(/▶ Breathe/);
      await terminal.press('Enter');
      await terminal.until('Ready when you are');
      await terminal.press('Space');
      await terminal.until(/Listen[\s\S]*Second/, 60_000);
      await eventually(() => sitting.entries().some(goesOn), 'the journal hears of the block', 30_000);
      const [program = 0] = await terminal.children();
      expect(program).toBeGreaterThan(0);
      process.kill(program, 'SIGKILL');
      await terminal.until(/left 137 ›/);
      await terminal.type(`reset; ${standside(sitting, '--silent --clock-rate 40')}`);
      const today = await terminal.until(/Go on with part two, block one \(Listen\)/);
      expect(today).toMatch(/[0-7]:\d\d left/);
      await terminal.press('g');
      await terminal.until('Listen');
      await terminal.press('Space');
      await terminal.until('The sitting is over', 60_000);
      await terminal.until('Sing');
      await terminal.press('2');
      await terminal.press('q');
      await terminal.until(leftWith(0));
      const done = sitting.entries().filter((entry) => entry.kind === 'block' && entry.event === 'done');
      expect(new Set(done.map((entry) => (entry.kind === 'block' ? entry.block : '')))).toHaveProperty('size', 4);
      expect(sitting.entries().at(-1)).toMatchObject({ kind: 'tension', level: 2 });
    }),
  );
});
