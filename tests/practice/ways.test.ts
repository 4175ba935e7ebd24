import { describe, expect, it } from 'vitest';
import { WAY_IDS, type Way, waysRound } from '../../src/ladder/wall/ways-round.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { wayDrill } from '../../src/practice/line/way-notes.ts';
import { beginWay } from '../../src/practice/line/way-being-played.ts';
import { EXERCISE, rehearse } from './rehearsal.ts';

const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');
const PATTERN = { ...EXERCISE, pattern: '1 2 3 4 5 4 3 2 | 1', notesPerBeat: 2 };
const line = { exercise: 'five-notes', articulation: 'double', key: 'C' };
const { drill } = prepareFor(cornet, 440)(PATTERN, line);
if (!drill) throw new Error('the pattern is not written out');

const wayNamed = (id: string, wall = 104): Way => {
  const { rungs } = rehearse({ rule: { start: 100 } });
  const way = waysRound({ wall, rungs: rungs(), tongued: id !== 'breathed', notes: 9, beats: 4 }).find(
    (one) => one.id === id,
  );
  if (!way) throw new Error(`no way ${id}`);
  return way;
};

describe('a way round a wall', () => {
  it.each(WAY_IDS)('%s runs by itself to its end and comes back one rung below the wall', (id) => {
    const way = wayNamed(id);
    const { apply, press, bar, state, drafts, records, climb } = rehearse({
      opening: { drill, line },
      rule: { start: 100 },
    });
    apply((practice) => beginWay(practice, way, 104));
    press('start-pause');
    const played: number[] = [];
    for (let k = 0; k < 400 && state().way; k += 1) {
      const sounded = bar();
      if (sounded?.span.role === 'repetition' && sounded.bar === 0) played.push(sounded.span.tempo.bpm);
    }
    expect(played).toEqual(
      way.passages.flatMap(({ bpm, repetitions }) => Array.from({ length: repetitions }, () => bpm)),
    );
    expect(records).toMatchObject([{ kind: 'way', way: id, wall: 104, outcome: 'played' }]);
    expect(drafts).toMatchObject([{ kind: 'tempo', next: way.back }]);
    expect(climb().bpm).toBe(way.back);
    expect(bar()?.span).toMatchObject({ role: 'count-in', tempo: { bpm: way.back } });
    expect(state().drill).toEqual(drill);
  });

  it('takes no marks, and says so', () => {
    const { apply, press, until, drafts, answer } = rehearse({ rule: { start: 100 } });
    apply((practice) => beginWay(practice, wayNamed('half-tempo'), 104));
    press('start-pause');
    until('repetition');
    press('clean', 'missed');
    expect(drafts).toEqual([]);
    expect(answer()).toMatch(/do not count/);
  });
});

const sounding = (id: string, at: number) =>
  wayDrill(drill, wayNamed(id).passages[at]!).notes.filter(({ pitch }) => pitch);

describe('the notes on the way', () => {
  it('grow by a note from either end', () => {
    expect(sounding('from-front', 0)).toHaveLength(2);
    expect(sounding('from-front', 0)[0]?.pitch?.name).toBe(drill.notes[0]?.pitch?.name);
    expect(sounding('from-back', 0).at(-1)?.at).toEqual(drill.notes.at(-1)?.at);
  });

  it('come in bursts of beats with as many beats of rest', () => {
    const [one] = wayNamed('bursts').passages;
    const beats = wayDrill(drill, one!)
      .notes.filter(({ pitch }) => pitch)
      .map(({ bar, beat }) => bar * 4 + beat);
    expect(new Set(beats)).toEqual(new Set([0, 2, 4]));
  });

  it('are dotted both ways, and slurred, and all on one pitch', () => {
    const [long, short] = [sounding('dotted', 0), sounding('dotted', 1)];
    expect(long[0]?.length).toEqual({ n: 3, d: 16 });
    expect(short[0]?.length).toEqual({ n: 1, d: 16 });
    expect(
      sounding('slurred', 0)
        .slice(1, 5)
        .every(({ stroke }) => stroke === 'under'),
    ).toBe(true);
    expect(new Set(sounding('one-note', 0).map(({ pitch }) => pitch?.name)).size).toBe(1);
  });
});
