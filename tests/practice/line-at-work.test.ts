/** One line being worked at, by key and by beat: what is heard, what is said, what is kept. */
import { describe, expect, it } from 'vitest';
import { startAt } from '../../src/ladder/rule/climb.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { decide } from '../../src/practice/line/line-events.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { marksNow, tempoNow } from '../../src/practice/line/line-state.ts';
import { DRONE, EXERCISE, type Rehearsal, rehearse } from './rehearsal.ts';

const PATTERN = { ...EXERCISE, pattern: '1 2 3 4 5 4 3 2 | 1', notesPerBeat: 2 };
const LINE = { exercise: 'five-notes', articulation: 'double', key: 'C' };
const { drill } = prepareFor(instrumentNamed('cornet')!, 440)(PATTERN, LINE);

/** A beat is heard, as the sound tells it. */
const beat = ({ apply, state }: Rehearsal, span: string, bar: number, at: number, lateBy = 0): void => {
  const report = { tell: 'beat', span, bar, beat: at, beatsInBar: 4, lateBy } as const;
  apply(() => decide(state(), { type: 'sound', report }));
};

const chains = ({ commands }: Rehearsal) =>
  commands.flatMap((command) => (command.ask === 'play' || command.ask === 'then' ? [command.spans] : []));

describe('a beat', () => {
  it('that comes more than 60 ms late is not drawn, but a bar line always counts', () => {
    const one = rehearse();
    one.press('start-pause');
    const { id } = one.until('repetition');
    beat(one, id, 0, 1);
    beat(one, id, 0, 2, 61);
    expect(one.state().heard?.beat).toBe(1);
    beat(one, id, 0, 3, 60);
    expect(one.state().heard).toEqual({ span: id, bar: 0, beat: 3, beatsInBar: 4 });
    beat(one, id, 1, 0, 500);
    expect(one.state().heard?.bar).toBe(1);
  });

  it('of a new span counts however late it is', () => {
    const one = rehearse();
    one.press('start-pause');
    const [countIn, repetition] = one.state().chain;
    beat(one, countIn!.id, 0, 0);
    beat(one, repetition!.id, 0, 0, 500);
    expect(one.state().phase).toBe('playing');
  });

  it('of a span that was replaced says nothing any more', () => {
    const one = rehearse();
    one.press('start-pause');
    const breath = one.state().chain.find(({ role }) => role === 'breath')!;
    one.until('repetition');
    one.press('faster');
    beat(one, breath.id, 0, 0);
    expect(one.state()).toMatchObject({ phase: 'playing', heard: { beat: 0 } });
  });

  it('leads through count-in, playing, breathing and waiting; slowly first where it alternates', () => {
    const phases = (one: Rehearsal, bars: number) => {
      one.press('start-pause');
      return Array.from({ length: bars }, () => {
        one.bar();
        return one.state().phase;
      });
    };
    expect(phases(rehearse({ exercise: { bars: 1 } }), 4)).toEqual(['count-in', 'playing', 'breathing', 'waiting']);
    const alternate = rehearse({ exercise: { bars: 1 }, rule: { order: 'alternate', start: 100 } });
    expect(phases(alternate, 5)).toEqual(['count-in', 'slow', 'count-in', 'playing', 'breathing']);
  });
});

describe('the end of the sound', () => {
  it('stops the line, with what was heard counted; the end of another chain does not', () => {
    const one = rehearse({ rule: { start: 60 } });
    one.press('start-pause');
    const { id } = one.until('repetition');
    const end = (span: string) =>
      one.apply(() => decide(one.state(), { type: 'sound', report: { tell: 'end', span } }));
    end(id);
    expect(one.state().phase).toBe('playing');
    end(one.state().chain.at(-1)!.id);
    // One bar of four quarters at 60; arithmetic.
    expect(one.state()).toMatchObject({ phase: 'stopped', heard: null, chain: [], played: 4 });
  });

  it('what is told of the way out is not the line’s', () => {
    const one = rehearse();
    one.press('start-pause');
    one.until('repetition');
    const before = one.state();
    const report = { tell: 'output', state: 'silent', sentence: 'No device.' } as const;
    one.apply(() => decide(before, { type: 'sound', report }));
    expect(one.state()).toEqual(before);
  });
});

