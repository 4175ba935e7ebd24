/** What `sound` and `lag` make of what was found; the sound itself is handed in. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Findings } from '../../src/audio/sound-check.ts';
import type { TapTest } from '../../src/runtime/tap-test.ts';
import { type Said, eachWithData, standside, standsideInTerminal } from './typed.ts';

const data = eachWithData();
afterEach(() => {
  vi.doUnmock('../../src/audio/sound-check.ts');
  vi.doUnmock('../../src/runtime/tap-test.ts');
});

const FOUND: Findings = {
  output: { device: 'Loudspeaker\u001b[2J', backEnd: 'web-audio', rate: 48_000, latency: 0.0264 },
  devices: ['Loudspeaker', 'Headphones'],
  attempts: [{ backEnd: 'speaker', reason: 'not built' }],
  sentence: '',
  played: true,
};

const sound = (found: Findings, ...words: readonly string[]): Promise<Said> => {
  const examine = vi.fn(async () => found);
  vi.doMock('../../src/audio/sound-check.ts', () => ({ examine }));
  return standside('sound', '--data', data(), ...words);
};

describe('standside sound', () => {
  it('names what sounds, a line each, harmless', async () => {
    expect(await sound(FOUND)).toEqual({
      code: 0,
      out: [
        'sound        on',
        'device       Loudspeaker\\u001b[2J',
        'through      web-audio',
        'rate         48000 Hz',
        'to the ear   about 26 ms',
        'test         played: two bars of click over a drone',
        'not through  speaker: not built',
        'devices      Loudspeaker, Headphones',
        '',
      ].join('\n'),
      err: '',
    });
  });

  it('has exit code 1 where nothing sounds, and says why', async () => {
    const { code, out } = await sound({ ...FOUND, output: null, sentence: 'No device.', devices: [] });
    expect(code).toBe(1);
    expect(out).toBe('sound        No device.\nnot through  speaker: not built\ndevices      none found\n');
  });

  it('prints all of it as JSON', async () => {
    expect(JSON.parse((await sound(FOUND, '--json')).out)).toEqual(FOUND);
  });
});

const lag = (test: TapTest | null, ...words: readonly string[]): Promise<Said> => {
  vi.doMock('../../src/runtime/tap-test.ts', () => ({ runTapTest: async () => test, terminalKeys: () => null }));
  return standsideInTerminal('lag', '--data', data(), ...words);
};
describe('standside lag', () => {
  const RESULT = { offset: -12, spread: 7, used: 18 };

  it('gives the line for the settings file', async () => {
    const { code, out, err } = await lag({ heard: true, result: RESULT });
    expect(err).toMatch(/^Tap any key with each click/);
    expect({ code, out: out.replaceAll(data(), 'DATA') }).toEqual({
      code: 0,
      out:
        'Your taps come 12 ms before the click (18 taps, give or take 7 ms).\n' +
        'To let the picture follow, put this line into settings.yaml in DATA:\n\nsound delay: -12\n',
    });
  });

  it('prints JSON', async () => {
    const { out } = await lag({ heard: true, result: RESULT }, '--json');
    expect(JSON.parse(out)).toEqual({ 'sound delay': -12, spread: 7, used: 18 });
  });

  it.each<[TapTest | null, number, RegExp]>([
    [null, 130, /broken off; nothing has changed\.$/m],
    [{ heard: false, result: null }, 1, /no sound to tap to; 'standside sound' tells why\.$/m],
    [{ heard: true, result: null }, 1, /Too few taps .* try once more\.$/m],
  ])('without a result (%j) says why', async (test, exitCode, sentence) => {
    const { code, out, err } = await lag(test);
    expect(err).toMatch(sentence);
    expect({ code, out }).toEqual({ code: exitCode, out: '' });
  });
});
