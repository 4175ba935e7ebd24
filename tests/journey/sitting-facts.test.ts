/**
 * A fact that the program once kept in two places showed on the screen or in the journal as two. What a player meets
 * of it in a sitting; `STANDSIDE_ROOT` points the same looks at another build.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import type { BlockEntry } from '../../src/diary/entry.ts';
import { itWith } from '../programs.ts';
import { mark } from './marking.ts';
import { type Sitting, inSitting, standside, writeRoutine } from './program.ts';
import { LARGE, type Terminal, eventually, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

/** As long as a person waits for an answer to a key; a build that gives none is told sooner. */
const SOON = 8_000;
const ANSWERED = 2_000;

const EXERCISES = `
exercises:
  held:
    title: Held notes
    kind: sound
    pattern: 1 | 3 | 1
    tempo: 60
    breaths: 12
    keys: [Bb]
  quick-turn:
    title: Quick turn
    meter: 2/4
    pattern: 1 2 3 2 1 2 3 2
    keys: [C]
    articulations: [single]
    tempo: 200 -> 240
    drone: {voices: [tonic]}
`;

const PLAIN = `
routine: Plain day
breaks: none
${EXERCISES}
parts:
  - part: All
    blocks:
      - {do: Breathe, minutes: 5, kind: body, always: yes}
      - {play: held, minutes: 5, always: yes}
      - {play: quick-turn, minutes: 5, always: yes}
`;

const OTHER = `
routine: Other day
breaks: none
parts:
  - part: All
    blocks:
      - {do: Stretch, minutes: 5, kind: body, always: yes}
      - {do: Listen, minutes: 5, kind: sound, always: yes}
      - {do: Sing, minutes: 5, kind: sound, always: yes}
`;

/** Today with a routine of the player's own. */
async function today(sitting: Sitting, routine = PLAIN, words = ''): Promise<Terminal> {
  writeRoutine(sitting, 'journey', routine);
  const terminal = await sitting.terminal(LARGE);
  await terminal.type(standside(sitting, `--silent ${words}`));
  await terminal.until(/[▶>] \S/);
  return terminal;
}

/** The first block of today lies ready on the stand. */
async function begun(sitting: Sitting, routine = PLAIN, words = ''): Promise<Terminal> {
  const terminal = await today(sitting, routine, words);
  await terminal.press('Enter');
  await terminal.until(/Ready when you are|READY/);
  return terminal;
}

/** Presses a key again and again, each time giving the answer a moment, until the screen shows what is wanted. */
async function pressUntil(terminal: Terminal, key: string, wanted: string | RegExp, most = 8): Promise<string> {
  for (let times = 1; times < most; times += 1) {
    await terminal.press(key);
    const found = await terminal.until(wanted, ANSWERED).catch(() => null);
    if (found !== null) return found;
  }
  return await terminal.until(wanted, ANSWERED);
}

/** Today with another of the routines. */
async function choose(terminal: Terminal, title: string): Promise<void> {
  for (;;) {
    const [head = ''] = (await terminal.screen()).split('\n');
    if (head.includes(title)) return;
    await terminal.press('r');
    await terminal.untilGone(head);
  }
}

async function leave(terminal: Terminal): Promise<void> {
  await terminal.press('q');
  await terminal.until(leftWith(0));
}

const blocks = (sitting: Sitting): readonly BlockEntry[] =>
  sitting.entries().flatMap((entry) => (entry.kind === 'block' ? [entry] : []));

const HELD_ON_STAND = 'next: Quick turn';

describe('a block', () => {
  it.concurrent(
    'that lies ready is passed over by `n`; its clock does not start',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting);
      await terminal.press('n');
      await terminal.until(HELD_ON_STAND, SOON);
      await terminal.until('Ready when you are', SOON);
      await leave(terminal);
      expect(blocks(sitting)).toEqual([]);
    }),
  );

  it.concurrent(
    'that was not played is not asked about',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting);
      const screen = await pressUntil(terminal, 'n', HELD_ON_STAND);
      expect(screen).not.toContain('How tense?');
      await leave(terminal);
    }),
  );

  it.concurrent(
    'that was begun and gone on from at once is not asked about either',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting);
      await terminal.press('Space', 'n');
      const screen = await terminal.until(HELD_ON_STAND);
      expect(blocks(sitting)).toContainEqual(expect.objectContaining({ block: 'breathe', event: 'left', played: 0 }));
      expect(screen).not.toContain('How tense?');
    }),
  );

  it.concurrent(
    'whose time is up waits: nothing counts on, neither the breath on the screen nor what was played',
    inSitting(async (sitting) => {
      const only = PLAIN.replace(/^ {6}- \{(do: Breathe|play: quick).*\n/gm, '').replace('minutes: 5', 'minutes: 2');
      const terminal = await begun(sitting, only, '--clock-rate 40');
      await terminal.press('Space');
      const waiting = await terminal.until('How tense?', 30_000);
      await terminal.press('?');
      await terminal.until('Any key goes back');
      await terminal.press('?');
      await terminal.until('How tense?');
      const [atEnd] = blocks(sitting).filter(({ event }) => event === 'done');
      expect(await terminal.screen()).toBe(waiting);
      await terminal.press('n');
      await terminal.until('The sitting is over');
      expect(blocks(sitting).at(-1)).toMatchObject({ played: atEnd?.played });
      await leave(terminal);
    }),
  );

  it.concurrent(
    'is lettered plainly where the settings ask for it',
    inSitting(async (sitting) => {
      writeFileSync(join(sitting.data, 'settings.yaml'), 'plain letters: true\n');
      const terminal = await begun(sitting);
      const screen = await pressUntil(terminal, 'n', HELD_ON_STAND);
      expect(screen).toMatch(/\bBb\d/);
      expect(screen).not.toMatch(/[♭♯]/);
      await leave(terminal);
    }),
  );
});

