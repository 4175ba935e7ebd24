/** What the settings screen writes is what the next start reads, and what the player wrote stays. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SETTING_ROWS } from '../../src/practice/screens/settings-rows.ts';
import type { ChangedSettings, Settings } from '../../src/practice/settings.ts';
import { onEvent } from '../../src/practice/stand-events.ts';
import type { Action, Stand } from '../../src/practice/stand.ts';
import type { Effect } from '../../src/practice/step.ts';
import { keepSettings } from '../../src/runtime/files/settings-writer.ts';
import { readSettings } from '../../src/runtime/files/settings.ts';
import { settingsAtWork } from '../../src/runtime/settings-at-work.ts';
import { firstStand } from '../practice/daily-sitting.ts';
import { eachInOwnFolder } from './folder.ts';

const folder = eachInOwnFolder();
const at = (): string => join(folder(), 'settings.yaml');

/** The screen with the finger on that row. */
function sit(label: string) {
  const row = SETTING_ROWS.findIndex((one) => one.label === label);
  let stand: Stand = { ...firstStand([]), view: { screen: 'settings', at: { row, typed: null, learns: false } } };
  const effects: Effect[] = [];
  const press = (action: Action, key = ''): void => {
    const done = onEvent(stand, { type: 'do', action, key, now: 1 });
    stand = done.state;
    effects.push(...done.effects);
  };
  const type = (text: string): void => {
    press('open');
    [...text].forEach((letter) => press('type', letter));
    press('type', 'enter');
  };
  const set = (): ChangedSettings =>
    Object.assign({}, ...effects.flatMap((effect) => (effect.type === 'set' ? [effect.settings] : [])));
  return { press, type, set, effects, stand: () => stand };
}

async function readBack(changed: ChangedSettings): Promise<Settings> {
  expect(await keepSettings(folder(), changed)).toBeNull();
  const { settings, troubles } = await readSettings(folder());
  expect(troubles).toEqual([]);
  return settings;
}

describe('each setting of the screen', () => {
  it.each(SETTING_ROWS.filter(({ turned }) => turned).map(({ label }) => label))(
    'is read as it was turned: %s',
    async (label) => {
      const { press, set, stand } = sit(label);
      for (let n = 0; n < 12; n += 1) {
        press(n < 8 ? 'setting-more' : 'setting-less');
        // Nulls leave the file: what is not set is not written.
        expect(await readBack(set())).toMatchObject(set());
        expect(stand().settings).toMatchObject(set());
      }
    },
  );

  it.each([
    ['Instrument', 'Bb cornet', { instrument: 'cornet' }],
    ['Minutes', '600', { minutes: 600 }],
    ['A', '442.5', { a4: 442.5 }],
    ['A', '440,5', { a4: 440.5 }],
    ['Ladder’s rule', 'aim 80 %', { rule: { aim: 0.8 } }],
    ['Ladder’s rule', '82.5', { rule: { aim: 0.825 } }],
    ['Ladder’s rule', 'count', { rule: { aim: null } }],
    ['Sound device', "Desk: 'left', #2 [usb]", { device: "Desk: 'left', #2 [usb]" }],
    ['Sound delay', '-35', { tapOffset: -35 }],
    ['Level at ear', '', { level: null }],
    ['Day starts', '5:30', { dayStart: 330 }],
  ])('is read as it was typed: %s %s', async (label, text, wanted) => {
    const { type, set } = sit(label);
    type(text);
    expect(set()).toEqual(wanted);
    expect(await readBack(set())).toMatchObject(wanted);
  });

  it.each([
    ['A', '379.9', /380 to 500 Hz/],
    ['A', 'abc', /380 to 500 Hz/],
    ['A', '', /380 to 500 Hz/],
    ['Minutes', '0', /1 to 600/],
    ['Ladder’s rule', '0.8', /60 to 95 %/],
    ['Ladder’s rule', '96', /60 to 95 %/],
    ['Sound delay', '1e9', /-500 to 500 ms/],
    ['Day starts', '13:00', /0:00 to 12:00/],
    ['Syllables', '7', /t-k, d-g/],
    ['Instrument', 'qqq', /No instrument is called/],
  ])('says what would be right at the field: %s %s', (label, text, said) => {
    const { type, set, stand } = sit(label);
    type(text);
    expect(set()).toEqual({});
    expect(stand().answer?.sentence).toMatch(said);
    expect(stand().view).toMatchObject({ at: { typed: text } });
  });

  it('is heard at once where it is the drone’s, and is silent when it is left', () => {
    const { press, effects } = sit('A');
    press('setting-more');
    expect(effects.at(-1)).toMatchObject({ type: 'sound', command: { ask: 'drone', drone: { a4: 441 } } });
    press('back');
    expect(effects.at(-1)).toMatchObject({ type: 'sound', command: { ask: 'drone', drone: null } });
  });

  it('leaves comments and order as the player wrote them', async () => {
    writeFileSync(at(), '# mine\na4: 440 # the band\nkeys: {undo: [z]} # easier\n# last\ninstrument: flute\n');
    const { press, set } = sit('Pedal forward');
    press('open');
    press('type', 'right');
    await readBack({ ...set(), keys: { undo: ['z'], ...set().keys }, a4: 442, instrument: 'cornet' });
    const text = readFileSync(at(), 'utf8');
    expect(text.match(/# \w+( \w+)*/g)).toEqual(['# mine', '# the band', '# easier', '# last']);
    expect(text.indexOf('a4: 442')).toBeLessThan(text.indexOf('pedal-forward'));
    expect(text.indexOf('pedal-forward')).toBeLessThan(text.indexOf('instrument: cornet'));
  });
});

describe('a key that says something else already', () => {
  it('is taken back with a sentence, and the file has nothing of it', async () => {
    const told: unknown[] = [];
    const first = (await readSettings(folder())).settings;
    const never = (): never => {
      throw new Error('not asked for');
    };
    const work = settingsAtWork({ folder: folder(), first, log: () => {}, read: never, reopen: never });
    work.listen((event) => told.push(event));
    work.set({ keys: { clean: ['m'] } });
    await work.finish();
    expect(told).toEqual([{ type: 'not-set', before: { keys: {} }, sentence: expect.stringContaining('the key m') }]);
    expect(work.now().keys).toEqual({});
    expect((await readSettings(folder())).settings.keys).toEqual({});
  });
});
