/** What to do on a way round a wall, to be read from two metres. */
import { describe, expect, it } from 'vitest';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { type WayId, waysRound } from '../../src/ladder/wall/ways-round.ts';
import type { KnownSoFar } from '../../src/practice/stand.ts';
import { beginWay } from '../../src/practice/line/way-being-played.ts';
import { plainText } from '../../src/ui/paint.ts';
import { largeWords, wordsToRead } from '../../src/ui/practice/large-words.ts';
import { rehearse } from '../practice/rehearsal.ts';

const RUNGS = rungsOf(DEFAULT_RULE);

function words(id: WayId, tongued = true): readonly string[] {
  const way = waysRound({ wall: 100, rungs: RUNGS, tongued, notes: 9, beats: 4 }).find((one) => one.id === id);
  const { apply, state } = rehearse();
  apply((practice) => beginWay(practice, way!, 100));
  return wordsToRead({} as KnownSoFar, state());
}

describe('the instruction of a way round a wall', () => {
  it('stands in large words, a line for each thing to do', () => {
    expect(words('whispered')).toEqual(['SYLLABLES UNDER THE BREATH', 'FINGERS MOVING']);
    expect(words('breathed', false)).toEqual(['A SYLLABLE BREATHED ON EACH BEAT', 'FINGERS MOVING']);
    expect(words('dotted')).toEqual(['LONG', 'SHORT']);
  });

  it('is tall where there is room, and else spaced bars of their own lines', () => {
    expect(largeWords(words('dotted'), 60, 20)).toHaveLength(12);
    const small = plainText(largeWords(words('whispered'), 60, 8));
    expect(small).toContain('S Y L L A B L E S   U N D E R   T H E   B R E A T H');
    expect(small).toContain('F I N G E R S   M O V I N G');
  });
});
