/** Repetitions that run on: little idle time, and every mark, undo, wait and change of tempo still right. */
import { describe, expect, it } from 'vitest';
import { COMMON_TIME, type Meter, barLength, beatsOfBar, secondsOf } from '../../src/music/time/meter.ts';
import { halfBar, inHalves } from '../../src/music/time/half-bar.ts';
import { QUARTER, multiply, ratio } from '../../src/music/time/ratio.ts';
import { PLAIN_ROTATION } from '../../src/plan/rotation/key-rotation.ts';
import type { Span } from '../../src/music/sound/sound-commands.ts';
import { stateLine } from '../../src/ui/practice/practice-state.ts';
import { phaseLine } from '../../src/ui/practice/practice-words.ts';
import { type Rehearsal, rehearse } from './rehearsal.ts';

const FLOW = { flow: true, breathBars: 0 } as const;
/** Rungs of two beats, so that tempos are read at a glance. */
const TWOS = { step: { by: 'beats', bpm: 2 } } as const;

const lasts = ({ meter, tempo, bars }: Span): number => secondsOf(multiply(barLength(meter), ratio(bars ?? 0)), tempo);

/** Spans as they are heard, each once. */
function spansOf(one: Rehearsal, bars: number, atEach: (span: Span, one: Rehearsal) => void): readonly Span[] {
  const heard: Span[] = [];
  for (let k = 0; k < bars; k += 1) {
    const sounded = one.bar();
    if (!sounded) break;
    if (heard.at(-1)?.id !== sounded.span.id) {
      heard.push(sounded.span);
      atEach(sounded.span, one);
    }
  }
  return heard;
}

const said = (spans: readonly Span[]): string => spans.map(({ role, tempo }) => `${role} ${tempo.bpm}`).join(', ');

/** Every repetition is marked while the next is played; the first after a count-in has none before it. */
const markingDuringTheNext = (mark: 'clean' | 'tense' | 'missed') => {
  let played = 0;
  return ({ role }: Span, one: Rehearsal): void => {
    if (role === 'count-in') played = 0;
    if (role === 'repetition' && (played += 1) > 1) one.press(mark);
  };
};

describe('half a bar', () => {
  // Half of a bar in simple, compound and asymmetric meters: common practice, no source.
  it.each<readonly [string, Meter, number]>([
    ['4/4', COMMON_TIME, 2],
    ['3/4', { count: 3, unit: 4, groups: [3] }, 2],
    ['2/4', { count: 2, unit: 4, groups: [2] }, 1],
    ['6/8', { count: 6, unit: 8, groups: [3, 3] }, 3],
    ['7/8', { count: 7, unit: 8, groups: [2, 2, 3] }, 5],
    ['1/4', { count: 1, unit: 4, groups: [1] }, 1],
  ])('of %s has its greater half of the units', (_name, meter, count) => {
    expect(halfBar(meter)).toMatchObject({ count, unit: meter.unit });
    expect(halfBar(meter).groups.reduce((a, b) => a + b)).toBe(count);
  });

  it('with whole ones is one long bar, the half first in a count-in and last in a breath', () => {
    expect(inHalves(COMMON_TIME, 2, 'first')).toEqual({ meter: COMMON_TIME, bars: 2 });
    expect(inHalves(COMMON_TIME, 1.5, 'first')).toEqual({ meter: { count: 6, unit: 4, groups: [2, 4] }, bars: 1 });
    expect(inHalves(COMMON_TIME, 1.5, 'last').meter.groups).toEqual([4, 2]);
    expect(beatsOfBar(inHalves(COMMON_TIME, 2.5, 'first').meter, QUARTER)).toHaveLength(10);
  });

  it('is counted in and breathed where the exercise says so', () => {
    const one = rehearse({ exercise: { countInBars: 0.5, breathBars: 0.5 }, rule: { start: 60, ...TWOS } });
    one.press('start-pause');
    const spans = spansOf(one, 4, () => {});
    expect(spans.map(({ role, bars }) => `${role} ${bars}`)).toEqual(['count-in 1', 'repetition 2', 'breath 1']);
    expect(spans.map(lasts)).toEqual([2, 8, 2]);
  });
});

