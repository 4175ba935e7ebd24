/** `standside listen`, from a file on the disk to what is printed; what is played is known, the tones are made here. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { encodeWav } from '../../src/audio/file/wav.ts';
import { RATE, after, silence, tone } from '../ear/tones.ts';
import { eachWithData, standside } from './typed.ts';

const data = eachWithData();

/** Two bars of quick-turn in half notes would be no exercise of a file: our own long tones instead. */
const ROUTINE = `
routine: Tones
instrument: cornet
exercises:
  tones:
    title: Tones
    meter: 4/4
    pattern: 1 | 3 | 5
    keys: [C, Bb]
    articulations: [slurred, single]
    tempo: 120
    drone: {voices: [tonic], tuning: just}
  turns:
    title: Turns
    meter: 2/4
    pattern: 1 2 3 2 1 2 3 2 | 1 2 3 2 1 2 3 2
    keys: [C]
    articulations: [double]
    tempo: 60 -> 120
parts:
  - part: Work
    blocks:
      - tones: 5
`;

function recording(...parts: readonly Float32Array[]): string {
  writeFileSync(join(data(), 'routines', 'tones.yaml'), ROUTINE);
  const path = join(data(), 'take.wav');
  writeFileSync(path, encodeWav({ rate: RATE, samples: after(...parts) }, '16'));
  return path;
}

const REED = [1, 0.6, 0.4, 0.2];
const two = (hertz: number, cents: number): Float32Array =>
  tone({ hertz: hertz * 2 ** (cents / 1200), seconds: 2, harmonics: REED });

/** Written C4, E4, G4 of a cornet in B flat: it sounds a whole tone lower. B flat 3 is 233.0819 Hz (mathematics). */
const BB3 = 233.0819;

interface Answer {
  readonly tuning: string;
  readonly start: number;
  readonly tendencies: readonly { name: string; written: number; cents: number; notes: number }[];
  readonly notes: readonly { name: string; hertz: number; heard: object | null }[];
}

async function heard(words: readonly string[]): Promise<Answer> {
  const { code, out, err } = await standside('listen', ...words, '--json', '--data', data());
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return JSON.parse(out) as Answer;
}

describe('an exercise in a recording', () => {
  it('is heard in the drone’s pure tuning, by written names', async () => {
    // The third is 5/4, the fifth 3/2 of the tonic (just intervals, mathematics); played 4, −7 and 12 cents off.
    const file = recording(silence(1), two(BB3, 4), two(BB3 * 1.25, -7), two(BB3 * 1.5, 12), silence(0.5));
    const { tuning, tendencies, start } = await heard([file, '--exercise', 'tones', '--key', 'C', '--tempo', '120']);
    expect(tuning).toBe('just');
    expect(Math.abs(start - 1)).toBeLessThan(0.03);
    expect(tendencies.map(({ name, written }) => [name, written])).toEqual([
      ['C4', 60],
      ['E4', 64],
      ['G4', 67],
    ]);
    [4, -7, 12].forEach((cents, i) => expect(tendencies[i]?.cents).toBeCloseTo(cents, 0));
  });

  it('and in equal tuning where that is asked: the pure third is 13.7 cents low, the fifth 2 high', async () => {
    const file = recording(silence(0.4), two(BB3, 0), two(BB3 * 1.25, 0), two(BB3 * 1.5, 0));
    const { tendencies } = await heard([file, '--exercise', 'tones', '--tuning', 'equal']);
    [0, -13.7, 2].forEach((cents, i) => expect(Math.abs((tendencies[i]?.cents ?? NaN) - cents)).toBeLessThan(0.3));
  });

  it('is measured from the player’s A: at 442 the same sound is 7.85 cents low', async () => {
    writeFileSync(join(data(), 'settings.yaml'), 'a4: 442\n');
    const file = recording(two(BB3, 0), two(BB3 * 1.25, 0), two(BB3 * 1.5, 0));
    const { tendencies } = await heard([file, '--exercise', 'tones']);
    for (const { cents } of tendencies) expect(Math.abs(cents + 7.851)).toBeLessThan(0.3);
  });

  it('says of another note that it was not heard', async () => {
    const file = recording(two(BB3, 0), two(BB3 * 1.3348, 0), two(BB3 * 1.5, 0));
    const { notes } = await heard([file, '--exercise', 'tones']);
    expect(notes.map((note) => note.heard !== null)).toEqual([true, false, true]);
  });

  it('is told in a table, with what it was never tried on', async () => {
    const file = recording(two(BB3, 4), two(BB3 * 1.25, -7), two(BB3 * 1.5, 12));
    const { out, code } = await standside('listen', file, '--exercise', 'tones', '--data', data());
    expect(code).toBe(0);
    expect(out).toMatch(/^C4 +1 +\+4 +\+4 +\+4 +\+4 +0$/m);
    expect(out).toMatch(/^E4 +1 +−7/m);
    expect(out).toContain('no real player or room');
  });

  it('may begin where the player says', async () => {
    const file = recording(two(500, 0), two(BB3, 4), two(BB3 * 1.25, -7), two(BB3 * 1.5, 12));
    const { tendencies } = await heard([file, '--exercise', 'tones', '--start', '2']);
    expect(tendencies.map(({ cents }) => Math.round(cents))).toEqual([4, -7, 12]);
  });
});

