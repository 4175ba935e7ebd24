import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { SENTENCES } from '../../src/audio/process/sound-sentences.ts';
import { record } from '../bench/live/recorder.ts';
import { type Server, startServer } from '../bench/live/server.ts';
import { itWith } from '../programs.ts';
import { mark } from './marking.ts';
import { inSitting, standside, withoutTerminal } from './program.ts';
import { LARGE, type Terminal, eventually, leftWith } from './terminal.ts';

const withPulse = itWith('tmux', 'pulseaudio', 'parec');

/** Marks once, and waits until the next repetition is under way. */
async function markAndGoOn(terminal: Terminal, one: Mark): Promise<string> {
  await mark(terminal, one);
  return await terminal.untilGone(/mark\?/i);
}

/** Waits until something is heard from the server's sink. */
async function untilHeard(server: Server): Promise<void> {
  const recorder = record(server);
  try {
    await eventually(() => recorder.peak() > 0.02, 'something to be heard');
  } finally {
    recorder.stop();
  }
}

describe('the sound server', () => {
  withPulse(
    'dies in the middle of a repetition and comes back: no mark is lost, the click returns, the screen stays',
    inSitting(async (sitting) => {
      const folder = mkdtempSync(join(tmpdir(), 'standside-server-'));
      let server = await startServer(folder);
      try {
        const terminal = await sitting.terminal(LARGE, server.own);
        await terminal.type(standside(sitting, 'practice quick-turn'));
        await terminal.until('READY');
        await terminal.press('Space');
        await markAndGoOn(terminal, 'clean');
        await untilHeard(server);
        server.stop();
        await terminal.until(SENTENCES.lost.slice(0, 24));
        await markAndGoOn(terminal, 'clean');
        await markAndGoOn(terminal, 'tense');
        server = await startServer(folder);
        await terminal.untilGone(SENTENCES.lost.slice(0, 24));
        await untilHeard(server);
        const screen = await markAndGoOn(terminal, 'clean');
        expect(screen).toContain('Quick turn');
        expect(screen).not.toMatch(/ALSA|Failed to open/);
        await terminal.press('q');
        await terminal.until(leftWith(0));
        expect(sitting.entries().flatMap((entry) => (entry.kind === 'mark' ? [entry.mark] : []))).toEqual([
          'clean',
          'clean',
          'tense',
          'clean',
        ]);
      } finally {
        server.stop();
      }
    }),
  );
});

describe('render', () => {
  it(
    'writes the click of an exercise, refuses to replace it, and says in one sentence what cannot be written',
    inSitting(async (sitting) => {
      const out = join(sitting.data, 'click.wav');
      const render = (...words: readonly string[]) =>
        withoutTerminal(['--data', sitting.data, 'render', 'quick-turn', ...words]);
      const first = await render('--out', out, '--times', '2', '--json');
      expect(first.code).toBe(0);
      // Each time 2/4 at 200: one bar to count in, one to play, one to breathe.
      expect(JSON.parse(first.stdout)).toMatchObject({
        bpm: 200,
        seconds: Number(((2 * 3 * 2 * 60) / 200).toFixed(3)),
      });
      const refused = [
        [['--out', out], /click\.wav is already there; --force replaces it\./],
        [['--out', '/proc/click.wav'], /click\.wav cannot be written/],
        [['--out', join(sitting.data, 'no', 'click.mid')], /cannot be written/],
        [['--out', 'click.mp3'], /must end in \.wav or \.mid/],
        [['--out', out, '--tempo', '401'], /401/],
        [['--out', out, '--rate', '7'], /--rate is '7'/],
        [['--out', out, '--format', '12'], /--format '12'/],
      ] as const;
      for (const [words, sentence] of refused) {
        const { code, stderr } = await render(...words);
        expect(code).not.toBe(0);
        expect(stderr.trim()).toMatch(sentence);
        expect(stderr.trim().split('\n')).toHaveLength(1);
      }
    }),
  );
});

describe('the sound of a machine', () => {
  it('says that a device is unknown, and which are known', async () => {
    const { code, stdout } = await withoutTerminal(['sound', '--device', 'no such card', '--json']);
    expect(code).toBe(1);
    expect(stdout).toContain('there is no sound device called');
  });
});