describe('a reminder about ease', () => {
  // Eight bars of four quarters at 60 are 32 s, more than the 20 after which the first may come; arithmetic.
  it('comes up in a breathing bar and is gone when the next repetition begins; the next one waits its time', () => {
    const one = rehearse({ exercise: { bars: 8, cues: ['low shoulders'] }, rule: { start: 60 } });
    one.press('start-pause');
    one.until('repetition');
    expect(one.state().cueing.cue).toBeNull();
    one.until('breath');
    expect(one.state().cueing.cue).toBe('low shoulders');
    one.press('clean');
    one.until('count-in');
    expect(one.state().cueing.cue).toBe('low shoulders');
    one.until('repetition');
    expect(one.state().cueing).toMatchObject({ cue: null, shownAt: 32 });
    one.until('breath');
    expect(one.state().cueing.cue).toBeNull();
  });
});

describe('a mark that cannot count', () => {
  it('is answered with why', () => {
    const { press, until, bar, answer, drafts } = rehearse();
    press('clean');
    expect(answer()).toMatch(/space starts/);
    press('start-pause');
    until('count-in');
    press('clean');
    expect(answer()).toBe('The mark is due once you play.');
    until('wait');
    press('clean');
    press('tense');
    expect(answer()).toBe('This repetition is marked; u takes the mark back.');
    until('breath');
    press('clean', 'clean');
    expect(answer()).toBe('This repetition is marked; u takes the mark back.');
    bar();
    press('missed');
    expect(answer()).toBe('The mark is due once you play.');
    press('start-pause', 'clean');
    expect(answer()).toMatch(/space starts/);
    expect(drafts).toHaveLength(2);
  });

  it('after a pause in the soft click that waits, the mark is still due', () => {
    const { press, until, drafts } = rehearse();
    press('start-pause');
    until('wait');
    press('start-pause', 'tense');
    expect(drafts).toMatchObject([{ kind: 'mark', mark: 'tense', by: 'player' }]);
  });

  it('waits for the disk: what is pressed meanwhile asks for nothing more', () => {
    const { press, until, state, commands } = rehearse();
    press('start-pause');
    until('breath');
    const asked = decide(state(), { type: 'do', action: 'clean' });
    for (const action of ['clean', 'faster', 'undo'] as const)
      expect(decide(asked.state, { type: 'do', action }).effects).toEqual([]);
    const moved = decide(state(), { type: 'do', action: 'faster' });
    expect(decide(moved.state, { type: 'do', action: 'clean' }).effects).toEqual([]);
    press('clean');
    const taken = decide(state(), { type: 'do', action: 'undo' });
    expect(decide(taken.state, { type: 'do', action: 'faster' }).effects).toEqual([]);
    // Once the disk has answered that it cannot, the key is asked again.
    const free = decide(taken.state, { type: 'not-kept' });
    expect(decide(free.state, { type: 'do', action: 'undo' }).effects).toHaveLength(1);
    expect(commands.at(-1)).toMatchObject({ ask: 'then' });
  });
});

describe('what a mark is kept with', () => {
  it('its line, its tempo and beat, and the key that sounded where all keys share a ladder', () => {
    const shared = { exercise: 'five-notes', articulation: 'slurred', key: 'all keys' };
    const kept = (opening: object) => {
      const { press, until, drafts } = rehearse({ opening, rule: { start: 80 } });
      press('start-pause');
      until('breath');
      press('clean');
      return drafts[0];
    };
    expect(kept({ line: shared, key: 'G' })).toEqual({
      kind: 'mark',
      ...shared,
      mark: 'clean',
      bpm: 80,
      cleanUp: 3,
      missedDown: 1,
      tenseDown: 2,
      next: 80,
      beat: '1/4',
      notesPerBeat: 4,
      by: 'player',
      sounded: 'G',
    });
    expect(kept({})).not.toHaveProperty('sounded');
  });

  it('only marks are counted as marks, though a tempo by hand is kept with them', () => {
    const { press, until, state } = rehearse();
    press('start-pause');
    until('breath');
    press('tense', 'faster');
    expect(state().kept).toHaveLength(2);
    expect(marksNow(state())).toEqual(['tense']);
  });
});

