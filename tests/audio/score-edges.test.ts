/** The score where moments meet: at the very bar line, before the beginning, after the end. */
import { enter } from '../../src/audio/mix/sound-comes-back.ts';
import { describe, expect, it } from 'vitest';
import { momentOf } from '../../src/music/time/exact-seconds.ts';
import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import type { SoundCommand } from '../../src/music/sound/sound-commands.ts';
import { EMPTY_SCORE, type Score, applyCommand, eventsBetween, isBusy, levelAt } from '../../src/audio/mix/score.ts';
import { spanOf } from './spans.ts';

/** Applies a command while the ear is at `heard`; what lies before `earliest` cannot be changed. In seconds. */
const at = (score: Score, heard: number, earliest: number, command: SoundCommand): Score =>
  applyCommand(score, command, { heard, earliest: momentOf(Math.round(earliest * 1000), 1000) });

const play = (...spans: readonly ReturnType<typeof spanOf>[]): SoundCommand => ({ ask: 'play', spans });
const then = (cut: boolean, ...spans: readonly ReturnType<typeof spanOf>[]): SoundCommand => ({
  ask: 'then',
  spans,
  cut,
});
const next = spanOf('next', 120, 1);

/** Two bars from 0 to 4 s, two slow ones to 12 s, then on and on. */
const started = at(EMPTY_SCORE, 0, 0, play(spanOf('a', 120, 2), spanOf('b', 60, 2), spanOf('c', 240, null)));
/** One span from 0 to 4 s. */
const short = at(EMPTY_SCORE, 0, 0, play(spanOf('a', 120, 2)));

const heard = (score: Score, from: number, to: number): readonly string[] =>
  eventsBetween(score, from, to).map((e) =>
    e.tell === 'end' ? `end ${e.span} ${e.at}` : `${e.span} ${e.bar}.${e.beat} ${Number(e.at.toFixed(3))}`,
  );

describe('going on with something else', () => {
  it.each([true, false])('at a moment that is a bar line takes that bar line (cut: %s)', (cut) => {
    expect(heard(at(started, 3.9, 4, then(cut, next)), 3.4, 4.6)).toEqual(['a 1.3 3.5', 'next 0.0 4', 'next 0.1 4.5']);
  });

  it('a millisecond after the bar line is a bar too late', () => {
    expect(heard(at(started, 1.9, 2.001, then(true, next)), 3.4, 4.6)).toEqual([
      'a 1.3 3.5',
      'next 0.0 4',
      'next 0.1 4.5',
    ]);
    expect(heard(at(started, 1.9, 2, then(true, next)), 1.4, 2.6)).toEqual(['a 0.3 1.5', 'next 0.0 2', 'next 0.1 2.5']);
  });

  it('cuts what follows too late to be changed at its next bar line', () => {
    expect(heard(at(started, 3.9, 4.1, then(true, next)), 3.9, 8.1)).toEqual([
      'b 0.0 4',
      'b 0.1 5',
      'b 0.2 6',
      'b 0.3 7',
      'next 0.0 8',
    ]);
  });

  it('keeps what was played before and tells the end of the last span alone', () => {
    const changed = at(started, 5, 5.1, then(false, next));
    expect(heard(changed, 0, 0.6)).toEqual(['a 0.0 0', 'a 0.1 0.5']);
    expect(heard(changed, 10.9, 99).at(-1)).toBe('end next 14');
  });

  it('changes the span that is heard, not the one before it, from its first moment on', () => {
    expect(heard(at(started, 4, 4.05, then(false, next)), 11.9, 12.1)).toEqual(['next 0.0 12']);
    expect(heard(at(started, 3.999, 3.999, then(false, next)), 3.9, 4.1)).toEqual(['next 0.0 4']);
  });

  it.each([true, false])('begins at once where the last bar line is past (cut: %s)', (cut) => {
    expect(heard(at(short, 3.98, 4.03, then(cut, next)), 3.9, 4.6)).toEqual(['next 0.0 4.03', 'next 0.1 4.53']);
    expect(heard(at(short, 3.9, 4, then(cut, next)), 3.9, 4.6)).toEqual(['next 0.0 4', 'next 0.1 4.5']);
  });

  it('begins at once where nothing plays any more, and what has ended is no part of it', () => {
    const changed = at(short, 4, 4.05, then(false, next));
    expect(heard(changed, 4.01, 4.6)).toEqual(['next 0.0 4.05', 'next 0.1 4.55']);
    expect(changed.tracks).toHaveLength(2);
    const stopped = at(at(started, 1, 1.05, { ask: 'stop' }), 2, 2.05, then(false, next));
    expect(heard(stopped, 1.1, 2.6)).toEqual(['next 0.0 2.05', 'next 0.1 2.55']);
  });

  it('replaces what has not begun yet', () => {
    const soon = at(EMPTY_SCORE, 5, 5.5, play(spanOf('a', 120, 2), spanOf('b', 60, 2)));
    expect(heard(at(soon, 5.1, 5.3, then(true, next)), 5, 6.1)).toEqual(['next 0.0 5.5', 'next 0.1 6']);
    expect(heard(at(soon, 5.1, 5.3, then(false, next)), 9, 9.6)).toEqual(['a 1.3 9', 'next 0.0 9.5']);
  });

  it('goes on with the track that began last', () => {
    const twice = at(started, 1, 1.05, play(spanOf('x', 120, 2)));
    expect(heard(at(twice, 2, 2.1, then(false, next)), 4.9, 5.1)).toEqual(['next 0.0 5.05']);
  });
});

