/** A way round a wall, begun, played and left by hand, and what its passages make of the notes. */
import { describe, expect, it } from 'vitest';
import { type Passage, type Way, waysRound } from '../../src/ladder/wall/ways-round.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { decide } from '../../src/practice/line/line-events.ts';
import { drillNow, modelNotes } from '../../src/practice/line/line-state.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { beginWay, leaveWay } from '../../src/practice/line/way-being-played.ts';
import { wayDrill } from '../../src/practice/line/way-notes.ts';
import { EXERCISE, rehearse } from './rehearsal.ts';

const cornet = instrumentNamed('cornet')!;
const PATTERN = { ...EXERCISE, pattern: '1 2 r 4 5 4 3 2 | 1', notesPerBeat: 2 };
const drillIn = (articulation: string) => {
  const { drill } = prepareFor(cornet, 440)(PATTERN, { exercise: 'five-notes', articulation, key: 'C' });
  if (!drill) throw new Error('the pattern is not written out');
  return drill;
};

const wayNamed = (id: string): Way => {
  const { rungs } = rehearse({ rule: { start: 100 } });
  return waysRound({ wall: 104, rungs: rungs(), tongued: true, notes: 8, beats: 4 }).find((one) => one.id === id)!;
};

const begun = (id: string, breathBars = 1) => {
  const line = { exercise: 'five-notes', articulation: 'double', key: 'C' };
  const one = rehearse({ opening: { drill: drillIn('double'), line }, rule: { start: 100 }, exercise: { breathBars } });
  const way = wayNamed(id);
  return { ...one, way, begin: () => one.apply((practice) => beginWay(practice, way, 104)) };
};

describe('a way round a wall', () => {
  it('begun in silence says what it is for, and sounds with the player’s own start', () => {
    const { begin, answer, commands, way, press, bar } = begun('half-tempo');
    begin();
    expect(answer()).toBe(`${way.title}: ${way.why}`);
    expect(commands).toEqual([]);
    press('start-pause');
    expect(bar()?.span.tempo.bpm).toBe(way.passages[0]!.bpm);
  });

  it('begun while the click runs starts at the next bar line; the repetition under way is not marked', () => {
    const { begin, press, until, bar, state, way } = begun('half-tempo');
    press('start-pause');
    until('repetition');
    begin();
    expect(state().due).toBeNull();
    expect(bar()?.span).toMatchObject({ role: 'count-in', tempo: { bpm: way.passages[0]!.bpm } });
  });

  it('breathes for as long as the exercise says, between passages and at the end, and never waits for a mark', () => {
    const { begin, press, bar, state, answer, way } = begun('slurred', 2);
    begin();
    press('start-pause');
    const roles: (string | undefined)[] = [];
    while (state().way) roles.push(bar()?.span.role);
    expect(roles.slice(0, 6)).toEqual(['count-in', 'repetition', 'repetition', 'breath', 'breath', 'count-in']);
    expect(roles).not.toContain('wait');
    expect(answer()).toBe(`Back to the ladder at ${way.back}, one rung below the wall.`);
    expect([bar()?.span.role, bar()?.span.role]).toEqual(['breath', 'count-in']);
    // What comes next sounds already: the tempo that is kept counts nothing in again.
    expect(bar()?.span.role).toBe('repetition');
  });

  it('takes no tempo by hand, and says so', () => {
    const { begin, press, drafts, answer } = begun('half-tempo');
    begin();
    press('faster');
    expect(drafts).toEqual([]);
    expect(answer()).toBe('A way round a wall has its own tempos; v goes back to the ladder.');
  });

  it('left half way is kept as left, and the line is where it was, at the next bar line', () => {
    const { begin, press, until, bar, state, records, apply, answer, climb } = begun('half-tempo');
    begin();
    press('start-pause');
    until('repetition');
    apply(leaveWay);
    expect(records).toMatchObject([{ kind: 'way', way: 'half-tempo', wall: 104, outcome: 'left' }]);
    expect(answer()).toBe('Back on the ladder.');
    expect(state().way).toBeNull();
    expect(bar()?.span).toMatchObject({ role: 'count-in', tempo: { bpm: climb().bpm } });
  });

  it('left in silence stays silent', () => {
    const { begin, apply, commands, records } = begun('half-tempo');
    begin();
    apply(leaveWay);
    expect(commands).toEqual([]);
    expect(records).toHaveLength(1);
    // Nothing is left where no way is being played.
    apply(leaveWay);
    expect(records).toHaveLength(1);
  });

  it('sounds with the click of its passage, and its notes as a model', () => {
    const { begin, press, state, until } = begun('off-beats');
    begin();
    press('model', 'start-pause');
    expect(until('repetition').click.on).toBe('off-beats');
    expect(drillNow(state())?.notes).toEqual(state().drill?.notes);
    const front = begun('from-front');
    front.begin();
    front.press('model', 'start-pause');
    expect(front.until('repetition').model).toHaveLength(2);
    expect(modelNotes(front.state())).toHaveLength(2);
    expect(drillNow(front.state())?.notes).not.toEqual(front.state().drill?.notes);
    expect(decide(front.state(), { type: 'do', action: 'clean' }).effects).toMatchObject([{ type: 'say' }]);
  });
});

