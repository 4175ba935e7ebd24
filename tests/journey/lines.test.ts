/** Without looking: the program in lines, as a person's screen reader would read them. */
import { describe, expect } from 'vitest';
import { itWith } from '../programs.ts';
import { inSitting, standside } from './program.ts';
import { SMALL, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

describe('the program in lines', () => {
  it.concurrent.each([
    ['where it is asked for', '', 'practice quick-turn --silent --lines'],
    ['where a screen reader is announced', 'INK_SCREEN_READER=true ', 'practice quick-turn --silent'],
  ])('%s says what happens, one line each, on the shell’s own screen', async (_, env, words) =>
    inSitting(async (sitting) => {
      const terminal = await sitting.terminal(SMALL);
      await terminal.type(env + standside(sitting, words));
      await terminal.until(/^Quick turn, C, single\nat 200\nready$/m);
      const { alternateScreen } = await terminal.manners();
      expect(alternateScreen).toBe(false);
      await terminal.press('Space');
      await terminal.until(/^count-in\nplay\nmark\?$/m);
      await terminal.press('c');
      await terminal.until(/^clean, 1 of 3$/m);
      await terminal.until(/^clean, 1 of 3\ncount-in\nplay\nmark\?$/m);
      await terminal.press('m');
      await terminal.until(/^missed, 1 of 2$/m);
      await terminal.press('q');
      await terminal.until(leftWith(0));
      expect(sitting.marked().map(({ kind }) => kind)).toEqual(['mark', 'mark']);
    })(),
  );
});
