/** Keys, beats and reports that come at a moment when they mean nothing, or something else. */
import { describe, expect, it } from 'vitest';
import { messageNow } from '../../src/practice/messages.ts';
import { isSounding } from '../../src/practice/sitting/sitting.ts';
import { sit } from './daily-sitting.ts';
import { hear } from './keeping.ts';
import { rehearse } from './rehearsal.ts';

type Sat = ReturnType<typeof sit>;

/** Playing, with the first block that is no ladder and has a key of its own on the stand. */
function onTone(): Sat {
  const sat = sit();
  sat.press('open', 'play-block');
  for (let k = 0; k < 40; k += 1) {
    const { view } = sat.stand();
    if (view.screen === 'block' && view.tone) return sat;
    sat.press('next-block');
  }
  throw new Error('no block with a tone');
}

function onLine(): Sat {
  const sat = sit();
  sat.press('open', 'play-block');
  while (!sat.practice()) sat.press('next-block');
  return sat;
}

describe('a block without a ladder', () => {
  it('is left alone by the keys of a line, its drone too', () => {
    const { press, stand, program } = onTone();
    const { view } = stand();
    const { length } = program.effects;
    press('clean', 'tense', 'missed', 'faster', 'slower', 'model', 'way');
    expect(stand().view).toEqual(view);
    expect(program.effects).toHaveLength(length);
    press('drone');
    expect(stand().view).not.toEqual(view);
  });

  it('takes no harm from a beat of the line before it that comes late, when its time is up', () => {
    const { pass, program, stand } = onTone();
    pass(1200);
    expect(stand().sitting?.run.phase).toBe('over');
    const report = { tell: 'beat', span: '1-repetition', bar: 0, beat: 0, beatsInBar: 4, lateBy: 0 } as const;
    program.send({ type: 'sound', report });
    expect(stand().sitting?.run.phase).toBe('over');
  });
});

describe('the way out', () => {
  it('is told of as it is: silent with the reason, and sounding again', () => {
    const { program, stand } = sit();
    const tell = (state: 'silent' | 'sounding', sentence: string) =>
      program.send({ type: 'sound', report: { tell: 'output', state, sentence } });
    tell('silent', 'The headphones were taken away.');
    expect(stand().output).toEqual({ state: 'silent', sentence: 'The headphones were taken away.' });
    expect(messageNow(stand())).toEqual({ kind: 'sound', sentence: 'The headphones were taken away.' });
    tell('sounding', 'Sound again.');
    expect(stand().output).toEqual({ state: 'sounding', sentence: 'Sound again.' });
    expect(messageNow(stand())).toBeNull();
  });
});

describe('a drone without a click', () => {
  it('counts as sound: there is something to silence', () => {
    const { press, stand } = onLine();
    expect(isSounding(stand())).toBe(false);
    press('drone');
    expect(isSounding(stand())).toBe(true);
    press('drone');
    expect(isSounding(stand())).toBe(false);
  });
});

describe('what came round', () => {
  it('is kept once, with the clock; the marks after it keep nothing but themselves', () => {
    const sat = onLine();
    const kept = () => sat.program.effects.flatMap((effect) => (effect.type === 'keep' ? [effect.happening.kind] : []));
    const draws = () => kept().filter((kind) => kind === 'draw').length;
    const before = draws();
    sat.press('play-block', 'start-pause');
    const played = draws();
    expect(played - before).toBeLessThanOrEqual(1);
    for (const role of ['count-in', 'repetition', 'breath'] as const) hear(sat.program, role);
    sat.press('tense');
    expect(draws()).toBe(played);
    expect(sat.program.effects.filter((effect) => typeof effect !== 'object')).toEqual([]);
  });
});

describe('what is said of ease', () => {
  it('is a message of its own kind, when nothing more pressing is there to say', () => {
    const { press, key, pass, stand } = sit();
    press('open', 'play-block');
    for (const level of ['3', '4']) {
      pass(1);
      press('next-block');
      key('tension', level);
    }
    pass(9);
    expect(messageNow(stand())).toMatchObject({ kind: 'ease', sentence: expect.stringMatching(/^Two high readings/) });
  });
});

describe('a full disk', () => {
  it('takes a missed half way for nothing: the repetition goes on to its bar to breathe, in every exercise', () => {
    for (const noMark of ['wait', 'repeat', 'clean'] as const) {
      const { press, until, bar } = rehearse({ diskFull: true, exercise: { noMark, bars: 3 } });
      press('start-pause');
      until('repetition');
      press('missed');
      expect([bar(), bar(), bar()].map((sounded) => sounded?.span.role)).toEqual([
        'repetition',
        'repetition',
        'breath',
      ]);
    }
  });
});