describe('starting anew', () => {
  it('silences what plays from the first frame of the new on, and tells both in order', () => {
    const anew = at(started, 1, 1.05, play(spanOf('x', 100, 1)));
    expect(heard(anew, 0.4, 1.7)).toEqual(['a 0.1 0.5', 'a 0.2 1', 'x 0.0 1.05', 'x 0.1 1.65']);
    expect(anew.tracks.map(({ until }) => until)).toEqual([1.05, null]);
  });

  it('and stopping leave alone what was stopped before', () => {
    const stopped = at(started, 1, 1.05, { ask: 'stop' });
    const later = at(at(stopped, 2, 2.05, { ask: 'stop' }), 3, 3.05, play(next));
    expect(later.tracks.map(({ until }) => until)).toEqual([1.05, null]);
  });
});

describe('what is told', () => {
  it('has no end where the chain was stopped before it', () => {
    const stopped = at(short, 1, 1.05, { ask: 'stop' });
    expect(heard(stopped, 0.9, 99)).toEqual(['a 0.2 1']);
  });

  it('is nothing where nothing was asked for', () => {
    const nothing = at(EMPTY_SCORE, 1, 1, play());
    expect(heard(nothing, 0, 99)).toEqual([]);
    expect(isBusy(nothing, 1)).toBe(false);
    expect(heard(at(nothing, 2, 2, play(next)), 0, 2.1)).toEqual(['next 0.0 2']);
    expect(EMPTY_SCORE).toMatchObject({ tracks: [], drones: [], chimes: [] });
  });

  it('is what begins from a moment on, up to another and without it', () => {
    expect(heard(short, 3.5, 4)).toEqual(['a 1.3 3.5']);
    expect(heard(short, 4, 4.001)).toEqual(['end a 4']);
    expect(heard(short, 4.001, 99)).toEqual([]);
    expect(eventsBetween(short, 0, 0.1)).toEqual([{ at: 0, tell: 'beat', span: 'a', bar: 0, beat: 0, beatsInBar: 4 }]);
  });

  it('leaves something to wait for until the end has been told, or the stop has come', () => {
    expect(isBusy(short, 4)).toBe(true);
    expect(isBusy(short, 4.001)).toBe(false);
    const stopped = at(started, 1, 1.05, { ask: 'stop' });
    expect([isBusy(stopped, 1.05), isBusy(stopped, 1.051), isBusy(EMPTY_SCORE, 0)]).toEqual([true, false, false]);
  });
});

const droneOn = (tonic: number): SoundCommand => ({ ask: 'drone', drone: { ...PLAIN_DRONE, tonic } });

const layers = (score: Score): readonly string[] =>
  score.drones.map(({ drone: { tonic }, from, until }) => `${tonic}: ${from} to ${until}`);

describe('the drone', () => {
  it('gives way to one of another sound, and ends once', () => {
    const first = at(EMPTY_SCORE, 1, 1.05, droneOn(58));
    const second = at(first, 2, 2.05, { ask: 'drone', drone: { ...PLAIN_DRONE, timbre: 'pure', tonic: 60 } });
    expect(layers(second)).toEqual(['58: 1.05 to 2.05', '60: 2.05 to null']);
    expect(layers(at(second, 3, 3.05, { ask: 'drone', drone: null }))).toEqual([
      '58: 1.05 to 2.05',
      '60: 2.05 to 3.05',
    ]);
  });

  it('goes on where only its pitch is another, and keeps no more of its moves than can still be heard', () => {
    const moved = at(at(EMPTY_SCORE, 1, 1.05, droneOn(58)), 2, 2.05, droneOn(60));
    expect(layers(moved)).toEqual(['60: 1.05 to null']);
    const often = Array.from({ length: 50 }, (_, k) => k).reduce(
      (score, k) => at(score, 3 + k, 3.05 + k, droneOn(58 + (k % 2))),
      moved,
    );
    expect(layers(often)).toEqual(['59: 1.05 to null']);
    expect(often.drones[0]?.glides?.length).toBeLessThan(12);
  });
});

