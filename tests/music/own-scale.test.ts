/** Scales of the player's own; tonal, which counts degrees of the major scale too, is the reference. */
import { Note, Scale as Theirs } from 'tonal';
import { describe, expect, it } from 'vitest';
import { withoutOctave } from '../../src/music/pitch/note-names.ts';
import { type Scale, scaleNamed } from '../../src/music/pitch/scales.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { passageIn } from './drills.ts';

const scale = (text: string): Scale => {
  const found = scaleNamed(text);
  if (typeof found === 'string') throw new Error(found);
  return found;
};

/** '2M 3m 4A' as degrees of the major scale: '2 b3 #4'. */
const inDegrees = (intervals: readonly string[]): string =>
  intervals
    .map((interval) => {
      const plain = Note.chroma(Note.transpose('C', `${interval[0]}${'145'.includes(interval[0] ?? '') ? 'P' : 'M'}`));
      const by = ((Note.chroma(Note.transpose('C', interval)) ?? 0) - (plain ?? 0) + 12) % 12;
      return `${by === 0 ? '' : by === 1 ? '#' : 'b'}${interval[0]}`;
    })
    .join(' ');

describe('a scale in degrees', () => {
  it.each(['phrygian dominant', 'hungarian minor', 'double harmonic major', 'lydian dominant'])(
    'has the intervals that tonal gives %s',
    (name) => {
      const theirs = Theirs.get(`C ${name}`).intervals;
      expect(theirs.length).toBeGreaterThan(5);
      expect(scale(inDegrees(theirs)).up).toEqual(theirs);
    },
  );

  it('has the signature of the mode that it is', () => {
    const signatures = ['1 2 3 4 5 6 7', '1 2 b3 4 5 6 b7', '1 2 3 #4 5 6 7', '1 b2 b3 4 b5 b6 b7', '1 2 b3 5 b6'];
    expect(signatures.map((text) => scale(text).signature)).toEqual([0, -2, 1, -5, -3]);
  });

  it('is spelled in every key with the letters of its degrees', () => {
    const names = (key: string) =>
      passageIn({ pattern: '1..8', notes: 2, key, scale: '1 2 b3 #4 5 6 b7' })
        .notes.flatMap(({ pitch }) => (pitch ? [withoutOctave(pitch.name)] : []))
        .join(' ');
    expect(names('C')).toBe('C D Eb F# G A Bb C');
    expect(names('Bb')).toBe('Bb C Db E F G Ab Bb');
    expect(names('A')).toBe('A B C D# E F# G A');
  });

  it('counts its own degrees: 6 of five notes is the octave', () => {
    const passage = passageIn({ pattern: '1..6 1 1', notes: 2, scale: '1 2 b3 5 6' });
    expect(passage.notes.map(({ pitch }) => pitch?.name).join(' ')).toBe('C4 D4 Eb4 G4 A4 C5 C4 C4');
    expect(passage.tonality.name).toBe('C own scale (1 2 b3 5 6)');
  });

  it('is found again by its name, however it was written', () => {
    expect(scale('1,2, ♭3  ♯4 5').name).toBe('1 2 b3 #4 5');
    expect(scale(scale('1 b2 3 4 5').name)).toEqual(scale('1 b2 3 4 5'));
  });

  it.each([
    ['1 2 9', "'9' is no degree of a scale of your own"],
    ['1 2 bb3', "'bb3' is no degree of a scale of your own"],
    ['2 3 4', 'is no scale of your own'],
    ['1 3 2', 'is no scale of your own'],
    ['1 2 2', 'is no scale of your own'],
    ['1 2 #7', 'is no scale of your own'],
    ['1', 'is no scale of your own'],
  ])('%s is none', (text, sentence) => {
    expect(scaleNamed(text)).toContain(sentence);
    expect(scaleNamed(text)).toMatch(/write at least two rising degrees from 1 on, like 1 2 b3 #4 5 6 b7\.$/u);
  });
});

describe('a scale of your own in a file', () => {
  const parsed = (written: string) =>
    parseRoutine(`exercises: {a: {scale: ${written}, pattern: 1..5 4 3 2 | 1}}`, 'own.yaml', () => ({
      trouble: 'none',
    }));

  it.each(['[1, 2, b3, "#4", 5]', '"1 2 b3 #4 5"', '1 2 b3 ♯4 5'])('may be written %s', (written) => {
    const found = parsed(written);
    expect('routine' in found && found.routine.exercises[0]?.scale).toBe('1 2 b3 #4 5');
  });

  it('of nonsense has its sentence', () => {
    const found = parsed('[1, 3, 2]');
    expect('troubles' in found && found.troubles[0]?.sentence).toBe(
      "'1 3 2' is no scale of your own; write at least two rising degrees from 1 on, like 1 2 b3 #4 5 6 b7.",
    );
  });
});
