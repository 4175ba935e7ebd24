/** The first start: what is found by typing, and in how many keys. */
import { describe, expect, it } from 'vitest';
import { INSTRUMENTS } from '../../src/music/pitch/instruments.ts';
import { FIRST_VIEW, instrumentNow, instrumentsFound } from '../../src/practice/screens/first-start-keys.ts';
import { onEvent } from '../../src/practice/stand-events.ts';
import type { Stand } from '../../src/practice/stand.ts';
import { firstStand } from './daily-sitting.ts';

const asked = (): Stand => ({ ...firstStand([]), view: FIRST_VIEW });
const press = (stand: Stand, ...keys: readonly string[]): Stand =>
  keys.reduce((now, key) => onEvent(now, { type: 'do', action: 'type', key, now: 1 }).state, stand);
const viewOf = ({ view }: Stand) => {
  if (view.screen !== 'first') throw new Error(view.screen);
  return view;
};

/** The fewest letters of one of its names, and taps of an arrow, that lead to it. */
function keysTo(id: string, name: string): number {
  const initials = (text: string): string =>
    text
      .split(/[^A-Za-z0-9]+/)
      .map((word) => word[0] ?? '')
      .join('');
  const ways = [id, name.toLowerCase(), initials(id), initials(name).toLowerCase()].flatMap((text) =>
    Array.from({ length: text.length + 1 }, (_, n) => text.slice(0, n)),
  );
  return Math.min(
    ...ways.flatMap((typed) => {
      const at = instrumentsFound(typed).findIndex((one) => one.id === id);
      return at < 0 ? [] : [typed.length + at];
    }),
  );
}

describe('the first start', () => {
  it('has every instrument under the finger in three keys, so that six are enough for all of it', () => {
    for (const { id, name } of INSTRUMENTS) expect(keysTo(id, name), id).toBeLessThanOrEqual(3);
  });

  it('finds nothing where nothing is called that, and goes on once something is', () => {
    const lost = press(asked(), 'q', 'q', 'enter');
    expect(viewOf(lost).asks).toBe('instrument');
    expect(instrumentNow(viewOf(lost))).toBeNull();
    const found = press(lost, 'backspace', 'backspace', 'b', 's', 'enter');
    expect(viewOf(found).asks).toBe('routine');
    expect(instrumentNow(viewOf(found))?.id).toBe('baritone-saxophone');
  });

  it('goes by families with left and right', () => {
    expect(instrumentNow(viewOf(press(asked(), 'right')))?.id).toBe('clarinet');
    expect(instrumentNow(viewOf(press(asked(), 'left')))?.id).toBe('flute');
  });

  it('goes back to the question before, the answers kept', () => {
    const third = press(asked(), 't', 'u', 'enter', 'enter');
    expect(viewOf(third).asks).toBe('minutes');
    const second = press(third, 'up', 'backspace');
    expect(viewOf(second)).toMatchObject({ asks: 'routine', minutes: 30 });
    expect(viewOf(press(second, 'backspace')).asks).toBe('instrument');
  });

  it('takes no sign that is none, and a key pressed for long ends nowhere', () => {
    const typed = press(asked(), '\u202e', '\u0007', ...Array.from({ length: 500 }, () => 'x'));
    expect(viewOf(typed).typed).toBe('x'.repeat(30));
  });
});
