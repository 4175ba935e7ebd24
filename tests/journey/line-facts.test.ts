/**
 * A fact that the program once kept in two places showed as two: what a player meets of it on the line that is
 * practised, and in the lists. `STANDSIDE_ROOT` points the same looks at another build.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import { itWith } from '../programs.ts';
import { mark } from './marking.ts';
import { type Sitting, inSitting, standside, withoutTerminal, writeRoutine } from './program.ts';
import { LARGE, type Terminal, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

const SOON = 8_000;

const HEAD = `
routine: Facts
exercises:
`;

/** A repetition of about a second, with settings of its own. */
const turn = (name: string, settings: readonly string[]): string =>
  [
    `  ${name}:`,
    '    meter: 2/4',
    '    pattern: 1 2 3 2 1 2 3 2',
    '    tempo: 200 -> 240',
    ...settings.map((setting) => `    ${setting}`),
    '',
  ].join('\n');

async function practising(sitting: Sitting, words: string): Promise<Terminal> {
  const terminal = await sitting.terminal(LARGE);
  await terminal.type(standside(sitting, `practice ${words} --silent`));
  await terminal.until('READY');
  return terminal;
}

async function leave(terminal: Terminal): Promise<void> {
  await terminal.press('q');
  await terminal.until(leftWith(0));
}

/** What was marked, as 'C single'. */
const marked = (sitting: Sitting): readonly string[] =>
  sitting
    .entries()
    .flatMap((entry) => (entry.kind === 'mark' ? [`${entry.sounded ?? entry.key} ${entry.articulation}`] : []));

/**
 * Two months at one tempo that bring nothing, and falls from it on the last days: a wall. Two marks a day, so that the
 * keys come round as if none had been.
 */
function fallsOn(exercise: string, bpm: number): string {
  const line = { exercise, articulation: 'single', key: 'C', beat: '1/4', notesPerBeat: 4, cleanUp: 3, missedDown: 2 };
  const days = Array.from({ length: 60 }, (_, i) => 61 - i);
  return days
    .flatMap((daysAgo) => [daysAgo > 6 ? 'clean' : 'missed', 'missed'].map((said, n) => ({ daysAgo, said, n })))
    .map(({ daysAgo, said, n }) => {
      const moment = Date.now() - daysAgo * 86_400_000 + n * 20_000;
      const hex = moment.toString(16).padStart(12, '0');
      const id = `${hex.slice(0, 8)}-${hex.slice(8)}-7000-8000-${`${n}`.padStart(12, '0')}`;
      const at = new Date(moment).toISOString().replace('Z', '+00:00');
      const entry = { v: 1, id, at, day: at.slice(0, 10), kind: 'mark', ...line, mark: said, bpm, next: bpm };
      return `${JSON.stringify({ ...entry, by: 'player' })}\n`;
    })
    .join('');
}

describe('the tempo shown', () => {
  it.concurrent(
    'is the one that sounds in slow repetitions',
    inSitting(async (sitting) => {
      writeRoutine(sitting, 'facts', HEAD + turn('slow-fast', ['order: alternate', 'slow: 60%']));
      const terminal = await practising(sitting, 'slow-fast');
      await terminal.press('Space');
      // 60 % of 200.
      await terminal.until(/quarter = 120 [\s\S]*SLOWLY/, SOON);
      await terminal.until(/quarter = 200 [\s\S]*PLAY/, SOON);
      await leave(terminal);
    }),
  );

  it.concurrent(
    'is the passage’s on a way round a wall',
    inSitting(async (sitting) => {
      const terminal = await practising(sitting, 'quick-turn');
      await terminal.press('v');
      await terminal.until('Half tempo and back');
      await terminal.press('Enter');
      await terminal.until('READY');
      await terminal.press('Space');
      await terminal.until(/quarter = (\d+) [\s\S]*half tempo, at ease at \1 /, SOON);
      await leave(terminal);
    }),
  );
});

