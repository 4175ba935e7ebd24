/** What the screens write into the settings file, read back again. */
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keepSettings } from '../../src/runtime/files/settings-writer.ts';
import { parseSettings, readSettings } from '../../src/runtime/files/settings.ts';
import { eachInOwnFolder } from './folder.ts';

const folder = eachInOwnFolder();
const at = (name = 'settings.yaml'): string => join(folder(), name);
const text = (name?: string): string => readFileSync(at(name), 'utf8');

/** The levels as the next start knows them. */
async function levels() {
  const { settings, troubles } = await readSettings(folder());
  expect(troubles).toEqual([]);
  return settings.volume;
}

/** A key moves a level to whole hundredths; the other dial stays as the file had it, to a ten-thousandth. */
const level = fc.oneof(
  fc.integer({ min: 0, max: 100 }).map((n) => n / 100),
  fc.integer({ min: 0, max: 1e4 }).map((n) => n / 1e4),
);

describe('the levels that a key turned', () => {
  it('are the same at the next start', async () => {
    expect(await keepSettings(folder(), { volume: { click: 0.85, drone: 0.4 } })).toBeNull();
    expect(await levels()).toEqual({ click: 0.85, drone: 0.4 });
    expect(text()).toContain('click: 85');
  });

  it('are the same at the next start whatever they are, one per cent and silence too', async () => {
    await fc.assert(
      fc.asyncProperty(level, level, async (click, drone) => {
        expect(await keepSettings(folder(), { volume: { click, drone } })).toBeNull();
        expect(await levels()).toEqual({ click, drone });
      }),
      {
        examples: [
          [0, 1],
          [0.01, 0.01],
          [0.29, 0.57],
        ],
      },
    );
  });

  it.each([
    ['{click: 0.85, drone: 0.4}', { click: 0.85, drone: 0.4 }],
    ['{click: 1, drone: 0}', { click: 1, drone: 0 }],
    ['{click: 85, drone: 1.5}', { click: 0.85, drone: 0.015 }],
    ['{click: 1%, drone: 40 %}', { click: 0.01, drone: 0.4 }],
  ])('are healed where they were written as shares: %s', async (written, volume) => {
    const { settings, troubles } = await parseSettings(`volume: ${written}`, 'settings.yaml');
    expect(troubles).toEqual([]);
    expect(settings.volume).toEqual(volume);
  });
});

describe('the README’s own example', () => {
  it('is sound, and its click can be heard', async () => {
    const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
    const [, example = ''] = /```yaml\n(# settings\.yaml[\s\S]*?)```/.exec(readme) ?? [];
    const { settings, troubles } = await parseSettings(example, 'settings.yaml');
    expect(troubles).toEqual([]);
    expect(settings.volume).toEqual({ click: 0.7, drone: 0.5 });
    expect(example).toMatch(/click: 70\b/);
  });
});

