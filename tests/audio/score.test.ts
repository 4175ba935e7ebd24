import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import { enter } from '../../src/audio/mix/sound-comes-back.ts';
import { describe, expect, it } from 'vitest';
import { momentOf } from '../../src/music/time/exact-seconds.ts';
import type { SoundCommand } from '../../src/music/sound/sound-commands.ts';
import {
  EMPTY_SCORE,
  RAMP,
  type Score,
  applyCommand,
  eventsBetween,
  isBusy,
  levelAt,
} from '../../src/audio/mix/score.ts';
import { spanOf } from './spans.ts';

/** Applies a command while the ear is at `heard`; what is nearer than 50 ms cannot be changed. */
const at = (score: Score, heard: number, command: SoundCommand): Score =>
  applyCommand(score, command, { heard, earliest: momentOf(Math.round((heard + 0.05) * 1000), 1000) });

const started = at(EMPTY_SCORE, -0.05, {
  ask: 'play',
  spans: [spanOf('a', 120, 2), spanOf('b', 60, 2), spanOf('c', 240, null)],
});

/** 'a 0.0 0' is the first beat of span a at moment 0. */
const heard = (score: Score, from: number, to: number): readonly string[] =>
  eventsBetween(score, from, to).map((e) =>
    e.tell === 'end' ? `end ${e.span} ${e.at}` : `${e.span} ${e.bar}.${e.beat} ${Number(e.at.toFixed(3))}`,
  );

describe('a chain', () => {
  it('goes through its spans without a gap', () => {
    expect(heard(started, 3.4, 5.1)).toEqual(['a 1.3 3.5', 'b 0.0 4', 'b 0.1 5']);
    expect(heard(started, 11.9, 12.3)).toEqual(['c 0.0 12', 'c 0.1 12.25']);
  });

  it('is changed after the current span', () => {
    const changed = at(started, 1, { ask: 'then', spans: [spanOf('d', 120, 1)], cut: false });
    expect(heard(changed, 3.5, 9)).toEqual(['a 1.3 3.5', 'd 0.0 4', 'd 0.1 4.5', 'd 0.2 5', 'd 0.3 5.5', 'end d 6']);
  });

  it('is cut at the next bar line when asked, never within a bar', () => {
    const changed = at(started, 0.6, { ask: 'then', spans: [spanOf('d', 120, 1)], cut: true });
    expect(heard(changed, 1.4, 2.6)).toEqual(['a 0.3 1.5', 'd 0.0 2', 'd 0.1 2.5']);
  });

  it('is changed a bar later when the bar line is too near', () => {
    const changed = at(started, 1.97, { ask: 'then', spans: [spanOf('d', 120, 1)], cut: true });
    expect(heard(changed, 1.9, 4.1)).toEqual(['a 1.0 2', 'a 1.1 2.5', 'a 1.2 3', 'a 1.3 3.5', 'd 0.0 4']);
  });

  it('plays the first bar of the next span when that cannot be helped, then changes', () => {
    const changed = at(started, 3.97, { ask: 'then', spans: [spanOf('d', 120, 1)], cut: false });
    expect(heard(changed, 3.9, 8.1)).toEqual(['b 0.0 4', 'b 0.1 5', 'b 0.2 6', 'b 0.3 7', 'd 0.0 8']);
  });

  it('leaves an endless span at a bar line', () => {
    const changed = at(started, 13.1, { ask: 'then', spans: [spanOf('d', 60, 1)], cut: false });
    expect(heard(changed, 13.7, 14.1)).toEqual(['c 1.3 13.75', 'd 0.0 14']);
  });

  it('starts at once when nothing is playing', () => {
    const changed = at(EMPTY_SCORE, 100, { ask: 'then', spans: [spanOf('d', 60, 1)], cut: false });
    expect(heard(changed, 100, 101)).toEqual(['d 0.0 100.05']);
  });

  it('ends with its last span and tells so once', () => {
    const one = at(EMPTY_SCORE, -0.05, { ask: 'play', spans: [spanOf('a', 120, 1)] });
    expect(heard(one, 1.9, 100)).toEqual(['end a 2']);
    expect(isBusy(one, 1)).toBe(true);
    expect(isBusy(one, 2.1)).toBe(false);
  });

  it('is silent from the moment of a stop, and tells no end', () => {
    const stopped = at(started, 1, { ask: 'stop' });
    expect(heard(stopped, 0.9, 100)).toEqual(['a 0.2 1']);
    expect(isBusy(stopped, 2)).toBe(false);
  });

  it('forgets what is long past', () => {
    let score = started;
    for (let i = 0; i < 200; i++)
      score = at(score, 20 + i * 4, { ask: 'then', spans: [spanOf(`s${i}`, 240, 2)], cut: true });
    expect(score.tracks.reduce((sum, track) => sum + track.chain.length, 0)).toBeLessThan(10);
  });
});

describe('levels', () => {
  it('move without a jump', () => {
    const sounding = at(EMPTY_SCORE, 9, { ask: 'drone', drone: PLAIN_DRONE });
    const louder = at(sounding, 10, { ask: 'volume', click: 1, drone: 0 });
    expect(levelAt(louder.click, 10)).toBeLessThanOrEqual(0.5);
    expect(levelAt(louder.click, 10.05 + RAMP / 2)).toBeCloseTo(0.75, 6);
    expect(levelAt(louder.click, 11)).toBe(1);
    expect(at(louder, 12, { ask: 'volume', click: 7, drone: -1 }).click.to).toBe(1);
  });

  it('are there for the very first stroke where nothing sounds yet', () => {
    const set = at(EMPTY_SCORE, 10, { ask: 'volume', click: 0.05, drone: 0.1 });
    expect(levelAt(set.click, 10.05)).toBeCloseTo(0.05, 6);
    expect(levelAt(set.drone, 10.05)).toBeCloseTo(0.1, 6);
  });

  it('start below full scale, since nobody knows how far the headphones are turned up', () => {
    expect(EMPTY_SCORE.click.to).toBeLessThanOrEqual(0.5);
    expect(EMPTY_SCORE.drone.to).toBeLessThanOrEqual(0.5);
  });
});

describe('a device that comes back', () => {
  it('enters at a bar line when one is near, otherwise at a beat', () => {
    expect(enter(started, 1.3).tracks[0]?.audibleFrom).toBe(2);
    expect(enter(started, 4.2).tracks[0]?.audibleFrom).toBe(5);
  });

  it('leaves alone what has not begun', () => {
    const soon = at(EMPTY_SCORE, 5, { ask: 'play', spans: [spanOf('a', 60, 1)] });
    expect(enter(soon, 5).tracks[0]?.audibleFrom).toBe(-Infinity);
  });
});