describe('no bars at all', () => {
  it('of counting in: only at the start and for a new tempo', () => {
    const one = rehearse({ exercise: { countInBars: 0 }, rule: { cleanUp: 2, start: 60, ...TWOS } });
    one.press('start-pause');
    const spans = spansOf(one, 12, ({ role }) => role === 'breath' && one.press('clean'));
    expect(said(spans)).toBe(
      'count-in 60, repetition 60, breath 60, repetition 60, ' +
        'breath 60, count-in 62, repetition 62, breath 62, repetition 62',
    );
  });

  it('of breathing: the click waits at once, and a mark given early leads on without a wait', () => {
    const waiting = rehearse({ exercise: { breathBars: 0 } });
    waiting.press('start-pause');
    expect(said(spansOf(waiting, 5, () => {}))).toBe('count-in 60, repetition 60, wait 60');
    const early = rehearse({ exercise: { breathBars: 0 }, rule: { cleanUp: 1, start: 60, ...TWOS } });
    early.press('start-pause');
    const spans = spansOf(early, 8, ({ role }) => role === 'repetition' && early.press('clean'));
    expect(said(spans)).toBe('count-in 60, repetition 60, count-in 62, repetition 62, count-in 64, repetition 64');
    expect(early.drafts).toHaveLength(2);
  });

  it('of breathing: an early mark that is taken back is waited for', () => {
    const one = rehearse({ exercise: { breathBars: 0 } });
    one.press('start-pause');
    one.until('repetition');
    one.press('clean', 'undo');
    expect(said(spansOf(one, 3, () => {}))).toBe('repetition 60, wait 60');
    expect(one.drafts).toEqual([]);
  });

  it.each(['repeat', 'clean'] as const)('of breathing, nor a mark: %s goes on', (noMark) => {
    const one = rehearse({ exercise: { breathBars: 0, noMark }, rule: { cleanUp: 9 } });
    one.press('start-pause');
    expect(said(spansOf(one, 9, () => {}))).toBe(
      'count-in 60, repetition 60, count-in 60, repetition 60, count-in 60, repetition 60',
    );
    expect(one.drafts).toHaveLength(noMark === 'clean' ? 2 : 0);
  });
});