describe('tones without an exercise', () => {
  it('are named as the player reads them, with length, drift and vibrato', async () => {
    const vibrato = { rate: 5.5, cents: 18 };
    const file = recording(
      silence(0.5),
      tone({ hertz: BB3, seconds: 3, harmonics: REED, drift: 10 }),
      silence(0.5),
      tone({ hertz: 440, seconds: 3, harmonics: REED, vibrato }),
    );
    const { out, code } = await standside('listen', file, '--instrument', 'cornet', '--json', '--data', data());
    expect(code).toBe(0);
    const { tones } = JSON.parse(out) as {
      tones: readonly { name: string; heard: { seconds: number; drift: number; vibrato: { hertz: number } | null } }[];
    };
    expect(tones.map(({ name }) => name)).toEqual(['C4', 'B4']);
    expect(tones[0]?.heard.seconds).toBeCloseTo(3, 0);
    // 10 cents in all of it; its first and last eighth of a second are left out as attack and release.
    expect(Math.abs((tones[0]?.heard.drift ?? NaN) - 9.3)).toBeLessThan(0.5);
    expect(tones[0]?.heard.vibrato).toBeNull();
    expect(Math.abs((tones[1]?.heard.vibrato?.hertz ?? NaN) - 5.5)).toBeLessThan(0.1);
  });
});

describe('what is kept', () => {
  const rest = ['--data'];
  const take = (cents: number): string => recording(two(BB3, cents), two(BB3 * 1.25, -7), two(BB3 * 1.5, 12));

  it('is nothing unless it is asked for', async () => {
    await heard([take(4), '--exercise', 'tones']);
    expect(readFileSync(join(data(), 'journal.jsonl'), 'utf8')).not.toContain('heard');
  });

  it('are numbers, which make the map of tendencies: the median of three takes', async () => {
    for (const cents of [4, 20, 15]) await heard([take(cents), '--exercise', 'tones', '--keep']);
    const { out } = await standside('tendencies', '--json', ...rest, data());
    const { notes } = JSON.parse(out) as { notes: readonly { name: string; cents: number; notes: number }[] };
    expect(notes.map((note) => [note.name, Math.round(note.cents), note.notes])).toEqual([
      ['C4', 15, 3],
      ['E4', -7, 3],
      ['G4', 12, 3],
    ]);
    const text = (await standside('tendencies', ...rest, data())).out;
    expect(text).toMatch(/^C4 +·{8}\|··o·{5} +\+15/m);
    expect(text.indexOf('G4')).toBeLessThan(text.indexOf('C4'));
    expect((await standside('journal', 'check', ...rest, data())).code).toBe(0);
    const [last = ''] = readFileSync(join(data(), 'journal.jsonl'), 'utf8').trim().split('\n').slice(-1);
    expect(JSON.parse(last)).toMatchObject({ kind: 'heard', key: 'C', exercise: 'tones', instrument: 'cornet' });
  });

  it('is another instrument’s where that played, and moves no ladder', async () => {
    const before = (await standside('bests', ...rest, data())).out;
    await heard([take(4), '--exercise', 'tones', '--keep']);
    expect((await standside('tendencies', '--instrument', 'flute', ...rest, data())).out).toMatch(
      /^Nothing was kept yet/,
    );
    expect((await standside('bests', ...rest, data())).out).toBe(before);
  });
});

describe('what cannot be heard', () => {
  const refused = async (words: readonly string[], sentence: RegExp, exitCode = 1): Promise<void> => {
    const { code, out, err } = await standside('listen', ...words, '--data', data());
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(err).toMatch(sentence);
    expect({ code, out }).toEqual({ code: exitCode, out: '' });
  };

  it('is refused in one sentence: no file, a folder, no WAV, silence', async () => {
    await refused([join(data(), 'none.wav')], /none\.wav cannot be heard: there is no such file; give a WAV file\.$/m);
    await refused([data()], /cannot be heard: it is (no file|a folder); give a WAV file\.$/m);
    await refused([join(data(), 'journal.jsonl')], /cannot be heard: it is not a WAV file; give a WAV file\.$/m);
    await refused([recording(silence(2))], /cannot be heard: nothing sounds in it that lasts/);
  });

  it('words that go together with nothing', async () => {
    const file = recording(two(BB3, 0));
    await refused([file, '--key', 'C'], /--key goes with an exercise only; name one with --exercise\.$/m, 2);
    await refused([file, '--exercise', 'tones', '--start', 'now'], /--start is 'now'; it must be seconds from 0/);
    await refused([file, '--exercise', 'tones', '--tuning', 'mean'], /--tuning 'mean': give just or equal\.$/m);
    await refused([file, '--exercise', 'tnoes'], /tnoes/);
  });
});
