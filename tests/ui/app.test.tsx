import { render } from 'ink-testing-library';
import { describe, expect, it } from 'vitest';
import type { SoundCommand, SoundOutput } from '../../src/music/sound/sound-commands.ts';

import { openStand, practiceOf } from '../../src/practice/stand.ts';
import { planned } from '../../src/practice/screens/today-keys.ts';
import { createDesk } from '../../src/runtime/desk.ts';
import { readRoutineFile } from '../../src/runtime/files/routine-reader.ts';
import { App } from '../../src/ui/app.tsx';
import { KEYS, actionFor, withOwnKeys } from '../../src/ui/keys.ts';
import { type PaintedLine, plainText } from '../../src/ui/paint.ts';
import { keeping } from '../practice/keeping.ts';
import { DRONE, EXERCISE } from '../practice/rehearsal.ts';

function sit() {
  const sent: SoundCommand[] = [];
  const sound: SoundOutput = {
    send: (command) => void sent.push(command),
    listen: () => () => {},
    close: async () => {},
  };
  const read = readRoutineFile(new URL('../../routines/cornet-daily.yaml', import.meta.url).pathname);
  const stand = planned(
    openStand({
      today: '2026-11-25',
      routines: 'routine' in read ? [read.routine] : [],
      records: [],
      exercises: [EXERCISE, { ...EXERCISE, id: 'long-tones', title: 'Long tones', keys: ['Bb', 'C'] }],
      lines: {},
      prepare: () => ({ drone: DRONE, drill: null, remark: null }),
      notices: [],
      dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
    }),
  );
  const journal = keeping('2026-11-25');
  const clock = 100;
  const desk = createDesk({
    stand,
    sound,
    keep: journal.keep,
    settings: { set: () => {}, listen: () => () => {} },
    now: () => clock,
    today: () => '2026-11-25',
    everySecond: () => () => {},
  });
  let drawing: readonly PaintedLine[] = [];
  const app = render(<App desk={desk} keys={KEYS} paint={(lines) => void (drawing = lines)} />);
  const screen = () => plainText(drawing);
  const type = async (text: string) => {
    await new Promise((resolve) => setImmediate(resolve));
    app.stdin.write(text);
    await new Promise((resolve) => setImmediate(resolve));
  };
  return { desk, screen, sent, type };
}

describe('the program on the screen', () => {
  it('opens at Today with the routine fitted to the usual minutes, the warm-up first', () => {
    const { screen } = sit();
    expect(screen()).toMatch(/Today +Wednesday, 2026-11-25/);
    expect(screen()).toMatch(/25 minutes/);
    expect(screen()).toMatch(/Warm-up\n ▶ Breath and buzz +\d:00/);
  });

  it('fits the day anew to the minutes that are typed', async () => {
    const { screen, type, desk } = sit();
    await type('10');
    expect(screen()).toMatch(/10 minutes/);
    const minutes = desk.state().day.plan?.items.reduce((sum, item) => sum + item.minutes, 0);
    expect(minutes).toBeLessThanOrEqual(10);
    await type('+');
    expect(desk.state().day.minutes).toBe(15);
  });

  it('puts the chosen line on the stand, starts with one key, and help is one key away', async () => {
    const { screen, sent, type, desk } = sit();
    await type('e');
    await type('\u001b[B');
    await type('\u001b[C');
    await type('\r');
    expect(practiceOf(desk.state())?.line).toEqual({ exercise: 'long-tones', key: 'C', articulation: 'slurred' });
    await type(' ');
    expect(sent.at(-1)).toMatchObject({ ask: 'play', spans: [{ role: 'count-in' }, { role: 'repetition' }, {}, {}] });
    await type('?');
    expect(screen()).toMatch(/missed; in the middle|mark it missed/);
    expect(screen()).toMatch(/clinician/);
    await type('x');
    expect(screen()).toMatch(/COUNT-IN|READY/);
  });

  it('takes keys that come in one go one by one', async () => {
    const { type, desk } = sit();
    await type('e');
    await type('\r');
    await type('+++');
    expect(practiceOf(desk.state())?.kept).toHaveLength(3);
  });

  it('goes through the weeks to their end and no further: one key up is seen at once', async () => {
    const { desk, type } = sit();
    await type('w');
    for (let k = 0; k < 60; k += 1) await type('\u001b[B');
    const { view } = desk.state();
    if (view.screen !== 'weeks') throw new Error('not the weeks');
    expect(view.row).toBeLessThanOrEqual(Object.keys(desk.state().known.lines).length);
  });

  it('can be left in the middle of a note, and keeps it', async () => {
    const { desk, type } = sit();
    await type('\r');
    for (let k = 0; k < 40 && desk.state().view.screen !== 'end'; k += 1) await type(' n');
    await type('w');
    await type('even');
    expect(desk.state().view).toEqual({ screen: 'end', note: 'even' });
    await type('\u0003');
    expect(desk.state().leaving).toBe(true);
    expect(desk.state().known.records.at(-1)).toMatchObject({ kind: 'note', text: 'even' });
  });

  it('leaves with silence behind it', async () => {
    const { sent, type, desk } = sit();
    await type('q');
    expect(desk.state().leaving).toBe(true);
    expect(sent).toEqual([{ ask: 'stop' }, { ask: 'drone', drone: null }]);
  });
});

describe('keys', () => {
  it('are told apart: no key does two things at one place', () => {
    for (const place of ['today', 'exercises', 'practice', 'block', 'end', 'ways', 'weeks', 'settings'] as const) {
      const names = KEYS.filter(({ places }) => places.includes(place)).flatMap(({ keys }) => keys);
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it('can be the player’s own', () => {
    const rows = withOwnKeys({ clean: ['y'] });
    expect(actionFor(rows, 'practice', 'y', [])).toBe('clean');
    expect(actionFor(rows, 'practice', 'c', [])).toBeNull();
  });

  it('let a page-turner pedal work at once', () => {
    expect(actionFor(KEYS, 'practice', 'pagedown', [])).toBe('pedal-forward');
    expect(actionFor(KEYS, 'practice', 'pageup', [])).toBe('pedal-back');
  });
});
