/** What the beginning of a repetition ends, and what it leaves: sentences, marks shown, reminders, bars counted. */
import { describe, expect, it } from 'vitest';
import { waysRound } from '../../src/ladder/wall/ways-round.ts';
import { isSilentBar } from '../../src/music/sound/click-strokes.ts';
import { PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';
import { beginWay } from '../../src/practice/line/way-being-played.ts';
import { happenedNow } from '../../src/practice/line/what-happened.ts';
import { type Rehearsal, rehearse } from './rehearsal.ts';

const shown = ({ state }: Rehearsal): string | null => happenedNow(state())?.outcome ?? null;
const ALTERNATE = { order: 'alternate', start: 100, cleanUp: 1 } as const;

describe('when a repetition begins', () => {
  it('the answer to the last key is over; through the count-in it can still be read', () => {
    const { press, until, answer } = rehearse();
    press('start-pause');
    until('count-in');
    press('clean');
    expect(answer()).toBe('The mark is due once you play.');
    until('repetition');
    expect(answer()).toBeNull();
  });

  it('what was said on opening the line is over, not sooner', () => {
    const { press, until, state } = rehearse({ opening: { remark: 'Alternate fingerings.' } });
    press('start-pause');
    until('count-in');
    expect(state().remark).toBe('Alternate fingerings.');
    until('repetition');
    expect(state().remark).toBeNull();
  });

  it('the last mark is shown no more, though it moved the ladder; a slow repetition begins too', () => {
    for (const rule of [{ cleanUp: 1 }, ALTERNATE]) {
      const one = rehearse({ rule });
      one.press('start-pause');
      one.until('breath');
      one.press('clean');
      one.until('count-in');
      expect(shown(one)).toBe('climbed');
      one.until('repetition');
      expect(shown(one)).toBeNull();
      expect(one.state().happened).toBeNull();
    }
  });

  it('nothing of the mark is shown after a pause, nor when the click starts again', () => {
    const one = rehearse({ rule: { cleanUp: 1 } });
    one.press('start-pause');
    one.until('breath');
    one.press('clean');
    expect(shown(one)).toBe('climbed');
    one.press('start-pause');
    expect(shown(one)).toBeNull();
    one.press('start-pause');
    expect(shown(one)).toBeNull();
  });

  it('a mark that was due after a pause is dropped by starting again', () => {
    const { press, until, state, drafts, answer } = rehearse();
    press('start-pause');
    until('breath');
    press('start-pause');
    expect(state().due).not.toBeNull();
    press('start-pause', 'clean');
    expect(drafts).toEqual([]);
    expect(answer()).toBe('The mark is due once you play.');
  });

  it('its bars count towards the bars of silence, those of a slow one too', () => {
    const click = { ...PLAIN_CLICK, silentBars: { play: 4, silent: 4 } };
    // Slowly two bars and at tempo two bars: the first pair is heard, the second silent, the third heard again.
    const { press, until } = rehearse({ exercise: { click }, rule: ALTERNATE });
    press('start-pause');
    const silent = Array.from({ length: 6 }, (_, k) => {
      const span = until('repetition');
      if (k % 2 === 1) {
        until('breath');
        press('tense');
      }
      return isSilentBar(span.click, 0) && isSilentBar(span.click, 1);
    });
    expect(silent).toEqual([false, false, true, true, false, false]);
  });
});

describe('a reminder about ease', () => {
  it('comes on a way round a wall too', () => {
    const one = rehearse({ exercise: { bars: 8, cues: ['low shoulders'] }, rule: { start: 60 } });
    const [way] = waysRound({ wall: 64, rungs: one.rungs(), tongued: true, notes: 9, beats: 4 });
    one.apply((practice) => beginWay(practice, way!, 64));
    one.press('start-pause');
    one.until('breath');
    expect(one.state().way).not.toBeNull();
    expect(one.state().cueing.cue).toBe('low shoulders');
  });

  it('is drawn anew after each repetition: two of four do not take turns for ever', () => {
    const cues = ['low shoulders', 'quiet corners', 'warm air', 'tall ribs'];
    // Each repetition lasts 128 s, more than the 90 between two reminders; arithmetic.
    const { press, until, state } = rehearse({ exercise: { bars: 32, cues }, rule: { start: 60 } });
    press('start-pause');
    const drawn = Array.from({ length: 8 }, () => {
      until('breath');
      press('tense');
      return state().cueing.cue;
    });
    expect(drawn).not.toContain(null);
    expect(new Set(drawn).size).toBeGreaterThan(2);
  });
});
