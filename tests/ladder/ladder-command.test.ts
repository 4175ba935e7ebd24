import { Command } from 'commander';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { addLadderCommand } from '../../src/cli/usage/ladder.ts';

async function ladder(words: string): Promise<string> {
  let out = '';
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += String(text);
    return true;
  });
  const program = new Command().exitOverride();
  addLadderCommand(program);
  await program.parseAsync(['node', 'standside', 'ladder', ...words.split(' ').filter(Boolean)]);
  return out;
}

afterEach(() => void vi.restoreAllMocks());

describe('standside ladder', () => {
  it('draws the rungs, fastest on top, and says where it settles', async () => {
    // 3 up, 1 down: 79 % clean (Levitt 1971), a little off with steps of 3 %.
    const out = await ladder('--up 3 --down 1 --lapse 0 --tense 0');
    expect(out).toContain('Of 100 repetitions 79 are clean, 0 tense, 21 missed.');
    expect(out.match(/← settles here/gu)).toHaveLength(1);
    const bpms = [...out.matchAll(/^ +(\d+) │/gmu)].map(([, bpm]) => Number(bpm));
    expect(bpms.length).toBeGreaterThan(3);
    expect(bpms).toEqual(bpms.toSorted((a, b) => b - a));
    expect(out).toContain('With the order ‘alternate’');
  });

  it('fits a terminal of 80 columns, but for its sentences', async () => {
    const lines = (await ladder('--simulate 20')).split('\n').filter((line) => line.includes('│'));
    expect(lines.length).toBeGreaterThan(10);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('counts the repetitions of a climb', async () => {
    expect(await ladder('--from 60 --to 80 --threshold 200 --slope 50 --lapse 0')).toMatch(
      /From 60 to 79: about 30 repetitions|about \d+ repetitions/u,
    );
    expect(await ladder('--from 60 --to 230 --threshold 80 --slope 50')).toContain('practically never');
    expect(await ladder('--from 90 --to 80')).toContain('nothing to climb');
  });

  it('simulates the same for the same seed, and another for another', async () => {
    const one = await ladder('--simulate 10 --days 5 --seed 4');
    expect(await ladder('--simulate 10 --days 5 --seed 4')).toBe(one);
    expect(await ladder('--simulate 10 --days 5 --seed 5')).not.toBe(one);
  });

  it('prints JSON that says the same', async () => {
    const said = JSON.parse(await ladder('--up 2 --down 1 --from 60 --to 230 --json')) as {
      settling: { marks: { clean: number }; rungs: { share: number }[] };
      sentence: string;
    };
    expect(said.sentence).toContain(`in the long run ${Math.round(said.settling.marks.clean * 10)}.`);
    expect(said.settling.rungs.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  it('takes a bare step as beats per minute, as a routine file does', async () => {
    expect(await ladder('--step 4')).toBe(await ladder('--step 4bpm'));
  });

  it.each([
    ['--up 0', /--up is '0'; it must be a whole number from 1 to 20/],
    ['--tense-down x', /--tense-down is 'x'; it must be a whole number from 1 to 20, or never/],
    ['--rungs-down 11', /--rungs-down is '11'; it must be a whole number from 1 to 10/],
    ['--seed x', /--seed is 'x'; it must be a number/],
    ['--up many', /--up is 'many'; it must be a whole number/],
    ['--step 0%', /is 0 %; it must be from/],
    ['--step 200%', /is 200 %; it must be from/],
    ['--step 3x', /say 3% for equal ratios/],
    ['--threshold 500', /--threshold is 500; it must be a tempo on the ladder, from 40 to 240/],
    ['--threshold -1', /--threshold is -1/],
    ['--slope 0', /--slope is 0/],
    ['--lapse 90%', /--lapse is '90%'/],
    ['--from 5 --to 60', /--from is 5/],
    ['--floor 0', /lowest tempo is 0/],
    ['--simulate 1.5', /--simulate is '1.5'/],
  ])('%s gets one sentence', async (words, sentence) => {
    await expect(ladder(words)).rejects.toThrow(sentence);
    await expect(ladder(words)).rejects.toMatchObject({ name: 'Trouble', exitCode: 2 });
  });
});
