import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { plainLetters } from '../../src/ui/plain-letters.ts';

/** Where what is drawn comes from. */
const DRAWN = ['ui', 'music/page', 'review'].map((folder) => new URL(`../../src/${folder}/`, import.meta.url));

const sources = DRAWN.flatMap((folder) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => readFileSync(new URL(name, folder), 'utf8')),
);

describe('plain letters', () => {
  it('have something for every sign that the program draws, of the same width', () => {
    const signs = new Set(sources.flatMap((text) => [...text].filter((sign) => sign > '~')));
    expect(signs.size).toBeGreaterThan(30);
    for (const sign of signs) {
      expect([sign, plainLetters(sign)]).toEqual([sign, expect.stringMatching(/^[ -~]$/)]);
      expect([sign, plainLetters(sign)]).not.toEqual([sign, '?']);
    }
  });

  it('keep a name readable without its accents, and stand for what ASCII has nothing like', () => {
    expect(plainLetters('Étude für B♭')).toBe('Etude fur Bb');
    expect(plainLetters('練習 1')).toBe('???? 1');
  });

  it('tell marks, rungs and pieces apart', () => {
    const signs = ['●', '≈', '×', '○'].map(plainLetters);
    expect(new Set(signs).size).toBe(4);
    expect(new Set(['━', '─', '┄', '▞'].map(plainLetters)).size).toBe(4);
    expect(new Set(['█', '▒', '░'].map(plainLetters)).size).toBe(3);
  });
});
