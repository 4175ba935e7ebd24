/** Exercises found by typing. */
import { describe, expect, it } from 'vitest';
import { foundExercises } from '../../src/plan/today/find-exercises.ts';
import { firstStand } from './daily-sitting.ts';

describe('finding', () => {
  const { exercises } = firstStand([]).known;
  const found = (query: string) => foundExercises(exercises, query).map(({ id }) => id);

  it('goes by every word, accents and capitals aside, beginnings of titles first', () => {
    expect(found('THIRDS')[0]).toBe('thirds');
    expect(found('study note')).toEqual(['five-notes']);
    expect(found('thïrd')).toEqual(expect.arrayContaining(['thirds', 'finger-change']));
    expect(found('band folder')).toEqual(['band-book']);
    expect(found('zzz')).toEqual([]);
  });

  it('finds everything that is offered where nothing is typed', () => {
    expect(found('')).toHaveLength(exercises.length);
    const retired = exercises.map((one, i) => (i === 0 ? { ...one, retired: true } : one));
    expect(foundExercises(retired, '')).toHaveLength(exercises.length - 1);
  });
});
