/** What lies there when a line is opened: its tempo, what is known of its speed, its notes and its drone. */
import { describe, expect, it } from 'vitest';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { crossingOf, estimateFor, wallFor, withKnowledge } from '../../src/practice/sitting/line-speed.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { putOnStand } from '../../src/practice/sitting/put-on-stand.ts';
import { practiceOf } from '../../src/practice/stand.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { dayPlus } from '../../src/common/days.ts';
import { writer } from '../journal/entries.ts';
import { DAY, firstStand } from './daily-sitting.ts';
import { EXERCISE, rehearse } from './rehearsal.ts';

describe('the tempo at which a line opens', () => {
  const line = { exercise: EXERCISE.id, articulation: 'slurred', key: 'C' };
  const opened = (earlier: Parameters<typeof foldAll>[0], tempo: number | null = null) => {
    const first = firstStand([]);
    const lines = Object.fromEntries(foldAll(earlier).lines);
    const stand = { ...first, known: { ...first.known, exercises: [EXERCISE], lines } };
    return practiceOf(putOnStand(stand, EXERCISE, { line, key: 'C' }, tempo))!;
  };

  it('is where it was left today, runs and all, without a word', () => {
    const write = writer();
    const one = { ...line, day: DAY };
    const practice = opened([write.mark('clean', 80, 80, one), write.mark('clean', 80, 80, one)]);
    expect(practice.opened).toEqual({ bpm: 80, cleanRun: 2, missedRun: 0, best: null });
    expect(practice.remark).toBeNull();
  });

  it('on another day is where the marks say, with the reason, and the best is kept', () => {
    const write = writer();
    const before = { ...line, day: dayPlus(DAY, -3) };
    const practice = opened(Array.from({ length: 12 }, () => write.mark('clean', 80, 80, before)));
    expect(practice.opened).toMatchObject({ cleanRun: 0, best: 80 });
    expect(practice.remark).not.toBeNull();
  });

  it('is the player’s own where one was chosen for a line without marks', () => {
    const write = writer();
    const practice = opened([{ ...write.tempo(66), ...line, day: dayPlus(DAY, -3) }]);
    expect(practice.opened.bpm).toBe(66);
    expect(practice.remark).toBeNull();
  });

  it('is what the player asks for, from which the runs start anew', () => {
    const write = writer();
    const one = { ...line, day: DAY };
    const marks = [0, 1, 2, 3].map(() => write.mark('clean', 80, 80, one));
    expect(opened(marks, 92)).toMatchObject({ opened: { bpm: 92, cleanRun: 0, best: 80 }, remark: null });
    expect(opened(marks, 80).opened).toMatchObject({ bpm: 80, cleanRun: 1 });
    // On another day the marks have their own word on where to start: the player's stands above it.
    const earlier = [0, 1, 2, 3].map(() => write.mark('clean', 80, 80, { ...line, day: dayPlus(DAY, -3) }));
    expect(opened(earlier).remark).not.toBeNull();
    expect(opened(earlier, 92)).toMatchObject({ opened: { bpm: 92, best: 80 }, remark: null });
  });
});