describe('the tempo by hand', () => {
  it('goes one rung up and one down, says where the ladder ends, and keeps the best', () => {
    const { press, climb, answer, drafts, rungs } = rehearse({
      rule: { floor: 60, top: 64 },
      opening: { climb: startAt(62, 60) },
    });
    const [low] = rungs();
    press('slower', 'slower');
    expect(climb()).toEqual(startAt(low!, 60));
    const { length } = drafts;
    press('slower');
    expect(answer()).toBe('This is the lowest rung.');
    while (climb().bpm < rungs().at(-1)!) press('faster');
    press('faster');
    expect(answer()).toBe('This is the top rung.');
    expect(drafts.length).toBe(length + rungs().length - 1);
    expect(climb()).toEqual(startAt(rungs().at(-1)!, 60));
  });

  it('where the line was opened and its best are rungs, though the ladder has neither', () => {
    const { rungs } = rehearse({ opening: { climb: startAt(61.5, 71.5) } });
    expect(rungs()).toContain(61.5);
    expect(rungs()).toContain(71.5);
    expect(rehearse({ opening: { climb: startAt(61.5) } }).rungs()).not.toContain(null);
  });

  it('the tempo that sounds is shown until the bar line, the next one while breathing and waiting', () => {
    const { press, until, state, climb } = rehearse({ rule: { cleanUp: 1, missedDown: 1, start: 80 } });
    press('start-pause');
    until('count-in');
    press('faster');
    expect(climb().bpm).toBeGreaterThan(80);
    expect(tempoNow(state())).toBe(80);
    const { bpm } = until('repetition').tempo;
    press('missed');
    expect(climb().bpm).toBeLessThan(bpm);
    expect(tempoNow(state())).toBe(bpm);
    until('breath');
    expect(tempoNow(state())).toBe(climb().bpm);
  });
});

describe('the drone of a line', () => {
  const droneOf = ({ commands }: Rehearsal) =>
    commands.map((command) => (command.ask === 'drone' ? (command.drone ? 'drone' : 'no drone') : command.ask));

  it('where the exercise has one, comes with the click and goes with it', () => {
    const one = rehearse({ exercise: { drone: { voices: ['tonic'], tuning: 'just' } } });
    expect(one.state().droneState).toBe('waits');
    one.press('start-pause', 'start-pause', 'start-pause');
    expect(droneOf(one)).toEqual(['drone', 'play', 'stop', 'no drone', 'drone', 'play']);
    one.press('drone', 'start-pause', 'start-pause');
    expect(droneOf(one).slice(6)).toEqual(['no drone', 'stop', 'play']);
  });

  it('where it has none, is not asked for', () => {
    const one = rehearse();
    expect(one.state().droneState).toBe('off');
    one.press('start-pause', 'start-pause');
    expect(droneOf(one)).toEqual(['play', 'stop']);
    one.press('drone');
    expect(one.commands.at(-1)).toEqual({ ask: 'drone', drone: DRONE });
  });
});

describe('the pattern as a model', () => {
  it('sounds in the repetition only, from the next one on, until it is put off', () => {
    const one = rehearse({ opening: { drill, line: LINE } });
    const models = () =>
      chains(one)
        .at(-1)!
        .map(({ role, model }) => (model.length > 0 ? `${role} with notes` : role));
    one.press('start-pause');
    expect(models()).toEqual(['count-in', 'repetition', 'breath', 'wait']);
    one.press('model');
    expect(one.answer()).toBe('The pattern sounds softly from the next repetition.');
    one.until('breath');
    one.press('clean');
    expect(models()).toEqual(['count-in', 'repetition with notes', 'breath', 'wait']);
    one.press('model');
    expect(one.answer()).toBe('You play alone from the next repetition.');
    one.until('breath');
    one.press('clean');
    expect(models()).toEqual(['count-in', 'repetition', 'breath', 'wait']);
  });

  it('is not there for the player’s own material, which is said', () => {
    const { press, state, answer } = rehearse();
    press('model');
    expect(state().model).toBe(false);
    expect(answer()).toBe('Only a pattern that is written out can be heard.');
  });
});