/** Two keys, each with both fingerings; the next turn comes with each rung. */
const FINGERED = `
routine: Plain day
breaks: none
exercises:
  quick-turn:
    title: Quick turn
    meter: 2/4
    pattern: 1 2 3 2 1 2 3 2
    keys: [C, F]
    articulations: [single]
    tempo: 200 -> 240
    up: 1
    rotate: {change: rung, fingerings: yes}
parts:
  - part: All
    blocks:
      - {play: quick-turn, minutes: 10, always: yes}
`;

/** Today again, after a sitting with the plain day was left in its first block; there is another routine too. */
async function left(sitting: Sitting): Promise<Terminal> {
  writeRoutine(sitting, 'other', OTHER);
  const terminal = await begun(sitting);
  await terminal.press('Space');
  await terminal.untilGone('Ready when you are');
  await terminal.press('Escape');
  await terminal.until('Press g');
  return terminal;
}

/** A ladder is on the stand, and the block before it was said to have been tense. */
async function toldTension(sitting: Sitting): Promise<Terminal> {
  const terminal = await begun(sitting);
  await terminal.press('Space');
  await terminal.untilGone('Ready when you are');
  await pressUntil(terminal, 'n', 'Quick turn  C  single');
  await terminal.press('2');
  await eventually(() => sitting.entries().some(({ kind }) => kind === 'tension'), 'the journal hears of it');
  return terminal;
}

describe('a sitting', () => {
  it.concurrent(
    'answers a key at once, whatever else there is to say',
    inSitting(async (sitting) => {
      const terminal = await toldTension(sitting);
      await terminal.until('tension 2 of 4; u takes it back', SOON);
      await leave(terminal);
    }),
  );

  it.concurrent(
    'takes a reading back with `u` on a ladder’s screen too',
    inSitting(async (sitting) => {
      const terminal = await toldTension(sitting);
      const told = sitting.entries().find(({ kind }) => kind === 'tension');
      await terminal.press('u');
      const isBack = (): boolean => sitting.entries().some((entry) => entry.kind === 'undo' && entry.of === told?.id);
      await eventually(isBack, 'the reading is taken back', SOON);
      await leave(terminal);
    }),
  );

  it.concurrent(
    'stops with `p` and goes on with `p`, click and clock together',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting);
      await pressUntil(terminal, 'n', 'Quick turn  C  single');
      await pressUntil(terminal, 'Space', 'COUNT-IN', 3);
      await terminal.press('p');
      await terminal.until('PAUSED');
      await terminal.press('p');
      await terminal.until('COUNT-IN', SOON);
      await leave(terminal);
    }),
  );

  it.concurrent(
    'goes on with the fingering at hand',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting, FINGERED);
      await terminal.press('Space');
      await mark(terminal, 'clean');
      await terminal.until('C  single  alternate fingering');
      await terminal.press('Escape');
      await terminal.until('Press g');
      await terminal.press('g');
      const screen = await terminal.until('Quick turn  C  single');
      expect(screen).toContain('alternate fingering');
      await leave(terminal);
    }),
  );

  it.concurrent(
    'that was left is no load before it is played',
    inSitting(async (sitting) => {
      const terminal = await left(sitting);
      // The plan's own 15 minutes; what was left and not played would make it more.
      expect(await terminal.screen()).toMatch(/\b1[56] min this week with today/);
      await leave(terminal);
    }),
  );

  it.concurrent(
    'of another routine is not what `g` goes on with',
    inSitting(async (sitting) => {
      const terminal = await left(sitting);
      await choose(terminal, 'Other day');
      // Where `g` put a block on the stand, `+` is no key.
      await terminal.press('g', '+');
      expect(await terminal.until(/30 minutes|of 5:00/)).toMatch(/Today .*Other day/);
      await leave(terminal);
    }),
  );

  it.concurrent(
    'ends with its own routine’s tomorrow, whichever routine Today showed meanwhile',
    inSitting(async (sitting) => {
      const terminal = await left(sitting);
      await choose(terminal, 'Other day');
      await terminal.press('g', '+');
      const screen = await terminal.until(/30 minutes|of 5:00/);
      if (screen.includes('30 minutes')) {
        await choose(terminal, 'Plain day');
        await terminal.press('g');
        await terminal.until('of 5:00');
      }
      const end = await pressUntil(terminal, 'n', 'The sitting is over');
      const [, tomorrow = ''] = end.split('Tomorrow');
      expect(tomorrow).toMatch(/Held notes|Quick turn/);
      expect(tomorrow).not.toMatch(/Listen|Sing/);
      await leave(terminal);
    }),
  );
});
