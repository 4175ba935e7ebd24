/** PageUp and PageDown, and no other key: a routine of ten minutes from Today to its end, by a clock that runs fast. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import type { Entry } from '../../src/diary/entry.ts';
import { itWith } from '../programs.ts';
import { type Sitting, inSitting, standside, writeRoutine } from './program.ts';
import { SMALL, type Terminal, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

/** A block by the clock, a line with a ladder, a rest, one with breaths. */
const ROUTINE = `
routine: Ten minutes with both hands full
breaks: none
exercises:
  quick-turn:
    title: Quick turn
    meter: 2/4
    pattern: 1 2 3 2 1 2 3 2
    keys: [C]
    articulations: [single]
    tempo: 200 -> 240
parts:
  - part: All
    blocks:
      - {do: Loosen, minutes: 2, least: 2, kind: body, always: yes}
      - {play: quick-turn, minutes: 4, least: 4, always: yes}
      - {rest: 1, always: yes}
      - {do: Breathe out, minutes: 3, least: 3, kind: sound, always: yes, breaths: 2}
`;

/** The clock of the blocks runs so many times as fast. */
const RATE = 20;

const tensions = (entries: readonly Entry[]): readonly number[] =>
  entries.flatMap((entry) => (entry.kind === 'tension' ? [entry.level] : []));

interface Buttons {
  readonly forward: string;
  readonly back: string;
}

/** Today, the first block with its question answered, the line marked, the rest, the breaths, the end. */
async function wholeSitting(sitting: Sitting, terminal: Terminal, { forward, back }: Buttons): Promise<void> {
  await terminal.until(/▶ Loosen/);
  await terminal.press(forward);
  await terminal.until('Ready when you are');
  await terminal.press(forward);
  await terminal.until('How tense? 0 none', 60_000);
  await terminal.press(back);
  await terminal.press(back);
  await terminal.until('How tense? 1 of 4');
  await terminal.press(forward);
  await terminal.untilGone('How tense?');
  await terminal.press(forward);
  await terminal.until(/Quick turn[\s\S]*READY/);
  await terminal.press(forward);
  await terminal.until(/BREATHE · mark\?|MARK\?/);
  await terminal.press(forward);
  await terminal.until('1 of 1 clean today');
  await terminal.until(/BREATHE · mark\?|MARK\?/);
  await terminal.press(back);
  await terminal.until('1 of 2 clean today');
  await terminal.until(/BREATHE · mark\?|MARK\?/);
  await terminal.press(forward);
  // The time runs out; what was played is marked first, then the button goes on.
  await terminal.until(/Time is up/, 60_000);
  while (!/Rest/.test((await terminal.screen()).split('\n').slice(0, 12).join('\n'))) {
    await terminal.press(forward);
    await terminal.until(/Rest|MARK\?|mark\?|COUNT-IN|Time is up/);
  }
  // The rest goes on by itself; its question is let pass by starting what comes.
  await terminal.until('Breathe out', 60_000);
  await terminal.until('0 of 2 breaths', 60_000);
  if ((await terminal.screen()).includes('Ready when')) await terminal.press(forward);
  await terminal.press(forward);
  await terminal.until('1 of 2 breaths');
  await terminal.press(forward);
  await terminal.until(/Time is up|The sitting is over/);
  if ((await terminal.screen()).includes('Time is up')) await terminal.press(forward);
  await terminal.until('The sitting is over');
  await terminal.press(back);
  await terminal.until('How tense? 0 of 4');
  await terminal.press(forward);
  await terminal.untilGone('How tense?');
  await terminal.press(forward);
  await terminal.until(/Today/);
  const marks = sitting.entries().flatMap((entry) => (entry.kind === 'mark' ? [entry.mark] : []));
  expect(marks.slice(0, 2)).toEqual(['clean', 'missed']);
  expect(tensions(sitting.entries())).toEqual([1, 0]);
  const done = sitting.entries().flatMap((entry) => (entry.kind === 'block' && entry.event === 'done' ? [entry] : []));
  expect(new Set(done.map(({ block }) => block)).size).toBeGreaterThanOrEqual(3);
}

describe('the pedal alone', () => {
  it.concurrent.each([
    ['PageUp and PageDown', { forward: 'NPage', back: 'PPage' }, ''],
    ['arrows', { forward: 'Right', back: 'Left' }, '{pedal-forward: [right], pedal-back: [left]}'],
  ])(
    'that sends %s carries a routine of ten minutes from Today to the last screen',
    async (_, buttons, keys) =>
      inSitting(async (sitting) => {
        writeRoutine(sitting, 'journey', ROUTINE);
        const terminal = await sitting.terminal(SMALL);
        if (keys) writeFileSync(join(sitting.data, 'settings.yaml'), `keys: ${keys}\n`);
        await terminal.type(standside(sitting, `--silent --clock-rate ${RATE}`));
        await wholeSitting(sitting, terminal, buttons);
        await terminal.press('q');
        await terminal.until(leftWith(0));
      })(),
    180_000,
  );
});
