import { describe, expect, it } from 'vitest';
import { lineAsked } from '../../src/runtime/asked/line-asked.ts';
import { EXERCISE } from '../practice/rehearsal.ts';

const USUAL = { exercise: 'five-notes', key: 'C', articulation: 'slurred' };
const keyOf = (key: string, scale = 'major'): string =>
  lineAsked({ ...EXERCISE, scale }, { exercise: 'five-notes', key, articulation: null, tempo: null }, USUAL).line.key;

describe('a line named on the command line', () => {
  it.each([
    ['Bb', 'Bb'],
    ['B♭', 'Bb'],
    ['f#', 'F#'],
    ['Ab major', 'Ab'],
    ['C', 'C'],
  ])('takes any key, not only those of the exercise: %s', (word, key) => {
    expect(EXERCISE.keys).toEqual(['C']);
    expect(keyOf(word)).toBe(key);
  });

  it('says what is wrong with a word that is no key', () => {
    expect(() => keyOf('H')).toThrow(/H/);
    expect(() => keyOf('\u001b[2J')).toThrow(
      expect.objectContaining({ name: 'Trouble', message: expect.not.stringContaining('\u001b') }),
    );
  });

  it('still takes only the articulations that the exercise has', () => {
    const asked = { exercise: 'five-notes', key: null, articulation: 'double', tempo: null };
    expect(() => lineAsked(EXERCISE, asked, USUAL)).toThrow(
      "'Five notes' has no articulation 'double'; it has slurred.",
    );
  });
});
