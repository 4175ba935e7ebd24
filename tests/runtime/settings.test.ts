import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SOFT } from '../../src/music/tongue/syllables.ts';
import { DEFAULT_SETTINGS, parseSettings, readSettings } from '../../src/runtime/files/settings.ts';
import { SETTINGS, writtenAs } from '../../src/runtime/files/settings-table.ts';
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
drone: { timbre: organ, octave: above }
instrument: Euphonium
syllables: d-g
plain letters: true
beat: still
day starts: 5:30
device: Desk speakers
latency: safe
rule: aim 82.5 %
level at the ear: 92
routine: own list
minutes: 40
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
      drone: { timbre: 'organ', octave: 'above' },
      instrument: 'euphonium',
      syllables: SOFT,
      plainLetters: true,
      stillBeat: true,
      dayStart: 330,
      device: 'Desk speakers',
      latency: 'safe',
      rule: { aim: 0.825 },
      level: 92,
      routine: 'own list',
      minutes: 40,
    };
    expect(await parseSettings(WHOLE, 'settings.yaml')).toEqual({ settings, troubles: [] });
    const json = JSON.stringify({ a4: 442, 'day starts': '05:30' });
    writeFileSync(join(folder(), 'settings.json'), json);
    expect(await readSettings(folder())).toMatchObject({ settings: { a4: 442, dayStart: 330 }, troubles: [] });
  });

  it('is read back as what it was, whatever a screen writes', async () => {
    const { settings } = await parseSettings(WHOLE, 'settings.yaml');
    const fields = Object.keys(SETTINGS) as readonly (keyof typeof SETTINGS)[];
    const written = fields.map((field) => [SETTINGS[field].name, writtenAs(field, settings[field])] as const);
    const text = JSON.stringify(Object.fromEntries(written));
    expect(await parseSettings(text, 'settings.json')).toEqual({ settings, troubles: [] });
    expect(writtenAs('rule', settings.rule)).toBe('aim 82.5 %');
    expect(writtenAs('rule', { aim: null })).toBe('count');
    expect(writtenAs('dayStart', 65)).toBe('01:05');
    expect(writtenAs('syllables', settings.syllables)).toBe('d-g');
  });

  it('turns the pedal round', async () => {
    const { settings } = await parseSettings(WHOLE, 'settings.yaml');
    const rows = withOwnKeys(settings.keys);
    expect(actionFor(rows, 'practice', 'pageup', [])).toBe('clean');
    expect(actionFor(rows, 'practice', 'pagedown', [])).toBe('missed');
  });

  it('loses of its keys only those that clash, and says each', async () => {
    const text = 'keys: {clean: m, tense: [y], undo: [z], drone: [z], help: [f1]}';
    const { settings, troubles } = await parseSettings(text, 'settings.yaml');
    expect(settings.keys).toEqual({ tense: ['y'], undo: ['z'], help: ['f1'] });
    expect(troubles).toEqual([
      expect.stringMatching(/column 15: the key m .* Until then 'clean' keeps its usual one\.$/),
      expect.stringMatching(/column 48: the key z .* Until then 'drone' keeps its usual one\.$/),
    ]);
  });

  it.each([
    ['right', 'left'],
    ['down', 'up'],
    ['enter', 'space'],
    ['b', 'q'],
  ])('has a pedal that sends %s and %s, on every screen, with a way out', async (forward, back) => {
    const text = `keys: {pedal-forward: [${forward}], pedal-back: [${back}]}`;
    const { settings, troubles } = await parseSettings(text, 'settings.yaml');
    expect(troubles).toEqual([]);
    const rows = withOwnKeys(settings.keys);
    for (const place of ['today', 'exercises', 'practice', 'block', 'end', 'ways', 'weeks', 'settings'] as const) {
      expect(actionFor(rows, place, forward, ['sitting'])).toBe('pedal-forward');
      expect(actionFor(rows, place, back, ['sitting'])).toBe('pedal-back');
      expect(actionFor(rows, place, 'ctrl+c', ['sitting'])).toBe('leave');
    }
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
    ...['aim 0', 'aim 100 %', 'much', 'aim 59 %', 'aim 95.5'].map((written): [string, string] => [
      `rule: ${written}`,
      `settings.yaml, line 1, column 7: 'rule' is "${written}"; write aim and a share of clean repetitions from ` +
        '60 % to 95 %, like aim 80 %, or count for so many in a row.',
    ]),
    [
      'drone: {timbre: kazoo}',
      'settings.yaml, line 1, column 17: \'timbre\' is "kazoo"; write one of reed, organ, string, pure.',
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
      "settings.yaml, line 1, column 15: the key m is bound to both 'clean' and 'missed'; give one of them another " +
        'key. ' +
        "Until then 'clean' keeps its usual one.",
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

  it.each([
    ['constructor: 1', 1, 'constructor'],
    ['__proto__: {a4: 400}', 1, '__proto__'],
    ['valueOf: 2', 1, 'valueOf'],
    ['volume: {toString: 3}', 10, 'toString'],
    ['volume: {__proto__: 3}', 10, '__proto__'],
    ['keys: {constructor: c}', 8, 'constructor'],
  ])('%j is a name like any other that is not known', async (text, column, name) => {
    const { settings, troubles } = await parseSettings(text, 'settings.yaml');
    expect(settings).toEqual(DEFAULT_SETTINGS);
    expect(troubles).toHaveLength(1);
    const known = text.startsWith('volume')
      ? 'click, drone.'
      : text.startsWith('keys')
        ? 'play-block, breath'
        : 'instrument, a4';
    expect(troubles[0]).toContain(
      `settings.yaml, line 1, column ${column}: there is no setting '${name}' here; known are ${known}`,
    );
  });

  it.each([
    ['keys: {clean: [y, pagedwn]}', 'column 19: entry 2 of \'clean\' is "pagedwn"; write keys such as'],
    ['keys: {clean: }', "column 15: 'clean' is empty; write keys such as"],
    ['keys: {clean: []}', "column 15: 'clean' is a list; write keys such as"],
    ['keys: {clean: cc}', 'column 15: \'clean\' is "cc"; write keys such as'],
    ['keys: {clean: ctrl+1}', 'column 15: \'clean\' is "ctrl+1"; write keys such as'],
    ['keys: {clean: xctrl+a}', 'column 15: \'clean\' is "xctrl+a"; write keys such as'],
    ['keys: {clean: ctrl+ab}', 'column 15: \'clean\' is "ctrl+ab"; write keys such as'],
    ['keys: {clean: "\\n"}', 'column 15: \'clean\' is "\\u000a"; write keys such as'],
    ['keys: {clean: 1}', "column 15: the key 1 is bound to both 'clean' and 'tension'; give one"],
    ['keys: 3', "column 7: 'keys' is 3; write an action and its keys on each line, as clean: [c, pagedown]."],
    ['volume: 80', "column 9: 'volume' is 80; write click: and drone:, each a percentage."],
    ['volume: {click: 100.5}', "column 17: 'click' is 100.5; write a percentage from 0 to 100."],
    ['volume: {click: -1}', "column 17: 'click' is -1; write a percentage from 0 to 100."],
    ['volume: {click: 101%}', 'column 17: \'click\' is "101%"; write a percentage from 0 to 100.'],
    ['volume: {click: x10%}', 'column 17: \'click\' is "x10%"; write a percentage from 0 to 100.'],
    ['volume: {click: 10%x}', 'column 17: \'click\' is "10%x"; write a percentage from 0 to 100.'],
    ['a4: 379', "column 5: 'a4' is 379; write hertz from 380 to 500."],
    ['a4:', "column 4: 'a4' is empty; write hertz"],
    ['a4: {b: 1}', "column 5: 'a4' is a group of settings; write hertz"],
    ['instrument: 3', "column 13: 'instrument' is 3; write an instrument, such as cornet."],
    ['instrument: xyzzyxyzzy', 'column 13: \'instrument\' is "xyzzyxyzzy"; write an instrument, such as cornet.'],
    ['syllables: 3', "column 12: 'syllables' is 3; write t-k, d-g, or two"],
    ['day starts: 12:01', 'column 13: \'day starts\' is "12:01"; write a time from 0:00 to 12:00'],
    ['day starts: 4:60', 'column 13: \'day starts\' is "4:60"; write a time'],
    ['day starts: 4:30h', 'column 13: \'day starts\' is "4:30h"; write a time'],
    ['day starts: a4:30', 'column 13: \'day starts\' is "a4:30"; write a time'],
    ['day starts: 4', "column 13: 'day starts' is 4; write a time"],
    ['plain letters: maybe', 'column 16: \'plain letters\' is "maybe"; write yes or no.'],
    ['device: ""', 'column 9: \'device\' is ""; write a name.'],
    ['device: 3', "column 9: 'device' is 3; write a name."],
    [`device: ${'x'.repeat(201)}`, `column 9: 'device' is "${'x'.repeat(39)}…"; write a name.`],
    ['latency: soon', 'column 10: \'latency\' is "soon"; write one of low, safe.'],
    ['sound delay: 501', "column 14: 'sound delay' is 501; write milliseconds from -500 to 500."],
    ['tap offset: 501', "column 13: 'tap offset' is 501; write milliseconds from -500 to 500."],
    ['level at the ear: 59', "column 19: 'level at the ear' is 59; write decibels, dB(A) from 60 to 130."],
    ['[a4, 440]', 'column 1: the file holds no settings; write each'],
  ])('%j is said to be wrong where it stands, and nothing else is', async (text, sentence) => {
    const { settings, troubles } = await parseSettings(text, 'settings.yaml');
    expect(settings).toEqual(DEFAULT_SETTINGS);
    expect(troubles).toHaveLength(1);
    expect(troubles[0]).toContain(`settings.yaml, line 1, ${sentence}`);
  });

  it.each([
    ['a4: 380', { a4: 380 }],
    ['a4: 500', { a4: 500 }],
    ['tap offset: -500', { tapOffset: -500 }],
    ['sound delay: 30', { tapOffset: 30 }],
    ['day starts: 12:00', { dayStart: 720 }],
    ['day starts: 0:00', { dayStart: 0 }],
    ['latency: low', { latency: 'low' }],
    ['plain letters: false', { plainLetters: false }],
    ['plain letters: yes', { plainLetters: true }],
    ['plain letters: no', { plainLetters: false }],
    ['beat: still', { stillBeat: true }],
    ['beat: moving', { stillBeat: false }],
    [`device: ${'x'.repeat(200)}`, { device: 'x'.repeat(200) }],
    ['volume: {click: 20}', { volume: { click: 0.2, drone: 0.4 } }],
    ['volume: {drone: 20 %}', { volume: { click: 0.8, drone: 0.2 } }],
    ['volume: {click: 100, drone: 100%}', { volume: { click: 1, drone: 1 } }],
    ['volume: {click: 2.5%, drone: 0%}', { volume: { click: 0.025, drone: 0 } }],
    ['keys: {clean: [y, y]}', { keys: { clean: ['y'] } }],
    ['keys: {clean: é}', { keys: { clean: ['é'] } }],
    ['keys: {clean: ["€", ctrl+a, tab, left, right]}', { keys: { clean: ['€', 'ctrl+a', 'tab', 'left', 'right'] } }],
    ['keys: {tension: [5, 6, 7, 8, 9]}', { keys: { tension: ['5', '6', '7', '8', '9'] } }],
    ['keys: {leave: [z, ctrl+c]}', { keys: { leave: ['z', 'ctrl+c'] } }],
    ['keys: {leave: z}', { keys: { leave: ['z', 'ctrl+c'] } }],
    ['', {}],
    ['# nothing yet\n', {}],
  ])('%j is what it says', async (text, expected) => {
    expect(await parseSettings(text, 'settings.yaml')).toEqual({
      settings: { ...DEFAULT_SETTINGS, ...expected },
      troubles: [],
    });
  });

  it('keeps the keys and levels beside a wrong one, and says all mistakes in the order of the file', async () => {
    const text = 'a4: 1\nkeys: {clen: x, clean: y, tense: pagedwn}\nvolume: {click: 120, drone: 30}\nnew: 1';
    const { settings, troubles } = await parseSettings(text, 'settings.yaml');
    expect(settings).toEqual({
      ...DEFAULT_SETTINGS,
      keys: { clean: ['y'] },
      volume: { click: 0.8, drone: 0.3 },
    });
    expect(troubles.map((line) => /line \d+, column \d+/.exec(line)?.[0])).toEqual([
      'line 1, column 5',
      'line 2, column 8',
      'line 2, column 34',
      'line 3, column 17',
      'line 4, column 1',
    ]);
  });

  it('is the first of three names that is there', async () => {
    writeFileSync(join(folder(), 'settings.json'), '{"a4": 441}');
    expect((await readSettings(folder())).settings.a4).toBe(441);
    writeFileSync(join(folder(), 'settings.yml'), 'a4: 442');
    expect((await readSettings(folder())).settings.a4).toBe(442);
    writeFileSync(join(folder(), 'settings.yaml'), 'a4: 1');
    expect(await readSettings(folder())).toEqual({
      settings: DEFAULT_SETTINGS,
      troubles: ["settings.yaml, line 1, column 5: 'a4' is 1; write hertz from 380 to 500."],
    });
  });

  it('that cannot be read, or is no YAML, is one sentence', async () => {
    mkdirSync(join(folder(), 'settings.yml'));
    const path = join(folder(), 'settings.yml');
    expect((await readSettings(folder())).troubles).toEqual([`${path} cannot be read: it is a folder.`]);
    const { settings, troubles } = await parseSettings('a4: [', 'settings.yaml');
    expect(settings).toEqual(DEFAULT_SETTINGS);
    expect(troubles[0]).toMatch(/^settings\.yaml, line 1, column 6: /);
  });

  it('names several mistakes at once and keeps what is right', async () => {
    const { settings, troubles } = await parseSettings('a4: 1\nlatency: soon\ntap offset: 10', 'settings.yaml');
    expect(troubles).toHaveLength(2);
    expect(settings.tapOffset).toBe(10);
  });
});
