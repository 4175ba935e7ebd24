import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import { itWith } from '../programs.ts';
import { untilMarks } from './marking.ts';
import { type Sitting, inSitting, standside, withoutTerminal } from './program.ts';
import { LARGE, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

interface Refused {
  readonly what: string;
  readonly words: string;
  readonly sentence: RegExp;
  readonly before?: (sitting: Sitting) => void;
}

/** What was asked, and the one sentence that must answer it. */
const REFUSED: readonly Refused[] = [
  {
    what: 'an unknown exercise',
    words: 'practice five-nots',
    sentence: /There is no exercise 'five-nots'; did you mean 'five-notes'\?/,
  },
  { what: 'tempo 0', words: 'practice quick-turn --tempo 0', sentence: /tempo.*0/i },
  { what: 'tempo fast', words: 'practice quick-turn --tempo fast', sentence: /tempo.*fast/i },
  { what: 'tempo 1e9', words: 'practice quick-turn --tempo 1e9', sentence: /tempo.*1e9/i },
  { what: 'an unknown key', words: 'practice quick-turn --key H', sentence: /key.*H/i },
  { what: 'an unknown articulation', words: 'practice quick-turn --articulation quadruple', sentence: /quadruple/ },
  { what: 'no exercise', words: 'practice', sentence: /missing.*exercise/i },
  {
    what: 'a data folder that cannot be',
    words: '--data /dev/null/x',
    sentence: /data folder \/dev\/null\/x cannot be used: there is a file in its way\. Name another/,
  },
  {
    what: 'a journal that is a folder',
    words: '',
    sentence: /journal\.jsonl cannot be opened for writing: it is a folder/,
    before: ({ journal }) => mkdirSync(journal),
  },
  {
    what: 'data in use on another machine',
    words: '',
    sentence: /standside is running on this data on the machine "attic"/,
    before: ({ data }) => writeFileSync(join(data, 'standside.lock'), '{"pid":1,"started":null,"host":"attic"}'),
  },
];

describe('what cannot be done', () => {
  it.concurrent.each(REFUSED)(
    '$what is one sentence and a failing exit',
    inSitting(async (sitting, { words, sentence, before }: Refused) => {
      before?.(sitting);
      const terminal = await sitting.terminal(LARGE);
      await terminal.type(`clear; ${standside(sitting, words)}`);
      const screen = await terminal.until(/left [12] ›$/m);
      const said = screen
        .split('\n')
        .filter((row) => row !== '' && !row.startsWith('left ') && !row.includes('main.js'))
        .join(' ');
      expect(said).toMatch(sentence);
      expect(said).not.toMatch(/\bat .*\.js:\d+|Error:/);
      expect((await terminal.manners()).alternateScreen).toBe(false);
    }),
  );

  it.concurrent.each(['', 'practice quick-turn'])(
    'without a terminal `standside %s` says that it needs one',
    inSitting(async (sitting, words: string) => {
      const outcome = await withoutTerminal(['--data', sitting.data, ...words.split(' ').filter(Boolean)]);
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toMatch(/^standside: .*needs a terminal.*\n$/);
    }),
  );
});

describe('trouble on the way', () => {
  it.concurrent(
    'a full disk is one sentence on the screen, the mark is not shown as kept, and playing goes on',
    inSitting(async (sitting) => {
      // Linux's own full disk: every write to /dev/full fails with ENOSPC.
      symlinkSync('/dev/full', sitting.journal);
      const terminal = await sitting.terminal(LARGE);
      await terminal.type(standside(sitting, 'practice quick-turn --silent'));
      await terminal.until('READY');
      await terminal.press('Space');
      await terminal.until(/BREATHE · mark\?|MARK\?/);
      await terminal.press('c');
      await terminal.until('the disk is full');
      await terminal.until('no marks yet today');
      await terminal.press('q');
      await terminal.until(leftWith(0));
    }),
  );

  it.concurrent(
    'a journal cut off in its last line keeps all others and says what was set aside',
    inSitting(async (sitting) => {
      const first = await sitting.terminal(LARGE);
      await first.type(standside(sitting, 'practice quick-turn --silent'));
      await first.until('READY');
      await first.press('Space');
      await first.until(/BREATHE · mark\?|MARK\?/);
      await first.press('c');
      await untilMarks(first, 1);
      await first.press('q');
      await first.until(leftWith(0));
      const whole = readFileSync(sitting.journal, 'utf8');
      writeFileSync(sitting.journal, whole + whole.slice(0, 100));
      await first.type(`clear; ${standside(sitting, '--silent')}`);
      await first.until(/was cut off while it was written/);
      await first.press('q');
      await first.until(leftWith(0));
      expect(readFileSync(sitting.journal, 'utf8')).toBe(whole);
      expect(readFileSync(`${sitting.journal}.torn`, 'utf8').trim()).toBe(whole.slice(0, 100));
    }),
  );

  it.concurrent(
    'no sound device is one calm sentence, and the beat goes on',
    inSitting(async (sitting) => {
      const nowhere = { PULSE_SERVER: 'unix:/nonexistent', ALSA_CONFIG_PATH: '/nonexistent' };
      const terminal = await sitting.terminal(LARGE, nowhere);
      await terminal.type(standside(sitting, 'practice quick-turn'));
      await terminal.until('READY');
      await terminal.press('Space');
      await terminal.until(/sound/i);
      await terminal.until(/BREATHE · mark\?|MARK\?/);
      await terminal.press('c');
      await untilMarks(terminal, 1);
      await terminal.press('q');
      await terminal.until(leftWith(0));
    }),
  );
});