describe('levels', () => {
  const sounding = at(EMPTY_SCORE, 9, 9.05, { ask: 'drone', drone: PLAIN_DRONE });
  const louder = at(sounding, 10, 10.05, { ask: 'volume', click: 1, drone: 0.1 });

  it('begin to move when the command takes effect, and have moved 60 ms later', () => {
    for (const [moment, click, drone] of [
      [10.05, 0.5, 0.3],
      [10.08, 0.75, 0.2],
      [10.11, 1, 0.1],
    ] as const) {
      expect(levelAt(louder.click, moment)).toBeCloseTo(click, 6);
      expect(levelAt(louder.drone, moment)).toBeCloseTo(drone, 6);
    }
  });

  it('turn round where they are', () => {
    const back = at(louder, 10.03, 10.08, { ask: 'volume', click: 0.5, drone: 0.1 });
    expect(levelAt(back.click, 10.08)).toBeCloseTo(0.75, 6);
    expect(levelAt(back.click, 10.2)).toBe(0.5);
  });

  it('stay between nothing and full', () => {
    const wrong = at(EMPTY_SCORE, 1, 1, { ask: 'volume', click: 2, drone: -1 });
    expect([levelAt(wrong.click, 9), levelAt(wrong.drone, 9)]).toEqual([1, 0]);
  });
});

const chimesAfter = (score: Score, moment: number): readonly number[] =>
  at(score, moment, moment + 0.05, { ask: 'chime' }).chimes;

describe('the chime', () => {
  it('waits for the next bar line of what plays, in whichever span, also for the last', () => {
    expect(chimesAfter(started, 0.95)).toEqual([2]);
    expect(chimesAfter(started, 1.95)).toEqual([2]);
    expect(chimesAfter(started, 4.5)).toEqual([8]);
    expect(chimesAfter(started, 11.5)).toEqual([12]);
    expect(chimesAfter(started, 12.5)).toEqual([13]);
    expect(chimesAfter(short, 3.5)).toEqual([4]);
  });

  it('waits for nothing where nothing plays, or the last bar line is past', () => {
    expect(chimesAfter(EMPTY_SCORE, 7)).toEqual([7.05]);
    expect(chimesAfter(short, 3.98)).toEqual([4.03]);
  });

  it('comes once for each time it was asked for', () => {
    const twice = at(at(started, 1, 1.05, { ask: 'chime' }), 3, 3.05, { ask: 'chime' });
    expect(twice.chimes).toEqual([2, 4]);
  });
});

const spans = (moment: number): readonly string[] =>
  at(started, moment, moment, { ask: 'volume', click: 1, drone: 1 }).tracks[0]?.chain.map(({ span }) => span.id) ?? [];

describe('memory', () => {
  const STOP: SoundCommand = { ask: 'stop' };

  it('keeps what ended less than eight seconds ago, and no more', () => {
    const full = [
      play(spanOf('x', 120, 1)),
      { ask: 'drone', drone: PLAIN_DRONE },
      { ask: 'drone', drone: null },
    ] as const;
    let score = full.reduce<Score>((all, command) => at(all, 0, 1, command), EMPTY_SCORE);
    score = { ...at(score, 0, 1, { ask: 'chime' }), click: score.click };
    const sizes = (moment: number): readonly number[] => {
      const { tracks, drones, chimes } = at(score, moment, moment, { ask: 'volume', click: 0.5, drone: 0.5 });
      return [tracks.length, drones.length, chimes.length];
    };
    // The track ends at 3 s, the drone at 1 s, the chime came at 1 s.
    expect(sizes(8.9)).toEqual([1, 1, 1]);
    expect(sizes(9)).toEqual([1, 0, 0]);
    expect(sizes(10.9)).toEqual([1, 0, 0]);
    expect(sizes(11)).toEqual([0, 0, 0]);
  });

  it('keeps what was stopped as long, however long it would have gone on', () => {
    const stopped = at(started, 1, 1.05, STOP);
    expect(at(stopped, 9, 9, STOP).tracks).toHaveLength(1);
    expect(at(stopped, 9.06, 9.06, STOP).tracks).toHaveLength(0);
  });

  it('forgets the spans of a chain that goes on, but never what is heard', () => {
    expect(spans(11.9)).toEqual(['a', 'b', 'c']);
    expect(spans(12.1)).toEqual(['b', 'c']);
    expect(spans(20.1)).toEqual(['c']);
    expect(spans(2000)).toEqual(['c']);
  });
});

const enters = (score: Score, from: number): number | undefined => enter(score, from).tracks[0]?.audibleFrom;

describe('a device that comes back', () => {
  it('enters at a bar line that is a second and a half away, at a beat where it is further', () => {
    expect(enters(started, 0.5)).toBe(2);
    expect(enters(started, 0.49)).toBe(0.5);
    expect(enters(started, 2)).toBe(2);
    expect(enters(started, 5)).toBe(5);
  });

  it('waits for the bar line where no beat comes before it', () => {
    const slow = at(EMPTY_SCORE, 0, 0, play(spanOf('slow', 30, null)));
    expect(enters(slow, 6.2)).toBe(8);
  });

  it('has nothing to enter into where the track has not begun, and lets the drone fade in', () => {
    expect(enters(started, 0)).toBe(-Infinity);
    const drone = at(EMPTY_SCORE, 1, 1.05, { ask: 'drone', drone: PLAIN_DRONE });
    expect(enter(drone, 9).drones[0]?.from).toBe(9);
    expect(enter(drone, 0.5).drones[0]?.from).toBe(1.05);
  });
});
