/** Cells out of the hat and ways of tonguing in turn, through the real program: forty-eight cells, a miss, a kill. */
import { describe, expect } from 'vitest';
import type { Entry, MarkEntry } from '../../src/diary/entry.ts';
import { itWith } from '../programs.ts';
import { type Sitting, inSitting, standside, writeRoutine } from './program.ts';
import { SMALL, type Terminal, eventually } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

/** Bars of a third of a second, so that a repetition with its count-in and its breath takes one. */
const QUICK = 'meter: 2/4, tempo: 360, ladder: 100 to 400, pattern: 1 2 3 2 1 2 3 2';

const HAT = `
routine: Out of the hat
breaks: none
exercises:
  cells: {title: Cells, ${QUICK}, keys: all major, articulations: [slurred, single, double, slur 2 tongue 2],
    rotate: from the hat}
parts:
  - {part: All, blocks: [cells: 25]}
`;

const IN_TURN = `
routine: In turn
breaks: none
exercises:
  two-ways: {title: Two ways, ${QUICK}, keys: [C, F], articulations: [slurred, double], drone: yes, down: 1,
    rotate: {articulations: in turn}}
parts:
  - {part: All, blocks: [two-ways: 25]}
`;

const RATE = 10;

const undone = (entries: readonly Entry[]): ReadonlySet<string> =>
  new Set(entries.flatMap((entry) => (entry.kind === 'undo' ? [entry.of] : [])));

const marksOf = (sitting: Sitting): readonly MarkEntry[] => {
  const entries = sitting.entries();
  const gone = undone(entries);
  return entries.filter((entry): entry is MarkEntry => entry.kind === 'mark' && !gone.has(entry.id));
};

/** Waits for the mark to be due, gives it, and for the disk to have it. */
async function say(sitting: Sitting, terminal: Terminal, key: 'c' | 'm'): Promise<void> {
  const before = marksOf(sitting).length;
  await terminal.until(/MARK\?/);
  await terminal.press(key);
  await eventually(() => marksOf(sitting).length > before, 'the mark is on the disk');
  await terminal.untilGone(/MARK\?/);
}

async function opened(sitting: Sitting, title: string): Promise<Terminal> {
  const terminal = await sitting.terminal(SMALL);
  await terminal.type(standside(sitting, `--silent --clock-rate ${RATE}`));
  await terminal.until(`▶ ${title}`);
  return terminal;
}

/** What the block's clock and the machine's say between the first and the last time the journal heard of the block. */
function clocks(entries: readonly Entry[]): { readonly played: number; readonly passed: number } {
  const told = entries.flatMap((entry) => (entry.kind === 'block' ? [entry] : []));
  const [first, last] = [told[0], told.at(-1)];
  if (!first || !last) throw new Error('the journal never heard of the block');
  return { played: last.played - first.played, passed: (Date.parse(last.at) - Date.parse(first.at)) / 1000 };
}

const underFinger = async (terminal: Terminal): Promise<string> =>
  /▶ (\S+, .*)$/m.exec(await terminal.until(/▶ \S+, /))?.[1] ?? '';

/** One tap of the pedal further on. */
async function cellAfter(terminal: Terminal, cell: string): Promise<string> {
  await terminal.press('PPage');
  await terminal.untilGone(`▶ ${cell}\n`);
  return underFinger(terminal);
}

const namesOf = (marks: readonly MarkEntry[]): readonly string[] =>
  marks.map(({ key, articulation }) => `${key} ${articulation}`);

describe('turns', () => {
  it(
    'out of the hat: 48 cells in 48 repetitions, killed in the middle and gone on with at the same cell',
    inSitting(async (sitting) => {
      writeRoutine(sitting, 'journey', HAT);
      const terminal = await opened(sitting, 'Cells');
      await terminal.press('Enter');
      await terminal.until('0 of 48 this round');
      await terminal.press('Space');
      for (let n = 0; n < 20; n += 1) await say(sitting, terminal, 'c');
      // A cell of the grid by the pedal's other side and its first; what sounds sounds on.
      await terminal.press('g');
      await terminal.until('which cell?');
      const chosen = await cellAfter(terminal, await cellAfter(terminal, await underFinger(terminal)));
      await terminal.press('NPage');
      await terminal.until('of 48 this round');
      const [key = '', tongue = ''] = chosen.split(', ');
      await terminal.until(new RegExp(`Cells +${key} +${tongue}`));
      const told = sitting.entries().filter(({ kind }) => kind === 'block');
      expect(told.every((entry) => entry.kind === 'block' && entry.event !== 'left')).toBe(true);
      const { played, passed } = clocks(sitting.entries());
      // Both clocks run at the rate; a tick of the block's is a second of the machine's.
      expect(passed).toBeGreaterThan(60);
      expect(Math.abs(played - passed)).toBeLessThan(2 * RATE);
      const [program = 0] = await terminal.children();
      process.kill(program, 'SIGKILL');
      await terminal.until(/left 137 ›/);

      await terminal.type(`reset; ${standside(sitting, `--silent --clock-rate ${RATE}`)}`);
      await terminal.until('Go on with');
      await terminal.press('g');
      await terminal.until(new RegExp(`Cells +${key} +${tongue}`));
      await terminal.press('Space');
      const played20 = namesOf(marksOf(sitting));
      const left = 48 - new Set(played20).size;
      for (let n = 0; n < left; n += 1) await say(sitting, terminal, 'c');
      // Nothing comes twice but what the player chose to play again.
      const plain = `${key.replace('♭', 'b').replace('♯', '#')} ${tongue}`;
      const twice = played20.includes(plain) ? 1 : 0;
      const all = namesOf(marksOf(sitting));
      expect(all).toHaveLength(20 + left);
      expect(all[20]).toBe(plain);
      expect(new Set(all).size).toBe(all.length - twice);
      await terminal.press('q');
      await terminal.until(/left 0 ›/);
    }),
    240_000,
  );

  it(
    'slurred, then double, at one speed: the missed one comes back, and goes with its mark when that is taken back',
    inSitting(async (sitting) => {
      writeRoutine(sitting, 'journey', IN_TURN);
      const terminal = await opened(sitting, 'Two ways');
      await terminal.press('Enter');
      await terminal.until(/Two ways +C +slurred +then double/);
      await terminal.press('Space');
      await say(sitting, terminal, 'c');
      await say(sitting, terminal, 'm');
      await terminal.until(/double again|Two ways +C +double/);
      await say(sitting, terminal, 'c');
      await say(sitting, terminal, 'c');
      expect(namesOf(marksOf(sitting))).toEqual(['C slurred', 'C double', 'C double', 'C slurred']);
      const [first, missed, again, slurred] = marksOf(sitting);
      expect(missed?.bpm).toBe(first?.bpm);
      expect(again?.bpm).toBeLessThan(first?.bpm ?? 0);
      expect(slurred?.bpm).toBe(again?.bpm);
      await terminal.press('u');
      await eventually(() => marksOf(sitting).length === 3, 'the mark is taken back');
      await terminal.until(/Two ways +C +slurred/);
      await terminal.press('q');
      await terminal.until(/left 0 ›/);
      const drawn = sitting
        .entries()
        .filter((entry) => entry.kind === 'draw' && !undone(sitting.entries()).has(entry.id));
      const came = drawn.flatMap((entry) => (entry.kind === 'draw' && !entry.laid ? [entry.item] : []));
      expect(came).toEqual(['C · slurred', 'C · double']);
    }),
    120_000,
  );
});
