/** Any size, any state, any series of resizes: what the terminal shows is what a fresh drawing shows. */
import { EventEmitter } from 'node:events';
import { Terminal } from '@xterm/headless';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createFrames } from '../../src/runtime/screen/changed-lines.ts';
import { letteringFor } from '../../src/runtime/screen/terminal-letters.ts';
import { ENTER } from '../../src/runtime/screen/terminal.ts';
import type { Stand } from '../../src/practice/stand.ts';
import { KEYS } from '../../src/ui/keys.ts';
import { plainText, widthOf } from '../../src/ui/paint.ts';
import { COLOURS } from '../../src/ui/theme.ts';
import { type Size, wholeScreen } from '../../src/ui/whole-screen.ts';
import { STATES, onStand, press, timeIsUp, today } from './practice-states.ts';

const shown = (action: 'exercises' | 'weeks' | 'settings' | 'help' | 'order'): Stand => {
  const all = today();
  press(all, action);
  return all.stand();
};

const STANDS: readonly Stand[] = [
  ...Object.values(STATES).map(({ stand }) => stand),
  today().stand(),
  shown('exercises'),
  shown('weeks'),
  shown('settings'),
  shown('help'),
  shown('order'),
  timeIsUp('practice'),
  timeIsUp('block'),
];

/** A sitting that came to its end, a note being written in signs of two columns; titles of such signs in the lists. */
function ended(): Stand {
  const all = today();
  press(all, 'open');
  for (let k = 0; k < 40 && all.stand().view.screen !== 'end'; k += 1) press(all, 'play-block', 'next-block');
  press(all, 'note');
  return { ...all.stand(), view: { screen: 'end', note: '今日は練習した ★ B♭' } };
}

function inWideSigns(stand: Stand): Stand {
  const { known, day } = stand;
  const title = '五音の練習、毎日少しずつ速く、楽に';
  const plan = day.plan && { ...day.plan, items: day.plan.items.map((item) => ({ ...item, title })) };
  const exercises = known.exercises.map((exercise) => ({ ...exercise, title }));
  return { ...stand, known: { ...known, exercises }, day: { ...day, plan } };
}

const OTHERS: readonly Stand[] = [
  ended(),
  { ...ended(), help: true },
  inWideSigns(today().stand()),
  inWideSigns(shown('exercises')),
  ...(['way', 'grid'] as const).map((action) => {
    const all = onStand();
    press(all, action);
    return all.stand();
  }),
];

const anyStand = fc.constantFrom(...STANDS, ...OTHERS);
const anySize: fc.Arbitrary<Size> = fc.record({
  columns: fc.integer({ min: 1, max: 400 }),
  rows: fc.integer({ min: 1, max: 200 }),
});
const anyLetters = fc.constantFrom('signs' as const, 'plain' as const);

/** A terminal and what the program knows of it: its size is told some time after it has changed. */
function terminalOf({ columns, rows }: Size) {
  const terminal = new Terminal({ cols: columns, rows, allowProposedApi: true });
  const events = new EventEmitter();
  const screen = {
    columns,
    rows,
    write: (text: string) => terminal.write(text),
    on: (event: 'resize', listener: () => void) => void events.on(event, listener),
    off: (event: 'resize', listener: () => void) => void events.off(event, listener),
  };
  terminal.write(ENTER);
  const flushed = (): Promise<void> => new Promise((resolve) => terminal.write('', resolve));
  return {
    screen,
    flushed,
    resize: (size: Size): void => terminal.resize(size.columns, size.rows),
    tell: (size: Size): void => {
      Object.assign(screen, size);
      events.emit('resize');
    },
    text: (): string => {
      const { active } = terminal.buffer;
      return Array.from({ length: terminal.rows }, (_, row) =>
        (active.getLine(row)?.translateToString(true) ?? '').trimEnd(),
      ).join('\n');
    },
  };
}

describe('any size of terminal', () => {
  it('is filled by so many lines, none of them wider', () => {
    fc.assert(
      fc.property(anyStand, anySize, anyLetters, (stand, size, letters) => {
        const lines = wholeScreen(stand, KEYS, size, letters);
        expect(lines).toHaveLength(size.rows);
        for (const painted of lines) expect(widthOf(painted)).toBeLessThanOrEqual(size.columns);
        // Nothing but ASCII reaches a terminal that has no more.
        if (letters === 'plain') expect(plainText(lines)).toMatch(/^[ -~\n]*$/);
      }),
      { numRuns: 150 },
    );
  });

  it('shows a fresh drawing after any series of resizes and of changes in between', async () => {
    const steps = fc.array(fc.record({ stand: anyStand, size: anySize, drawnLate: fc.boolean() }), {
      minLength: 1,
      maxLength: 6,
    });
    await fc.assert(
      fc.asyncProperty(anySize, steps, async (first, series) => {
        const { screen, flushed, resize, tell, text } = terminalOf(first);
        const frames = createFrames(screen, COLOURS);
        let size = first;
        for (const { stand, size: next, drawnLate } of series) {
          await flushed();
          resize(next);
          // A beat may be drawn for the old size after the terminal has the new one.
          if (drawnLate) frames.paint(wholeScreen(stand, KEYS, size, 'signs'));
          await flushed();
          tell(next);
          size = next;
          frames.paint(wholeScreen(stand, KEYS, size, 'signs'));
        }
        await flushed();
        const fresh = plainText(wholeScreen(series.at(-1)!.stand, KEYS, size, 'signs'));
        expect(text()).toBe(fresh);
        frames.close();
      }),
      { numRuns: 40 },
    );
  });
});

describe('the letters of a terminal', () => {
  it('are ASCII where its locale or its kind has no others, and where the player wants them', () => {
    expect(letteringFor(false, { LANG: 'C.UTF-8', TERM: 'xterm' }, 'linux')).toBe('signs');
    expect(letteringFor(false, { LANG: 'de_DE.utf8', TERM: 'xterm' }, 'linux')).toBe('signs');
    expect(letteringFor(false, { LANG: 'de_DE.UTF-8', LC_ALL: 'C', TERM: 'xterm' }, 'linux')).toBe('plain');
    expect(letteringFor(false, { LANG: 'de_DE.ISO-8859-1', TERM: 'xterm' }, 'linux')).toBe('plain');
    expect(letteringFor(false, { LANG: 'C.UTF-8', TERM: 'linux' }, 'linux')).toBe('plain');
    expect(letteringFor(false, { LANG: 'C.UTF-8', TERM: 'dumb' }, 'linux')).toBe('plain');
    expect(letteringFor(false, { TERM: 'xterm' }, 'darwin')).toBe('plain');
    expect(letteringFor(false, {}, 'win32')).toBe('signs');
    expect(letteringFor(true, { LANG: 'C.UTF-8', TERM: 'xterm' }, 'linux')).toBe('plain');
  });
});