const passage = (more: Partial<Passage>): Passage => ({ bpm: 90, repetitions: 1, say: '', ...more });
const strokes = (articulation: string, more: Partial<Passage>) =>
  wayDrill(drillIn(articulation), passage(more)).notes.map(({ pitch, stroke, syllable }) =>
    pitch ? `${pitch.name} ${stroke} ${syllable}`.trim() : `${stroke}${syllable}`,
  );

describe('the notes of a passage', () => {
  const ALL = [
    'C4 front T',
    'D4 back K',
    'rest',
    'F4 front T',
    'G4 front T',
    'F4 back K',
    'E4 front T',
    'D4 back K',
    'C4 front T',
  ];

  it('are the line’s own where nothing else is asked for', () => {
    const drill = drillIn('double');
    expect(wayDrill(drill, passage({})).notes).toEqual(drill.notes);
    expect(strokes('double', {}).map((one) => one.split(' ')[0])).toEqual(ALL.map((one) => one.split(' ')[0]));
  });

  it('are rests where the passage leaves them out, exactly so many from the front or up to the end', () => {
    expect(strokes('double', { notes: { from: 'front', count: 3 } }).map((one) => one.split(' ')[0])).toEqual([
      'C4',
      'D4',
      'rest',
      'F4',
      'rest',
      'rest',
      'rest',
      'rest',
      'rest',
    ]);
    expect(strokes('double', { notes: { from: 'back', count: 3 } }).map((one) => one.split(' ')[0])).toEqual([
      'rest',
      'rest',
      'rest',
      'rest',
      'rest',
      'rest',
      'E4',
      'D4',
      'C4',
    ]);
  });

  it('under a slur that the passage breaks, the first note after the rest is tongued; no other is', () => {
    expect(strokes('slurred', { notes: { from: 'back', count: 3 } })).toEqual([
      'rest',
      'rest',
      'rest',
      'rest',
      'rest',
      'rest',
      'E4 front T',
      'D4 under',
      'C4 under',
    ]);
    expect(strokes('double', { notes: { from: 'back', count: 2 } }).at(-2)).toBe(strokes('double', {}).at(-2));
  });

  it('come to rest without a tie', () => {
    const tied = { ...PATTERN, pattern: '1:1/2~ 1:1/2 | 2' };
    const { drill } = prepareFor(cornet, 440)(tied, { exercise: 'five-notes', articulation: 'single', key: 'C' });
    const notes = wayDrill(drill!, passage({ notes: { from: 'back', count: 1 } })).notes.filter(({ pitch }) => !pitch);
    expect(notes.length).toBeGreaterThan(0);
    for (const note of notes)
      expect(note).toMatchObject({ tiedFrom: false, tiedTo: false, stroke: 'rest', syllable: '' });
  });

  it('on one pitch keep their rests and their tonguing', () => {
    const one = strokes('double', { playing: 'one-note' });
    expect(one.map((each) => each.split(' ')[0])).toEqual(['C4', 'C4', 'rest', 'C4', 'C4', 'C4', 'C4', 'C4', 'C4']);
    expect(one.map((each) => each.split(' ')[1])).toEqual(strokes('double', {}).map((each) => each.split(' ')[1]));
  });
});
