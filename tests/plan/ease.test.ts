import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/common/chance.ts';
import { CAUTION } from '../../src/plan/ease/caution.ts';
import { type CueState, NEXT_AFTER, NO_CUE, cueAtRest } from '../../src/plan/ease/cues.ts';
import { allowedMinutes, exposureShare, hearingLine } from '../../src/plan/ease/hearing-dose.ts';

import { restDue } from '../../src/plan/ease/rest-due.ts';
import { tensionOffer } from '../../src/plan/ease/tension-offer.ts';

describe('hearing', () => {
  // NIOSH, recommended exposure limit with a 3 dB exchange rate: the published table of levels and durations.
  it.each([
    [85, 480],
    [88, 240],
    [91, 120],
    [94, 60],
    [97, 30],
    [100, 15],
  ])('at %d dB(A) allows %d minutes', (level, minutes) => {
    expect(allowedMinutes(level)).toBe(minutes);
  });

  it('adds the shares of several stretches', () => {
    expect(exposureShare(94, 30) + exposureShare(91, 60)).toBe(1);
  });

  it('says so near the limit only, and defers to a clinician', () => {
    expect(hearingLine(85, 60)).toBeNull();
    expect(hearingLine(94, 45)).toBe(
      `45 min at 94 dB(A) are 75 % of the recommended daily limit of 1 h: play softer, farther from walls, or ` +
        `with ear protection. ${CAUTION}`,
    );
    expect(hearingLine(112, 5)).toContain('daily limit of 56 s');
    // Half of the day's limit is where it begins: 30 of 60 minutes at 94 dB(A).
    expect([hearingLine(94, 29.9), hearingLine(94, 30)]).toEqual([null, expect.stringContaining('50 %')]);
    expect(hearingLine(100, 15)).toContain('100 % of the recommended daily limit of 15 min:');
    expect(hearingLine(85, 480)).toContain('480 min at 85 dB(A) are 100 % of the recommended daily limit of 8 h:');
    expect(hearingLine(92, 60)).toContain('daily limit of 1.6 h:');
  });
});

describe('rests', () => {
  // Health pages for musicians: alone, 5 minutes after each 25; at most 50 minutes without 10 of rest (quoted after two
  // authors on musicians' injuries).
  it.each([
    [24.9, null],
    [25, "25:00 of playing: five minutes' rest are due."],
    [49.9, "49:54 of playing: five minutes' rest are due."],
    [50, '50:00 without a rest: take ten minutes off the instrument.'],
    [90, '90:00 without a rest: take ten minutes off the instrument.'],
  ])('after %d minutes: %s', (played, sentence) => {
    expect(restDue(played * 60, 0)).toBe(sentence);
  });

  it('after demanding playing are about as long as it (common practice on brass, no source)', () => {
    expect(restDue(8 * 60, 4 * 60)).toBe('4:00 of demanding playing: rest about as long as you played.');
    expect(restDue(8 * 60, 3 * 60)).toBe('3:00 of demanding playing: rest about as long as you played.');
    expect(restDue(8 * 60, 3 * 60 - 1)).toBeNull();
    expect(restDue(26 * 60, 10 * 60)).toMatch(/^26:00 of playing/);
  });
});

describe('tension', () => {
  const REST = /^Two high readings in a row: put the instrument down/;
  const STOP = /^Tension has stayed high: stop for now/;
  const SLOWER = /^3 tense repetitions in a row: take it slower/;
  const PAUSE = /^6 tense repetitions in a row: a rest will do more/;

  it.each([
    [[], [], null],
    [[3], [], null],
    [[2, 2, 2], [], null],
    [[3, 1, 3], [], null],
    [[1, 3, 3], [], REST],
    [[3, 4], [], REST],
    [[3, 3, 3], [], STOP],
    [[4, 4], [], STOP],
    [[4, 4, 0], [], null],
    [[], ['tense', 'tense'], null],
    [[], ['clean', 'tense', 'tense', 'tense'], SLOWER],
    [[], ['tense', 'tense', 'tense', 'clean'], null],
    [[], ['tense', 'tense', 'tense', 'missed', 'tense', 'tense'], null],
    [[], ['tense', 'tense', 'tense', 'tense', 'tense', 'tense'], PAUSE],
    [[3, 3], ['tense', 'tense', 'tense'], REST],
  ] as const)('readings %j and marks %j propose %s', (readings, marks, sentence) => {
    const said = tensionOffer(readings, marks);
    if (sentence === null) expect(said).toBeNull();
    else expect(said).toMatch(sentence);
  });

  it('finds nothing out about the player, and points to those who may', () => {
    const said = [
      tensionOffer([3, 3], []),
      tensionOffer([4, 4], []),
      tensionOffer(
        [],
        Array.from({ length: 7 }, () => 'tense' as const),
      ),
    ];
    for (const offer of said) {
      expect(offer).toContain('see a licensed clinician or your teacher');
      expect(offer).not.toMatch(/injur|strain|syndrome|you have|tendon/i);
    }
  });
});

describe('cues', () => {
  it('come one at a time, seldom, and not the same twice in a row', () => {
    const chance = seeded(3);
    const shown: { at: number; cue: string }[] = [];
    let state: CueState = NO_CUE;
    for (let played = 0; played < 1200; played += 11) {
      state = cueAtRest(state, ['low shoulders', 'air first', 'quiet hands'], played, chance);
      if (state.cue !== null) shown.push({ at: played, cue: state.cue });
    }
    expect(shown.length).toBeGreaterThan(5);
    shown.slice(1).forEach((one, i) => {
      expect(one.at - (shown[i]?.at ?? 0)).toBeGreaterThanOrEqual(NEXT_AFTER);
      expect(one.cue).not.toBe(shown[i]?.cue);
    });
  });

  // 20 seconds into a block, and then a minute and a half apart: a judgement of this program's.
  it('come after twenty seconds, and again ninety seconds later', () => {
    const cues = ['low shoulders', 'air first'];
    const at = (before: CueState, played: number) => cueAtRest(before, cues, played, () => 0);
    expect(at(NO_CUE, 19.9)).toEqual(NO_CUE);
    const first = at(NO_CUE, 20);
    expect(first).toEqual({ shownAt: 20, last: 'low shoulders', cue: 'low shoulders' });
    expect(at(first, 109.9)).toEqual({ ...first, cue: null });
    expect(at(first, 110)).toEqual({ shownAt: 110, last: 'air first', cue: 'air first' });
    expect(cueAtRest(NO_CUE, cues, 20, () => 0.99).cue).toBe('air first');
  });

  it('come again where there is only one', () => {
    const shown = cueAtRest(NO_CUE, ['low shoulders'], 20, () => 0);
    expect(cueAtRest(shown, ['low shoulders'], 200, () => 0).cue).toBe('low shoulders');
  });

  it('are none where the exercise has none', () => {
    expect(cueAtRest(NO_CUE, [], 500, seeded(1))).toEqual(NO_CUE);
    expect(cueAtRest({ shownAt: 30, last: 'x', cue: 'x' }, [], 500, seeded(1))).toEqual(NO_CUE);
  });
});
