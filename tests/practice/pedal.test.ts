/** A pedal with two buttons, and nothing else, from Today to the last screen. */
import { hasLadder } from '../../src/plan/routine/exercise.ts';
import { describe, expect, it } from 'vitest';
import { messageNow } from '../../src/practice/messages.ts';
import { sit } from './daily-sitting.ts';
import { hear } from './keeping.ts';

function pedalling() {
  const sat = sit();
  return {
    ...sat,
    forward: () => sat.press('pedal-forward'),
    back: () => sat.press('pedal-back'),
    phase: () => sat.stand().sitting?.run.phase,
    marks: () => sat.stand().marks.map(({ mark }) => mark),
  };
}

/** The first block of this screen, its clock not yet started. */
function at(screen: 'practice' | 'block') {
  const sat = pedalling();
  sat.forward();
  for (let k = 0; k < 30 && sat.screen() !== screen; k += 1) sat.press('next-block');
  expect(sat.screen()).toBe(screen);
  return sat;
}

describe('the pedal', () => {
  it('begins the day that is shown, after choosing where', () => {
    const { forward, back, stand, screen, item } = pedalling();
    back();
    expect(stand().day.row).toBe(1);
    const chosen = stand().day.plan?.items[1];
    forward();
    expect(screen()).not.toBe('today');
    expect(item()?.block).toBe(chosen?.block);
  });

  it('goes on with what was left open', () => {
    const { forward, press, stand, pass } = at('block');
    forward();
    pass(90);
    press('back');
    expect(stand().view.screen).toBe('today');
    forward();
    expect(stand().sitting).not.toBeNull();
    expect(stand().view.screen).not.toBe('today');
  });

  it('starts a line, marks it clean and missed, and goes on when the time is up', () => {
    const { program, forward, back, marks, practice, phase, pass, item } = at('practice');
    expect(practice()?.phase).toBe('ready');
    forward();
    expect(practice()?.phase).toBe('count-in');
    hear(program, 'count-in');
    forward();
    expect(messageNow(program.stand())?.sentence).toMatch(/due once you play/);
    hear(program, 'repetition');
    hear(program, 'breath');
    forward();
    expect(marks()).toEqual(['clean']);
    hear(program, 'count-in');
    hear(program, 'repetition');
    back();
    expect(marks()).toEqual(['clean', 'missed']);
    const before = item()?.block;
    for (let k = 0; k < 2000 && phase() === 'playing'; k += 1) pass(1);
    expect(phase()).toBe('over');
    forward();
    expect(item()?.block).not.toBe(before);
  });

  it('answers the question with a level raised button by button, or lets it pass', () => {
    const { forward, back, stand, records, phase, pass, screen } = at('block');
    const toEnd = () => {
      if (phase() === 'ready') forward();
      for (let k = 0; k < 2000 && phase() === 'playing'; k += 1) pass(1);
    };
    toEnd();
    expect(messageNow(stand())?.sentence).toMatch(/^How tense\? 0 none \.\.\. 4 very \(/);
    back();
    back();
    back();
    expect(messageNow(stand())?.sentence).toMatch(/^How tense\? 2 of 4: forward keeps it \(/);
    const here = screen();
    forward();
    expect(records().at(-1)).toMatchObject({ kind: 'tension', level: 2 });
    expect([screen(), phase()]).toEqual([here, 'over']);
    forward();
    expect(phase()).not.toBe('over');
  });

  it('comes round to no tension after the highest', () => {
    const { forward, back, phase, pass, stand } = at('block');
    forward();
    for (let k = 0; k < 2000 && phase() === 'playing'; k += 1) pass(1);
    for (let k = 0; k < 6; k += 1) back();
    expect(stand().sitting?.run.asked?.level).toBe(0);
  });

  it('stops the clock of a block and starts it again', () => {
    const { forward, back, phase } = at('block');
    forward();
    expect(phase()).toBe('playing');
    back();
    expect(phase()).toBe('paused');
    forward();
    expect(phase()).toBe('playing');
  });

  it('scrolls the weeks, chooses in the lists, and comes back to Today', () => {
    const { press, forward, back, stand, screen } = pedalling();
    press('exercises');
    back();
    expect(stand().choice.row).toBe(1);
    while (!hasLadder(stand().known.exercises[stand().choice.row]!)) back();
    forward();
    expect(screen()).toBe('practice');
    press('back', 'settings');
    forward();
    expect(screen()).toBe('today');
  });
});

describe('a question', () => {
  it('is asked until a minute of the next block was played, and all through a rest', () => {
    const { forward, phase, pass, stand, press } = at('block');
    forward();
    for (let k = 0; k < 2000 && phase() === 'playing'; k += 1) pass(1);
    const asked = () => messageNow(stand())?.kind === 'question';
    expect(asked()).toBe(true);
    press('next-block');
    const resting = stand().sitting?.run.items[stand().sitting!.run.at]?.kind === 'rest';
    expect(resting).toBe(false);
    if (phase() === 'ready') press('play-block');
    pass(59);
    expect(asked()).toBe(true);
    pass(2);
    expect(asked()).toBe(false);
  });
});
