import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SOFT } from '../../src/music/tongue/syllables.ts';
import { DEFAULT_SETTINGS, parseSettings, readSettings } from '../../src/runtime/files/settings.ts';
import { actionFor, withOwnKeys } from '../../src/ui/keys.ts';
import { eachInOwnFolder } from './folder.ts';

const folder = eachInOwnFolder();

const WHOLE = `
keys:
  clean: [y, pageup]
  missed: pagedown
volume: { click: 50, drone: 0 }
tap offset: 25
a4: 442
instrument: Euphonium
syllables: d-g
plain letters: true
day starts: 5:30
device: Desk speakers
latency: safe
level at the ear: 92
`;

describe('the settings file', () => {
  it('may be missing', async () => {
    expect(await readSettings(folder())).toEqual({ settings: DEFAULT_SETTINGS, troubles: [] });
  });

  it('sets everything, in YAML and in JSON', async () => {
    const settings = {
      keys: { clean: ['y', 'pageup'], missed: ['pagedown'] },
      volume: { click: 0.5, drone: 0 },
      tapOffset: 25,
      a4: 442,
      instrument: 'euphonium',
      syllables: SOFT,
      plainLetters: true,
      dayStart: 330,
      device: 'Desk speakers',
      latency: 'safe',
      level: 92,
    };
    expect(await parseSettings(WHOLE, 'settings.yaml')).toEqual({ settings, troubles: [] });
    const json = JSON.stringify({ a4: 442, 'day starts': '05:30' });
    writeFileSync(join(folder(), 'settings.json'), json);
    expect(await readSettings(folder())).toMatchObject({ settings: { a4: 442, dayStart: 330 }, troubles: [] });
  });

  it('turns the pedal round', async () => {
    const { settings } = await parseSettings(WHOLE, 'settings.yaml');
    const rows = withOwnKeys(settings.keys);
    expect(actionFor(rows, 'practice', 'pageup', [])).toBe('clean');
    expect(actionFor(rows, 'practice', 'pagedown', [])).toBe('missed');
  });

  it('cannot take away the last way out', async () => {
    const { settings } = await parseSettings('keys: { leave: z }', 'settings.yaml');
    expect(actionFor(withOwnKeys(settings.keys), 'practice', 'ctrl+c', [])).toBe('leave');
  });

  it.each([
    [
      'syllables: tk',
      'settings.yaml, line 1, column 12: \'syllables\' is "tk"; write t-k, d-g, or two syllables of your own, ' +
        'as ta-ka.',
    ],
    ['a4: 4400', "settings.yaml, line 1, column 5: 'a4' is 4400; write hertz from 380 to 500."],
    [
      '\n volme: {click: 3}',
      "settings.yaml, line 2, column 2: there is no setting 'volme' here; did you mean 'volume'?",
    ],
    [
      'volume: {click: loud}',
      'settings.yaml, line 1, column 17: \'click\' is "loud"; write a percentage from 0 to 100.',
    ],
    ['keys: {clen: c}', "settings.yaml, line 1, column 8: there is no setting 'clen' here; did you mean 'clean'?"],
    [
      'keys: {clean: m}',
      "settings.yaml, line 1, column 7: the key m is bound to both 'clean' and 'missed'; give one of them another key.",
    ],
    [
      'keys: {clean: pagedwn}',
      'settings.yaml, line 1, column 15: \'clean\' is "pagedwn"; write keys such as c, space, pagedown or ctrl+d.',
    ],
    [
      'instrument: cornett',
      'settings.yaml, line 1, column 13: \'instrument\' is "cornett"; write an instrument; did you mean cornet?',
    ],
    [
      'level at the ear: 300',
      "settings.yaml, line 1, column 19: 'level at the ear' is 300; write decibels, dB(A) from 60 to 130.",
    ],
    [
      'day starts: 25:00',
      "settings.yaml, line 1, column 13: 'day starts' is \"25:00\"; write a time from 0:00 to 12:00, as '04:00'.",
    ],
    [
      'just words',
      'settings.yaml, line 1, column 1: the file holds no settings; write each as a name, a colon and a value.',
    ],
    ['a4: 440\na4: 442', "settings.yaml, line 2, column 1: 'a4' stands here a second time; keep one of the two."],
  ])('%j is one mistake with its place, and the default stays', async (text, sentence) => {
    expect(await parseSettings(text, 'settings.yaml')).toEqual({ settings: DEFAULT_SETTINGS, troubles: [sentence] });
  });

  it('names several mistakes at once and keeps what is right', async () => {
    const { settings, troubles } = await parseSettings('a4: 1\nlatency: soon\ntap offset: 10', 'settings.yaml');
    expect(troubles).toHaveLength(2);
    expect(settings.tapOffset).toBe(10);
  });
});
