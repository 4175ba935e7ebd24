/** The program in lines: each thing that happens is one short line, once. */
import { render } from 'ink-testing-library';
import { describe, expect, it } from 'vitest';
import { KEYS } from '../../src/ui/keys.ts';
import { LinesApp } from '../../src/ui/lines/lines-app.tsx';
import { type Said, changed, sayings, withSaid } from '../../src/ui/lines/spoken.ts';
import { plainText } from '../../src/ui/paint.ts';
import { wholeScreen } from '../../src/ui/whole-screen.ts';
import { sit } from '../practice/daily-sitting.ts';
import type { Played } from '../practice/keeping.ts';
import { beat, marked, onStand, press, today } from './practice-states.ts';

/** What is said of each thing that is done, one after the other. */
function heard(all: Played) {
  let said: Said = new Map();
  return (...steps: readonly (() => void)[]): readonly string[] =>
    [() => {}, ...steps].flatMap((step) => {
      step();
      const now = sayings(all.stand());
      const lines = changed(said, now);
      said = withSaid(said, now);
      return lines;
    });
}

describe('what is said', () => {
  it('of a line is its name, then each state once, and what a key came to', () => {
    const all = onStand();
    const say = heard(all);
    const opened = say();
    expect(opened.slice(0, 3)).toEqual(['Five-note study, B♭, double', 'at 88', 'ready']);
    const repetition = [
      () => beat(all, 'count-in'),
      () => beat(all, 'count-in', 0, 1),
      () => beat(all, 'repetition'),
      () => beat(all, 'repetition', 0, 1),
      () => beat(all, 'breath'),
    ];
    expect(
      say(
        () => press(all, 'start-pause'),
        ...repetition,
        () => press(all, 'clean'),
      ),
    ).toEqual(['count-in', 'play', 'mark?', 'clean, 1 of 3']);
    expect(say(...repetition, () => press(all, 'tense'))).toEqual(['count-in', 'play', 'mark?', 'tense, 0 of 3']);
    expect(say(...repetition, () => press(all, 'missed')).at(-1)).toBe('missed, 1 of 2');
    expect(say(() => press(all, 'undo'))).toEqual(['taken back, 0 of 3']);
  });

  it('of layers is what each repetition is for, before it begins, and of the drone what a key made of it', () => {
    const all = onStand({ layers: ['sing', 'play'] });
    const say = heard(all);
    expect(say().slice(0, 4)).toEqual(['Five-note study, B♭, double', 'at 88', 'sing', 'ready']);
    say(() => press(all, 'start-pause'));
    expect(say(() => void marked(all, 'clean'))).toEqual(['play', 'clean, 1 of 3']);
    expect(say(() => press(all, 'drone'))).toEqual(['Drone on the tonic, B♭.']);
    expect(say(() => press(all, 'drone-up'))).toEqual(['Drone on B.']);
    expect(say(() => press(all, 'drone'))).toEqual(['Drone off.']);
  });

  it('of a climb is the new tempo and no more', () => {
    const all = onStand();
    const say = heard(all);
    say(() => press(all, 'start-pause'));
    marked(all, 'clean', 'clean');
    say();
    expect(say(() => void marked(all, 'clean'))).toEqual(['up to 92']);
    expect(say(() => press(all, 'faster'))).toContain('at 94');
  });

  it('of a list is the row under the finger, and of an answer as often as it is given', () => {
    const all = today();
    const say = heard(all);
    expect(say()[0]).toBe('Today, 25 minutes');
    expect(say(() => press(all, 'down'))).toEqual([expect.stringMatching(/minutes: /)]);
    expect(say(() => press(all, 'exercises'))[0]).toBe('Exercises');
    expect(say(() => press(all, 'back'))[0]).toBe('Today, 25 minutes');
  });

  it('of a sitting is its block, and that the time is up', () => {
    const sat = sit();
    let said: Said = new Map();
    const lines: string[] = [];
    const look = () => {
      const now = sayings(sat.stand());
      lines.push(...changed(said, now));
      said = withSaid(said, now);
    };
    for (const action of ['open', 'play-block'] as const) {
      sat.press(action);
      look();
    }
    for (let k = 0; k < 2000 && sat.stand().sitting?.run.phase === 'playing'; k += 1) {
      sat.pass(1);
      look();
    }
    expect(lines[0]).toMatch(/, [\d.]+ minutes$/);
    expect(lines.filter((one) => one === 'time is up')).toHaveLength(1);
    expect(lines.filter((one) => one.startsWith('How tense?'))).toHaveLength(1);
    expect(lines.length).toBeLessThan(20);
  });
});

describe('the program in lines', () => {
  it('writes them through Ink one below the other, and obeys the keys', async () => {
    const all = onStand();
    const listeners = new Set<() => void>();
    const desk = {
      state: all.stand,
      subscribe: (listener: () => void) => {
        listeners.add(listener);
        return () => void listeners.delete(listener);
      },
      act: (action: Parameters<typeof press>[1]) => {
        press(all, action as never);
        listeners.forEach((listener) => listener());
      },
    };
    const app = render(<LinesApp desk={desk as never} keys={KEYS} />);
    const settle = () => new Promise((resolve) => setTimeout(resolve, 20));
    await settle();
    app.stdin.write(' ');
    await settle();
    const written = app.frames.join('\n');
    expect(written).toContain('Five-note study, B♭, double\nat 88\nready');
    expect(written).toContain('count-in');
    // No escape sequence but a new line: nothing is drawn over.
    expect(written.split('\u001b')).toHaveLength(1);
    app.unmount();
  });
});

describe('a still beat', () => {
  const size = { columns: 80, rows: 24 };
  const seen = (all: Played, isStill: boolean) => plainText(wholeScreen(all.stand(), KEYS, size, 'signs', isStill));

  it.each(['count-in', 'repetition', 'breath'] as const)('lets nothing move in a bar of the %s', (role) => {
    const all = onStand();
    press(all, 'start-pause');
    if (role === 'breath') {
      beat(all, 'repetition');
      beat(all, 'breath');
      press(all, 'clean');
    }
    const pictures = (isStill: boolean) =>
      [0, 1, 2, 3].map((at) => {
        beat(all, role, 0, at);
        return seen(all, isStill);
      });
    expect(new Set(pictures(true)).size).toBe(1);
    if (role !== 'breath') expect(new Set(pictures(false)).size).toBeGreaterThan(1);
    expect(pictures(true)[0]).toMatch(/COUNT-IN|PLAY|CLEAN|BREATHE/);
  });
});