describe('repetitions that run on', () => {
  it('say while the next is played that the last one is to be marked, until it is', () => {
    const one = rehearse({ exercise: FLOW });
    one.press('start-pause');
    one.until('repetition');
    expect(stateLine(one.state(), () => 'c')).toBe('PLAY');
    one.until('repetition');
    expect(stateLine(one.state(), () => 'c')).toBe('PLAY MARK THE LAST?');
    expect(phaseLine(one.state())).toBe('PLAY · mark the last? · bar 1 of 2');
    one.press('clean');
    expect(stateLine(one.state(), () => 'c')).toContain('CLEAN');
  });

  it('play two bars at 96 for at least four fifths of the time, climbs with their count-ins included', () => {
    const one = rehearse({ exercise: FLOW, rule: { start: 96, target: 200 } });
    one.press('start-pause');
    const spans = spansOf(one, 120, markingDuringTheNext('clean'));
    const all = spans.reduce((sum, span) => sum + lasts(span), 0);
    const played = spans.reduce((sum, span) => sum + (span.role === 'repetition' ? lasts(span) : 0), 0);
    expect(spans.filter(({ role }) => role === 'count-in').length).toBeGreaterThan(5);
    expect(played / all).toBeGreaterThanOrEqual(0.8);
    expect(one.climb().bpm).toBeGreaterThan(110);
  });

  it('without it the same is half of the time', () => {
    const one = rehearse({ rule: { start: 96, target: 200 } });
    one.press('start-pause');
    const spans = spansOf(one, 120, ({ role }) => role === 'breath' && one.press('clean'));
    const played = spans.reduce((sum, span) => sum + (span.role === 'repetition' ? lasts(span) : 0), 0);
    expect(played / spans.reduce((sum, span) => sum + lasts(span), 0)).toBeLessThan(0.55);
  });

  it('are each marked during the next; a climb takes its count-in after the one that is being played', () => {
    const one = rehearse({ exercise: FLOW, rule: { cleanUp: 2, start: 60, ...TWOS } });
    one.press('start-pause');
    const spans = spansOf(one, 14, markingDuringTheNext('clean'));
    expect(said(spans)).toBe(
      'count-in 60, repetition 60, repetition 60, repetition 60, ' +
        'count-in 62, repetition 62, repetition 62, repetition 62',
    );
    // The one that was being played when the tempo moved is not marked: it would lead back to the old one.
    expect(one.drafts).toMatchObject([
      { mark: 'clean', bpm: 60, next: 60 },
      { mark: 'clean', bpm: 60, next: 62 },
      { mark: 'clean', bpm: 62, next: 62 },
      { mark: 'clean', bpm: 62, next: 64 },
    ]);
  });

  it('fall at the next bar line, with a count-in at the slower tempo', () => {
    const one = rehearse({ exercise: { ...FLOW, bars: 4 }, rule: { missedDown: 1, start: 60, ...TWOS } });
    one.press('start-pause');
    one.until('repetition');
    one.until('repetition');
    one.press('missed');
    const { span } = one.bar()!;
    expect(`${span.role} ${span.tempo.bpm}`).toBe('count-in 58');
    expect(one.until('repetition').tempo.bpm).toBe(58);
    expect(one.drafts).toHaveLength(1);
  });

  it('take an early mark too: after that of the one before, the next key is for the one that sounds', () => {
    const one = rehearse({ exercise: FLOW });
    one.press('start-pause');
    one.until('repetition');
    one.press('tense');
    expect(one.drafts).toEqual([]);
    one.until('repetition');
    expect(one.drafts).toMatchObject([{ mark: 'tense' }]);
    one.press('clean');
    expect(one.drafts).toHaveLength(1);
    one.press('undo');
    expect(one.state().due?.early).toBeNull();
    one.until('repetition');
    one.press('clean');
    expect(one.drafts).toMatchObject([{ mark: 'tense' }, { mark: 'clean' }]);
  });

  it('end at the next bar line where the one that sounds is missed half way', () => {
    const one = rehearse({ exercise: { ...FLOW, bars: 8 } });
    one.press('start-pause');
    one.until('repetition');
    one.press('missed');
    expect(one.drafts).toMatchObject([{ mark: 'missed' }]);
    expect(one.bar()?.span.role).not.toBe('wait');
  });

  it('wait for the mark of the last one after one more; then they are counted in again', () => {
    const one = rehearse({ exercise: FLOW });
    one.press('start-pause');
    expect(said(spansOf(one, 7, () => {}))).toBe('count-in 60, repetition 60, repetition 60, wait 60');
    one.press('clean');
    expect(one.drafts).toHaveLength(1);
    expect(said(spansOf(one, 4, () => {}))).toBe('count-in 60, repetition 60, repetition 60');
  });

  it('run on without marks where the exercise repeats, and count them as clean where it says so', () => {
    const repeats = rehearse({ exercise: { ...FLOW, noMark: 'repeat' } });
    repeats.press('start-pause');
    expect(new Set(spansOf(repeats, 41, () => {}).map(({ role }) => role))).toEqual(
      new Set(['count-in', 'repetition']),
    );
    expect(repeats.drafts).toEqual([]);
    repeats.press('clean');
    expect(repeats.drafts).toHaveLength(1);
    const clean = rehearse({ exercise: { ...FLOW, noMark: 'clean' }, rule: { cleanUp: 3, start: 60, ...TWOS } });
    clean.press('start-pause');
    const spans = spansOf(clean, 20, () => {});
    expect(spans.some(({ tempo }) => tempo.bpm === 62)).toBe(true);
    expect(clean.drafts.slice(0, 3)).toMatchObject([{ by: 'rule' }, { by: 'rule' }, { by: 'rule', next: 62 }]);
  });

  it('breathe half a bar where they are told to, and are marked there too', () => {
    const one = rehearse({ exercise: { flow: true, breathBars: 0.5 }, rule: { cleanUp: 2, start: 60, ...TWOS } });
    one.press('start-pause');
    const spans = spansOf(one, 12, ({ role }) => role === 'breath' && one.press('clean'));
    expect(said(spans)).toBe(
      'count-in 60, repetition 60, breath 60, repetition 60, ' +
        'breath 60, count-in 62, repetition 62, breath 62, repetition 62',
    );
  });

  it('take a mark back and give it anew, and a climb is taken back with it', () => {
    const one = rehearse({ exercise: FLOW, rule: { cleanUp: 1, start: 60, ...TWOS } });
    one.press('start-pause');
    one.until('repetition');
    one.until('repetition');
    one.press('clean');
    expect(one.climb().bpm).toBe(62);
    one.press('undo');
    expect(one.climb().bpm).toBe(60);
    one.press('tense');
    expect(one.drafts.map(({ kind }) => kind)).toEqual(['mark', 'undo', 'mark']);
    expect(said(spansOf(one, 2, () => {}))).toBe('repetition 60, repetition 60');
  });

  it('keep a mark that is due through a pause, and none of the repetition that was broken off', () => {
    const one = rehearse({ exercise: FLOW });
    one.press('start-pause');
    one.until('repetition');
    one.until('repetition');
    one.press('start-pause', 'clean');
    expect(one.drafts).toMatchObject([{ mark: 'clean' }]);
    one.press('clean');
    expect(one.drafts).toHaveLength(1);
  });

  it('take a tempo by hand at the next bar line, with its count-in', () => {
    const one = rehearse({ exercise: { ...FLOW, bars: 4 }, rule: { start: 60, ...TWOS } });
    one.press('start-pause');
    one.until('repetition');
    one.until('repetition');
    one.press('faster');
    const { span } = one.bar()!;
    expect(`${span.role} ${span.tempo.bpm}`).toBe('count-in 62');
    expect(one.state()).toMatchObject({ due: null, before: null });
  });

  it('do not run on where slow and fast alternate, or where each mark changes the key', () => {
    const slow = rehearse({ exercise: FLOW, rule: { order: 'alternate', slowShare: 0.5, start: 100 } });
    slow.press('start-pause');
    expect(said(spansOf(slow, 7, () => {}))).toBe('count-in 50, repetition 50, count-in 100, repetition 100, wait 100');
    const rotation = { ...PLAIN_ROTATION, change: 'repetition', ladder: 'shared' } as const;
    const turns = rehearse({ exercise: { ...FLOW, rotation } });
    turns.press('start-pause');
    expect(said(spansOf(turns, 5, () => {}))).toBe('count-in 60, repetition 60, wait 60');
  });

  it('are not marked where the disk is full: the mark stays due', () => {
    const one = rehearse({ exercise: FLOW, diskFull: true });
    one.press('start-pause');
    one.until('repetition');
    one.until('repetition');
    one.press('clean');
    expect(one.state().before).not.toBeNull();
    expect(one.state().awaited).toBeNull();
  });
});