describe('`v`', () => {
  it.concurrent(
    'offers ways round the wall of the key that is played, after the key has changed by itself',
    inSitting(async (sitting) => {
      const settings = ['keys: [C, G]', 'articulations: [single]', 'rotate: {order: own, change: repetition}'];
      writeRoutine(sitting, 'facts', HEAD + turn('round-turn', settings));
      writeFileSync(sitting.journal, fallsOn('round-turn', 200));
      const terminal = await practising(sitting, 'round-turn --key C --tempo 200');
      await terminal.until('200 is a wall');
      await terminal.press('Space');
      await terminal.until(/BREATHE · mark\?|MARK\?/);
      await terminal.press('c');
      await terminal.until(/turn\s+G\s+single/);
      await terminal.press('v');
      const screen = await terminal.until('Half tempo and back');
      expect(screen).toContain('No wall is seen on this line');
      await leave(terminal);
    }),
  );

  it.concurrent(
    'has a slurred way begun with the player’s own syllable',
    inSitting(async (sitting) => {
      writeFileSync(join(sitting.data, 'settings.yaml'), 'syllables: d-g\n');
      const terminal = await practising(sitting, 'quick-turn');
      await terminal.press('v');
      await terminal.until('Half tempo and back');
      for (let row = 0; !/▶ Slurred only/.test(await terminal.screen()) && row < 20; row += 1) {
        const [chosen = ''] = /▶ \S.*/.exec(await terminal.screen()) ?? [];
        await terminal.press('Down');
        await terminal.untilGone(chosen);
      }
      await terminal.press('Enter');
      const screen = await terminal.until(/Slurred only[\s\S]*READY|READY[\s\S]*Slurred only/);
      // The row of syllables: a bar line, and the first note's.
      expect(screen).toMatch(/^│D(?![a-z])/m);
      expect(screen).not.toMatch(/^│T(?![a-z])/m);
      await leave(terminal);
    }),
  );
});

describe('what comes round', () => {
  it.concurrent.each([
    ['rotate: {order: own, change: repetition}', ['C slurred', 'F slurred', 'C single', 'F single']],
    ['rotate: {order: key and articulation, change: repetition}', null],
  ] as const)(
    'is every key in every way of tonguing: %s',
    inSitting(async (sitting, rotate: string, order: readonly string[] | null) => {
      const settings = ['keys: [C, F]', 'articulations: [slurred, single]', rotate];
      writeRoutine(sitting, 'facts', HEAD + turn('round-turn', settings));
      const terminal = await practising(sitting, 'round-turn');
      await terminal.press('Space');
      for (let played = 1; played <= 4; played += 1) {
        await terminal.until(/BREATHE · mark\?|MARK\?/);
        await terminal.press('c');
        await terminal.untilGone(/BREATHE · mark\?|MARK\?/);
      }
      await leave(terminal);
      if (order) expect(marked(sitting)).toEqual(order);
      expect(new Set(marked(sitting))).toEqual(new Set(['C slurred', 'F slurred', 'C single', 'F single']));
    }),
  );
});

describe('the list of exercises', () => {
  it.concurrent(
    'knows when a line was played whose keys share a ladder',
    inSitting(async (sitting) => {
      const settings = ['keys: [C, F]', 'articulations: [single]', 'rotate: {order: own, ladder: shared}'];
      writeRoutine(sitting, 'facts', HEAD + turn('shared-turn', settings));
      const terminal = await practising(sitting, 'shared-turn');
      await terminal.press('Space');
      await mark(terminal, 'clean');
      await terminal.press('Escape');
      await terminal.until(/^ Today/);
      await terminal.press('e');
      await terminal.until('last played');
      expect(await terminal.until(/Shared turn/)).toMatch(/Shared turn .* (today|\d{4}-\d\d-\d\d)$/m);
      await leave(terminal);
    }),
  );

  it.concurrent(
    'keeps exercises of the same name in two files apart, and so does the journal',
    inSitting(async (sitting) => {
      const settings = (title: string) => [`title: ${title}`, 'articulations: [single]'];
      writeRoutine(sitting, 'facts', HEAD + turn('same-turn', settings('The first turn')));
      writeRoutine(sitting, 'more', HEAD + turn('same-turn', settings('The second turn')));
      const { stdout } = await withoutTerminal(['exercises', '--data', sitting.data]);
      expect(stdout).toContain('The first turn');
      expect(stdout).toContain('The second turn');
      const first = await practising(sitting, 'same-turn');
      await first.press('Space');
      expect(await mark(first, 'clean')).toContain('The first turn');
      await leave(first);
      const second = await practising(sitting, 'more/same-turn');
      const screen = await second.until('The second turn');
      expect(screen).toContain('no marks yet today');
      await leave(second);
    }),
  );
});
