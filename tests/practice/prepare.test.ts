import { describe, expect, it } from 'vitest';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { EXERCISE } from './rehearsal.ts';

const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');
const FOURS = { ...EXERCISE, pattern: '1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1', articulations: ['double', 'triple'] };
const remarkOn = (articulation: string): string | null | undefined =>
  prepareFor(cornet, 440)(FOURS, { exercise: 'five-notes', articulation, key: 'C' }).remark;

describe('what stands on the stand', () => {
  it('has a word on tonguing that does not go into the notes', () => {
    expect(remarkOn('triple')).toBe(
      'The quick notes stand in fours, where triple has no three to tongue: it comes out as TKTK, which is double.',
    );
    expect(remarkOn('double')).toBeNull();
  });
});