describe('everything else in the file', () => {
  const OWN = `# mine
a4:    442     # the band's
volume:        # by ear
    drone: 0.4 # low
    click: 85  # not louder


keys: {clean: [y,   pageup]}
`;

  it('stays to the letter where the levels stand already', async () => {
    writeFileSync(at(), OWN);
    await keepSettings(folder(), { volume: { click: 0.8, drone: 0.45 } });
    expect(text()).toBe(OWN.replace('85', '80').replace('0.4', '45'));
  });

  it('stays where a level is new, comments and order', async () => {
    const long = `device: ${'a very long name '.repeat(8).trim()}`;
    writeFileSync(at(), `# mine\n${long}\na4: 442 # the band's\n`);
    await keepSettings(folder(), { volume: { click: 0.8, drone: 0.45 } });
    expect(text()).toBe(`# mine\n${long}\na4: 442 # the band's\nvolume:\n  click: 80\n  drone: 45\n`);
  });

  it.each([
    ['volume:\n', 'empty'],
    ['volume: loud\n', 'a word'],
    ['volume: [1, 2]\n', 'a list'],
    ['half: &h {click: 20, drone: 10}\nvolume: *h\n', 'a reference'],
    ['volume: {click: &loud 90, drone: *loud}\n', 'a reference inside'],
    ['volume: {click: "85", other: 3}\n', 'in quotes, with one missing'],
    ['volume:\n  drone: |\n    4\n  click: 85\n', 'a text block'],
    ['volume: {click: !!str 85, drone: 4}\n', 'a tag'],
    ['volume: {click: , drone: 4}\n', 'nothing after a name'],
    ['volume:\n  click:\n  drone: 4\n', 'nothing after a name on its line'],
    ['\ufeffvolume: {click: 5, drone: 4}\r\na4: 442\r\n', 'the mark of an editor'],
    ['# nothing yet\n', 'a comment alone'],
    ['--- # mine\na4: 442\n...\n', 'the marks of a document'],
    ['', 'an empty file'],
  ])('is no hindrance: %j (%s)', async (before) => {
    writeFileSync(at(), before);
    expect(await keepSettings(folder(), { volume: { click: 0.8, drone: 0.45 } })).toBeNull();
    expect((await readSettings(folder())).settings.volume).toEqual({ click: 0.8, drone: 0.45 });
  });

  it('stays in JSON too', async () => {
    writeFileSync(at('settings.json'), '{\n    "a4": 442,\n    "volume": {"click": 0.85, "drone": 40}\n}\n');
    await keepSettings(folder(), { volume: { click: 0.01, drone: 0.45 } });
    expect(JSON.parse(text('settings.json'))).toEqual({ a4: 442, volume: { click: '1%', drone: 45 } });
    expect(text('settings.json')).toMatch(/^\{\n {4}"a4": 442,\n/);
  });
});

const LEVELS = { volume: { click: 0.8, drone: 0.45 } };

describe('the file itself', () => {
  it('is the one that counts, with nothing left beside it', async () => {
    writeFileSync(at('settings.yml'), 'a4: 442\n');
    writeFileSync(at('settings.json'), '{}');
    expect(await keepSettings(folder(), LEVELS)).toBeNull();
    expect(text('settings.yml')).toBe('a4: 442\nvolume:\n  click: 80\n  drone: 45\n');
    expect(text('settings.json')).toBe('{}');
    expect(readdirSync(folder()).toSorted()).toEqual(['settings.json', 'settings.yml']);
  });

  it('stays a link, and what it leads to keeps its mode', async () => {
    writeFileSync(at('mine.yaml'), 'a4: 442\n');
    chmodSync(at('mine.yaml'), 0o640);
    symlinkSync('mine.yaml', at());
    expect(await keepSettings(folder(), LEVELS)).toBeNull();
    expect(lstatSync(at()).isSymbolicLink()).toBe(true);
    expect(text('mine.yaml')).toContain('click: 80');
    expect(statSync(at('mine.yaml')).mode & 0o777).toBe(0o640);
  });

  it.each([
    'a4: 442\na4: 443\n',
    'volume: {click: 50, drone: 4}\na4: 442\na4: 443\n',
    'a4: [\n',
    '- a4\n',
    'just words\n',
    '3\n',
    'volume: {click: &loud 90, drone: 20}\ntap offset: *loud\n',
  ])('is not touched when it holds %j', async (before) => {
    writeFileSync(at(), before);
    expect(await keepSettings(folder(), LEVELS)).toBe(`The levels could not be kept: ${at()} has mistakes in it.`);
    expect(text()).toBe(before);
    expect(readdirSync(folder())).toEqual(['settings.yaml']);
  });

  it('says in one sentence that it cannot be read or written', async () => {
    mkdirSync(at());
    expect(await keepSettings(folder(), LEVELS)).toBe(
      `The levels could not be kept: ${at()} cannot be read: it is a folder.`,
    );
    rmSync(folder(), { recursive: true });
    expect(await keepSettings(folder(), LEVELS)).toBe(
      `The levels could not be kept: ${at()} cannot be written: its path leads nowhere.`,
    );
    expect(existsSync(folder())).toBe(false);
  });

  it('keeps what stands before and after a level of any length', async () => {
    writeFileSync(at(), 'volume: {drone: 9, click: 100} # by ear\na4: 442');
    await keepSettings(folder(), { volume: { click: 0.05, drone: 1 } });
    expect(text()).toBe('volume: {drone: 100, click: 5} # by ear\na4: 442');
  });

  it('keeps the comment of a level when the other is new', async () => {
    writeFileSync(at(), 'volume:\n  click: 85 # not louder\n');
    await keepSettings(folder(), LEVELS);
    expect(text()).toBe('volume:\n  click: 80 # not louder\n  drone: 45\n');
  });

  it('is JSON where it was JSON', async () => {
    writeFileSync(at('settings.json'), '{"a4": 442, "device": "desk"}');
    await keepSettings(folder(), { volume: { click: 0.01, drone: 0 } });
    expect(JSON.parse(text('settings.json'))).toEqual({ a4: 442, device: 'desk', volume: { click: '1%', drone: 0 } });
  });
});
