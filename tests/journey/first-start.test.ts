/** The first start through the real program: a flutist in five keys, passed over in one, never asked again. */
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import { itWith } from '../programs.ts';
import { type Sitting, inSitting, standside } from './program.ts';
import { SMALL, type Terminal, eventually, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

const settingsOf = ({ data }: Sitting): string => {
  try {
    return readFileSync(join(data, 'settings.yaml'), 'utf8');
  } catch {
    return '';
  }
};

/** Nothing of the player's is there yet. */
async function begun(sitting: Sitting): Promise<Terminal> {
  rmSync(join(sitting.data, 'routines'), { recursive: true, force: true });
  const terminal = await sitting.terminal(SMALL);
  await terminal.type(standside(sitting, '--silent'));
  await terminal.until('What do you play?');
  return terminal;
}

async function again(sitting: Sitting, terminal: Terminal): Promise<string> {
  await terminal.press('q');
  await terminal.until(leftWith(0));
  await terminal.type(standside(sitting, '--silent'));
  return await terminal.until(/^ Today/m);
}

describe('the first start', () => {
  it(
    'takes a flutist five keys, and is never asked again',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting);
      await terminal.press('f', 'l');
      await terminal.until('▶ flute');
      await terminal.press('Enter');
      await terminal.until('▶  15 min  A quarter of an hour, flutes  first years');
      await terminal.press('Enter');
      await terminal.until('▶ 25');
      await terminal.press('Enter');
      await terminal.until(/^ Today/m);
      await eventually(() => settingsOf(sitting).includes('instrument: flute'), 'the answers are kept');
      expect(settingsOf(sitting)).toBe('instrument: flute\nroutine: flutes-quarter-hour\nminutes: 25\n');
      expect(await again(sitting, terminal)).toContain('A quarter of an hour, flutes');
      await terminal.press('e');
      const list = await terminal.until(/^ Exercises/m);
      expect(list).not.toContain('Lip flexibility');
    }),
  );

  it(
    'is passed over with one key, and is never asked again',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting);
      await terminal.press('Escape');
      await terminal.until(/^ Today/m);
      await eventually(() => settingsOf(sitting) === 'minutes: 25\n', 'that it was asked is kept');
      await again(sitting, terminal);
    }),
  );

  it(
    'is a pedal’s too: its other side chooses, its first goes on',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting);
      await terminal.press('PPage');
      await terminal.until('▶ B-flat trumpet');
      await terminal.press('NPage', 'NPage', 'NPage');
      await terminal.until(/^ Today/m);
      await eventually(() => settingsOf(sitting).includes('instrument: trumpet'), 'the answers are kept');
    }),
  );

  it(
    'opens the list by hand where that is how one begins',
    inSitting(async (sitting) => {
      const terminal = await begun(sitting);
      await terminal.press('o', 'b');
      await terminal.until('▶ oboe');
      await terminal.press('Enter', 'Up', 'Enter', 'Enter');
      await terminal.until('Today’s list');
    }),
  );
});
