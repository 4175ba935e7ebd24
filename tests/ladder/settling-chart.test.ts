import { describe, expect, it } from 'vitest';
import { sharesChart, tempoChart } from '../../src/ladder/settling/settling-chart.ts';
import type { RungShare, Settling } from '../../src/ladder/settling/settling-tempo.ts';

const settlingAt = (tempo: number, rungs: readonly RungShare[]): Settling => ({
  tempo,
  marks: { clean: 0.8, tense: 0.1, missed: 0.1 },
  low: 60,
  high: 66,
  spread: 0.02,
  rungs,
});

const settled = (tempo: number, some: readonly RungShare[]): string | undefined =>
  sharesChart(settlingAt(tempo, some))
    .split('\n')
    .find((line) => line.includes('settles here'))
    ?.slice(0, 7)
    .trim();

const rungs: readonly RungShare[] = [
  { bpm: 60, share: 0.0039, clean: 1 },
  { bpm: 62, share: 0.004, clean: 0.955 },
  { bpm: 64, share: 0.3, clean: 0.8 },
  { bpm: 66.5, share: 0.6, clean: 0.05 },
  { bpm: 68, share: 0.2, clean: 0 },
];

const two = (low: number, high: number): readonly RungShare[] =>
  [low, high].map((bpm) => ({ bpm, share: 0.5, clean: 0.5 }));

describe('the chart of a settling', () => {
  it('has the fastest rung on top, lengths in proportion, and leaves out what is hardly played', () => {
    expect(sharesChart(settlingAt(67, rungs)).split('\n')).toEqual([
      '     68 │━━━━━━━━━━                    │   0 % clean',
      '   66.5 │━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━│   5 % clean ← settles here',
      '     64 │━━━━━━━━━━━━━━━               │  80 % clean',
      '     62 │━                             │  96 % clean',
    ]);
  });

  it('points at the rung nearest to the mean by ratio, of two as near at the faster', () => {
    // The middle of 50 and 200 by ratio is 100.
    expect(settled(99, two(50, 200))).toBe('50');
    expect(settled(101, two(50, 200))).toBe('200');
    expect(settled(100, two(50, 200))).toBe('200');
    expect(settled(60, rungs)).toBe('62');
    expect(settled(500, rungs)).toBe('68');
  });
});

describe('the chart of a climb', () => {
  it('goes up row by row with the tempo, by ratios', () => {
    // An octave of tempo in fifteen equal ratios: one column and one row each.
    const bpms = Array.from({ length: 16 }, (_, i) => 60 * 2 ** (i / 15));
    const rows = tempoChart(bpms).split('\n');
    expect(rows).toHaveLength(16);
    expect(rows.map((row) => row.indexOf('•') - '    120 │'.length)).toEqual(bpms.map((_, i) => 15 - i));
    expect(rows.every((row) => row.endsWith('•'))).toBe(true);
    expect(rows[0]).toBe('    120 │               •');
    // 60 x 2^(8/15) is 86.8.
    expect(rows[7]?.slice(0, 7)).toBe('     87');
    expect(rows[15]).toBe('     60 │•');
  });

  it('is one line where the tempo never changes', () => {
    expect(tempoChart([80, 80, 80])).toBe('     80 │•••');
    expect(tempoChart([80])).toBe('     80 │•');
  });

  it('has at most 64 columns, each the mean of its repetitions', () => {
    const steady = Array.from({ length: 128 }, (_, i) => (i % 2 === 0 ? 60 : 80));
    expect(tempoChart(steady)).toBe(`     70 │${'•'.repeat(64)}`);
    const once: number[] = [...steady];
    once[127] = 240;
    // The last column's mean is that of 60 and 240: 150.
    expect(tempoChart(once).split('\n')[0]).toBe(`    150 │${' '.repeat(63)}•`);
    expect(tempoChart(once).split('\n')[15]).toBe(`     70 │${'•'.repeat(63)}`);
  });

  it('leaves no repetition out where they do not divide evenly', () => {
    // 96 repetitions in 64 columns: one and two in turns. Only the last is fast.
    const bpms = Array.from({ length: 96 }, (_, i) => (i === 95 ? 120 : 60));
    const [top = '', ...others] = tempoChart(bpms).split('\n');
    expect(top).toBe(`     90 │${' '.repeat(63)}•`);
    expect(others.at(-1)).toBe(`     60 │${'•'.repeat(63)}`);
  });
});
