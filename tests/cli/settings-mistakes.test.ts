/** A settings file with a mistake: said once, on stderr, and what it is about keeps its default. */
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Findings } from '../../src/audio/sound-check.ts';
import { eachWithData, standside } from './typed.ts';

const data = eachWithData();
afterEach(() => void vi.doUnmock('../../src/audio/sound-check.ts'));

const NO_SOUND: Findings = { output: null, devices: [], attempts: [], sentence: 'No sound here.', played: false };

describe('a mistake in the settings', () => {
  it.each([
    ['drill quick-turn'],
    ['render quick-turn --out DATA/click.mid'],
    ['weeks --exercise quick-turn'],
    ['routine fit mine --minutes 10'],
    ['write quick-turn --out DATA/page.abc'],
  ])('is said by %s, which goes on', async (words) => {
    const asked = ['--data', data(), ...words.replace('DATA', data()).split(' ')];
    const { out } = await standside(...asked);
    rmSync(join(data(), 'click.mid'), { force: true });
    rmSync(join(data(), 'page.abc'), { force: true });
    writeFileSync(join(data(), 'settings.yaml'), 'a4: loud\nvoloom: 3\n');
    const said = await standside(...asked);
    expect(said.err).toMatch(/^standside: settings\.yaml, line 1, column \d+: .*\.\nstandside: settings\.yaml, line 2/);
    expect(said.err.trim().split('\n')).toHaveLength(2);
    expect(said).toMatchObject({ code: 0, out });
  });

  it('is said by sound, which needs nothing else of the data folder', async () => {
    vi.doMock('../../src/audio/sound-check.ts', () => ({ examine: async () => NO_SOUND }));
    rmSync(data(), { recursive: true });
    writeFileSync(data(), 'a file in its way');
    const { code, out, err } = await standside('sound', '--data', data());
    expect(err).toMatch(/^standside: .*settings\.yaml cannot be read: there is a file in its way\.\n$/);
    expect({ code, out }).toEqual({ code: 1, out: 'sound        No sound here.\ndevices      none found\n' });
  });
});