describe('what is known of a line’s speed', () => {
  const write = writer();
  const marks = (articulation: string, bpm: number, n = 20) =>
    Array.from({ length: n }, (_, k) =>
      write.mark(k % 5 === 4 ? 'missed' : 'clean', bpm, bpm, {
        exercise: EXERCISE.id,
        articulation,
        key: 'C',
        day: DAY,
      }),
    );
  const knownWith = (entries: Parameters<typeof foldAll>[0]) => {
    const { known } = firstStand([]);
    return { ...known, lines: Object.fromEntries(foldAll(entries).lines) };
  };
  const exercise = { ...EXERCISE, articulations: ['single', 'double'] };

  it('is nothing until it is asked for, and the same answer as long as nothing new is known', () => {
    const known = knownWith(marks('slurred', 100));
    const practice = rehearse().state();
    expect(estimateFor(known, practice)).toBeNull();
    expect(wallFor(known, practice)).toBeNull();
    const asked = withKnowledge(known);
    expect(withKnowledge(asked).knowledge).toBe(asked.knowledge);
    const one = estimateFor(asked, practice);
    expect(one?.marks).toBe(20);
    expect(estimateFor(asked, practice)).toBe(one);
    const later = estimateFor({ ...asked, today: dayPlus(DAY, 60) }, practice);
    expect(later!.high - later!.low).toBeGreaterThan(one!.high - one!.low);
  });

  it('says where double takes over from single, once both are known in the key', () => {
    const known = (articulation: string, bpm: number) => [
      ...marks(articulation, bpm),
      ...marks(articulation, Math.round(bpm * 0.85), 40).map((entry) => ({ ...entry, mark: 'clean' as const })),
      ...marks(articulation, Math.round(bpm * 1.15), 20).map((entry) => ({ ...entry, mark: 'missed' as const })),
    ];
    const both = withKnowledge(knownWith([...known('single', 100), ...known('double', 130)]));
    expect(
      crossingOf(withKnowledge(knownWith([...marks('single', 100), ...marks('double', 130)])), exercise, 'C'),
    ).toBeNull();
    expect(crossingOf(both, exercise, 'C')).not.toBeNull();
    expect(crossingOf(both, exercise, 'G')).toBeNull();
    expect(crossingOf(both, { ...exercise, articulations: ['single'] }, 'C')).toBeNull();
    for (const only of ['single', 'double'] as const)
      expect(crossingOf(withKnowledge(knownWith(marks(only, 100))), exercise, 'C')).toBeNull();
  });
});

describe('what is put on the stand for the player’s instrument', () => {
  const cornet = instrumentNamed('cornet')!;
  const prepared = (key: string, more: Partial<typeof EXERCISE> = {}, articulation = 'slurred') =>
    prepareFor(cornet, 442)({ ...EXERCISE, ...more }, { exercise: EXERCISE.id, key, articulation });

  // A cornet in B flat sounds a whole tone lower than written; B flat 2 is 46 in MIDI, and 53 is its easy low G.
  // Common practice, no source.
  it.each([
    ['C', 46],
    ['D', 48],
    ['Db', 47],
    ['F', 51],
    ['G', 53],
    ['B', 45],
  ])('a drone on the tonic of %s, as it sounds, below where the player is at ease or with it', (key, midi) => {
    expect(prepared(key).drone).toEqual({
      tonic: midi,
      voices: ['tonic'],
      tuning: 'just',
      timbre: 'reed',
      a4: 442,
      gain: 1,
      detune: 0,
    });
    expect(prepared(key)).toMatchObject({ drill: null, remark: null });
  });

  it('the drone that the exercise asks for, and C where a key cannot be read', () => {
    expect(prepared('C', { drone: { voices: ['tonic', 'fifth'], tuning: 'equal' } }).drone).toMatchObject({
      voices: ['tonic', 'fifth'],
      tuning: 'equal',
      tonic: 46,
    });
    expect(prepared('all keys').drone.tonic).toBe(46);
  });

  it('what could be played instead where the pattern does not fit, and why', () => {
    const { drill, remark } = prepared('C', { pattern: '1 8 15 22 | 29', notesPerBeat: 1 });
    expect(remark).toMatch(/does not fit/);
    expect(drill?.notes.length).toBeGreaterThan(0);
  });

  it('the reason names what does not fit, not what is played instead', () => {
    const { drill, remark } = prepared('C', { pattern: '1 8 15 22 | 29', notesPerBeat: 1 });
    expect(remark).toMatch(/^C major does not fit the range of the B-flat cornet: C3 in bar 1 lies below it\./);
    expect(remark).not.toBe(drill?.remarks[0]);
  });

  it('no notes for an articulation that cannot be read', () => {
    expect(prepared('C', { pattern: '1 2 3 4 | 1', notesPerBeat: 1 }, 'hummed').drill).toBeNull();
    expect(prepared('C', { pattern: '1 2 3 4 | 1', notesPerBeat: 1 }).drill).not.toBeNull();
  });
});
