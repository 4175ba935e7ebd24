/**
 * A day of one's own, with no file written by hand: three exercises added on the screen, a list of five, a lesson in
 * between, something more, the list kept as a routine, and the next day as yesterday.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import type { Entry } from '../../src/diary/entry.ts';
import { itWith } from '../programs.ts';
import { inSitting, standside, withoutTerminal } from './program.ts';
import { SMALL, type Terminal, eventually, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

/** The same hour on two days, wherever and whenever this runs: twelve hours behind Greenwich, and twelve ahead. */
const TODAY = { TZ: 'Etc/GMT+12' };
const TOMORROW = { TZ: 'Etc/GMT-12' };

/** A hand that counts what it presses. */
function hand(terminal: Terminal) {
  let keys = 0;
  return {
    keys: () => keys,
    fresh: () => void (keys = 0),
    press: async (...names: readonly string[]) => {
      keys += names.length;
      await terminal.press(...names);
    },
    /** Letters of a text are counted by themselves. */
    letters: (text: string) => terminal.press('-l', text),
  };
}

const listOf = (entries: readonly Entry[]) => {
  const last = entries.findLast(({ kind }) => kind === 'list');
  return last?.kind === 'list' ? last.items.map(({ title, length }) => `${title} ${length / 60}`) : [];
};

const OWN = [
  ['Blue folder, p. 12', '60'],
  ['Hymn on one breath', '72'],
  ['March, second strain', '96'],
] as const;

describe('a day of one’s own', () => {
  it(
    'is put together, broken off, gone on with, kept and taken up again without a file',
    inSitting(async (sitting) => {
      const first = await sitting.terminal(SMALL, TODAY);
      const one = hand(first);
      await first.type(standside(sitting, '--silent'));
      await first.until('25 minutes');
      for (const [title, tempo] of OWN) {
        one.fresh();
        await one.press('n');
        await first.until('A new exercise of your own');
        await one.letters(title);
        await one.press('Tab');
        await one.letters(tempo);
        await one.press('Enter');
        await first.until(`${title}: kept.`);
        expect(one.keys()).toBeLessThanOrEqual(12);
      }
      one.fresh();
      await one.press('l');
      await first.until('Today’s list');
      for (const [at, letter] of ['b', 'h', 'm', 'q', 'f'].entries()) {
        await one.press(letter, 'Enter');
        await first.until(`${(at + 1) * 5} of 25 minutes`);
      }
      await one.press('Tab', 'Enter');
      await first.until('READY');
      expect(one.keys()).toBeLessThanOrEqual(15);
      const five = listOf(sitting.entries());
      expect(five.slice(0, 3)).toEqual(OWN.map(([title]) => `${title} 5`));
      expect(five).toHaveLength(5);

      // The pupil rings, and the program is left.
      await first.press('Space');
      await eventually(() => sitting.entries().some(({ kind }) => kind === 'block'), 'the block has begun');
      await first.press('Escape');
      await first.until(/Go on with .*Blue folder, p\. 12/);
      await first.press('q');
      await first.until(leftWith(0));
      await first.type(`reset; ${standside(sitting, '--silent')}`);
      await first.until(/Go on with .*Blue folder, p\. 12/);
      await first.press('g');
      await first.until('Blue folder, p. 12');

      // Five minutes will be left over.
      await first.press('e');
      await first.until('Something more for this sitting');
      await first.press('-l', 'quick');
      await first.until(/▶ Quick turn/);
      await first.press('Enter');
      await first.until('Quick turn, 5 minutes: it comes at the end');
      expect(listOf(sitting.entries())).toEqual([...five, 'Quick turn 5']);

      await first.press('Escape');
      await first.until(/Go on with .*Blue folder, p\. 12/);
      await first.press('l');
      await first.until('keep it');
      await first.press('r');
      await first.until('Name:');
      await first.press('-l', 'Band days');
      await first.press('Enter');
      await first.until('Band days: kept as a routine');
      await first.press('q');
      await first.until(leftWith(0));
      const file = join(sitting.data, 'routines', 'band-days.yaml');
      expect(readFileSync(file, 'utf8')).toContain('my-exercises/blue-folder-p-12: 5');
      const checked = await withoutTerminal(['--data', sitting.data, 'routine', 'check', file]);
      expect([checked.code, checked.stderr]).toEqual([0, '']);

      const next = await sitting.terminal(SMALL, TOMORROW);
      await next.type(standside(sitting, '--silent'));
      await next.until('minutes');
      await next.press('l');
      await next.until('Find:');
      await next.press('Tab', 'y');
      await next.until('As on ');
      await next.until('30 of the 25 minutes there are');
      expect(listOf(sitting.entries())).toEqual([...five, 'Quick turn 5']);
      const days = new Set(sitting.entries().map(({ day }) => day));
      expect(days.size).toBe(2);
      await next.press('Enter');
      await next.until('READY');
      await next.until('Blue folder, p. 12');
      await next.press('q');
      await next.until(leftWith(0));
    }),
  );
});
