import { describe, expect } from 'vitest';
import { type Climb, afterMark, startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { itWith } from '../programs.ts';
import { mark } from './marking.ts';
import { inSitting, standside, withoutTerminal } from './program.ts';
import { LARGE, SMALL, type Size, type Terminal, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

const START = 208;
const PLAYED: readonly Mark[] = ['clean', 'clean', 'clean', 'clean', 'clean', 'missed', 'missed'];
/** What the rule says of the fall, where nothing is missed yet. */
const FALL = `${DEFAULT_RULE.missedDown} missed: down to`;

/** Where the rule leaves a line: three clean up, one missed down, three per cent apart. */
function expected(): Climb {
  const rule = { ...DEFAULT_RULE, start: 60, target: 132 };
  const rungs = rungsOf(rule, [START]);
  return PLAYED.reduce<Climb>((climb, one) => afterMark(climb, one, rule, rungs), startAt(START));
}

/** Goes down the list, a row at a time, until a title is the chosen one. */
async function choose(terminal: Terminal, title: string): Promise<void> {
  for (;;) {
    const screen = await terminal.until(/▶ \S.*/);
    const [chosen = ''] = /▶ \S.*/.exec(screen) ?? [];
    if (chosen.includes(title)) return;
    await terminal.press('Down');
    await terminal.untilGone(chosen);
  }
}

describe('the main job', () => {
  it.concurrent.each([SMALL, LARGE])(
    'at $columns x $rows: five clean and two missed, and tomorrow goes on where today ended',
    inSitting(async (sitting, size: Size) => {
      const terminal = await sitting.terminal(size);
      await terminal.type(
        standside(sitting, `practice five-notes --key Bb --articulation single --tempo ${START} --silent`),
      );
      expect(await terminal.until('Five-note study')).toMatch(/B♭\s+single/);
      await terminal.press('Space');
      await terminal.until('COUNT-IN');
      await mark(terminal, ...PLAYED);
      await terminal.press('q');
      await terminal.until(leftWith(0));

      const { bpm, best, cleanRun, missedRun } = expected();
      expect({ best, cleanRun, missedRun }).toEqual({ best: START, cleanRun: 0, missedRun: 0 });
      await terminal.type(
        `clear; ${standside(sitting, 'practice five-notes --key Bb --articulation single --silent')}`,
      );
      await terminal.until(`quarter = ${bpm} `);
      await terminal.until('3 more clean: up to');
      await terminal.until(FALL);
      await terminal.until(new RegExp(`\\b${best}\\b.*\\bbest\\b`));
      await terminal.press('q');
      await terminal.until(leftWith(0));

      const { stdout, code } = await withoutTerminal(['bests', '--json', '--data', sitting.data]);
      expect(code).toBe(0);
      const day = sitting.entries()[0]?.day;
      expect(JSON.parse(stdout)).toEqual([
        expect.objectContaining({
          exercise: 'five-notes',
          articulation: 'single',
          key: 'Bb',
          bpm: START,
          beat: '1/4',
          // Sixteenths at 208: 208 x 4 / 60 notes per second.
          notesPerSecond: 13.867,
          day,
          next: bpm,
          estimate: expect.objectContaining({
            said: expect.stringMatching(/still finding out|Safe/) as string,
          }) as unknown,
        }) as unknown,
      ]);
    }),
  );

  it.concurrent(
    'is the same from Today, with the arrow keys',
    inSitting(async (sitting) => {
      const terminal = await sitting.terminal(SMALL);
      await terminal.type(standside(sitting, '--silent'));
      await terminal.until('Today');
      await terminal.press('e');
      await terminal.until('Exercises');
      await choose(terminal, 'Quick turn');
      await terminal.press('Right');
      await terminal.until(/▶ Quick turn\s+B♭/);
      await terminal.press('Enter');
      await terminal.until('READY');
      await terminal.press('Space');
      await mark(terminal, 'clean', 'tense');
      await terminal.press('q');
      await terminal.until(leftWith(0));
      expect(
        sitting.marked().map((entry) => entry.kind === 'mark' && `${entry.key} ${entry.mark} ${entry.bpm}`),
      ).toEqual(['Bb clean 200', 'Bb tense 200']);
    }),
  );

  it.concurrent(
    'obeys a page-turner pedal, and takes a mark back',
    inSitting(async (sitting) => {
      const terminal = await sitting.terminal(SMALL);
      await terminal.type(standside(sitting, 'practice quick-turn --silent'));
      await terminal.until('READY');
      await terminal.press('Space');
      await terminal.until(/BREATHE · mark\?|MARK\?/);
      await terminal.press('NPage');
      await terminal.until('1 of 1 clean today');
      await terminal.until('2 more clean');
      await terminal.press('u');
      await terminal.until('no marks yet today');
      await terminal.until('3 more clean');
      await terminal.until(/BREATHE · mark\?|MARK\?/);
      await terminal.press('PPage');
      await terminal.until('0 of 1 clean today');
      await terminal.press('q');
      await terminal.until(leftWith(0));
      expect(sitting.marked().map(({ kind }) => kind)).toEqual(['mark', 'undo', 'mark']);
    }),
  );
});

describe('a mark that was shown', () => {
  it.concurrent(
    'is in the journal although the program was killed at once, and the next start is not in anyone’s way',
    inSitting(async (sitting) => {
      const terminal = await sitting.terminal(SMALL);
      await terminal.type(standside(sitting, 'practice quick-turn --silent'));
      await terminal.until('READY');
      await terminal.press('Space');
      const screen = await mark(terminal, 'clean');
      const [pid] = await terminal.children();
      process.kill(pid ?? 0, 'SIGKILL');
      expect(screen).toContain('1 of 1 clean today');
      expect(sitting.marked()).toMatchObject([{ kind: 'mark', mark: 'clean', exercise: 'quick-turn', bpm: 200 }]);
      await terminal.press('Enter');
      await terminal.type(`reset; clear; ${standside(sitting, 'practice quick-turn --silent')}`);
      await terminal.until('READY');
      await terminal.until('2 more clean');
      await terminal.until('1 of 1 clean today');
      await terminal.press('q');
      await terminal.until(leftWith(0));
    }),
  );
});
