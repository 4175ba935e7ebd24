/** A sitting looked at closely: what goes over from one line to the next, what is said once, what stays as it was. */
import { describe, expect, it } from 'vitest';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { isRest } from '../../src/plan/today/plan-items.ts';
import { messageNow } from '../../src/practice/messages.ts';
import { crossingOf, withKnowledge } from '../../src/practice/sitting/line-speed.ts';
import { easeNow } from '../../src/practice/sitting/ease-remarks.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { writer } from '../journal/entries.ts';
import { DAY, firstStand, sit, standWith } from './daily-sitting.ts';
import { DISK_FULL, hear } from './keeping.ts';
import { EXERCISE } from './rehearsal.ts';

type Sat = ReturnType<typeof sit>;

function routineOf(exercises: string, blocks: string) {
  const text = `exercises: {${exercises}}\nparts: [{part: All, blocks: [${blocks}]}]\n`;
  const parsed = parseRoutine(text, 'own.yaml', () => ({ trouble: 'none' }));
  if ('troubles' in parsed) throw new Error(JSON.stringify(parsed.troubles));
  return parsed.routine;
}

const sitWith = (exercises: string, blocks: string): Sat => sit([], standWith(routineOf(exercises, blocks), []));

const ROTATING =
  'five: {pattern: "1 2 3 2 | 1", keys: [C, G], articulations: [single], rotate: {order: own, change: repetition}}';

const heardTo = ({ program }: Sat, ...roles: readonly ('count-in' | 'repetition' | 'breath')[]): void =>
  roles.forEach((role) => void hear(program, role));

describe('a key that changes by itself', () => {
  it('takes the drone over to its own tonic, where it sounds; a silent one stays silent', () => {
    const tonics = (withDrone: boolean) => {
      const sat = sitWith(ROTATING, 'five: 5');
      sat.press('open', 'start-pause');
      if (withDrone) sat.press('drone');
      const before = sat.practice()!;
      heardTo(sat, 'count-in', 'repetition', 'breath');
      sat.press('clean');
      expect(sat.practice()!.key).not.toBe(before.key);
      return sat.commands().flatMap((command) => (command.ask === 'drone' ? [command.drone?.tonic ?? null] : []));
    };
    const [first, second] = tonics(true).slice(-2);
    expect(first).not.toBeNull();
    expect(second).not.toBeNull();
    expect(second).not.toBe(first);
    expect(tonics(false).filter((tonic) => tonic !== null)).toEqual([]);
  });

  it('leaves the bars to breathe whole', () => {
    const sat = sitWith(ROTATING.replace('rotate:', 'breath: 2, rotate:'), 'five: 5');
    sat.press('open', 'start-pause');
    heardTo(sat, 'count-in', 'repetition', 'breath');
    sat.press('clean');
    expect(sat.commands().at(-1)).toMatchObject({ ask: 'then', cut: false });
  });

  it('is not gone back from by taking an early verdict back', () => {
    const sat = sitWith(ROTATING, 'five: 5');
    sat.press('open', 'start-pause');
    heardTo(sat, 'count-in', 'repetition', 'breath');
    sat.press('clean');
    const { key } = sat.practice()!;
    heardTo(sat, 'count-in', 'repetition');
    sat.press('clean', 'undo');
    expect(sat.practice()).toMatchObject({ key, due: { early: null } });
    sat.press('undo');
    expect(sat.practice()!.key).not.toBe(key);
  });
});

describe('what came round', () => {
  it('is kept once, however often the clock is stopped and started', () => {
    const sat = sitWith('five: {pattern: "1 2 3 2 | 1", keys: [C, G, F]}', 'five: 5');
    const draws = () => sat.records().filter(({ kind }) => kind === 'draw').length;
    sat.press('open', 'start-pause');
    expect(draws()).toBe(1);
    sat.press('start-pause', 'start-pause', 'pause-block', 'start-pause');
    heardTo(sat, 'count-in', 'repetition', 'breath');
    sat.press('clean');
    expect(draws()).toBe(1);
  });

  it('stays on the stand when a sitting that was left in its first second is gone on with', () => {
    const own = routineOf('five: {pattern: "1 2 3 2 | 1", keys: [C, G, F, D]}', 'five: 5');
    const first = sit([], standWith(own, []));
    first.press('open', 'start-pause');
    const { key } = first.practice()!;
    first.press('leave');
    const again = sit(first.records(), standWith(own, first.records()));
    again.press('go-on');
    expect(again.item()).toMatchObject({ played: 0, begun: true });
    expect(again.practice()!.key).toBe(key);
  });
});

describe('a block without notes that has a drone', () => {
  it('lies on the stand with it', () => {
    const { press, stand } = sitWith('hum: {work: clock, drone: yes, keys: [F]}', 'hum: 5');
    press('open');
    const { view } = stand();
    expect(view.screen === 'block' && view.tone).toMatchObject({ line: { key: 'F' }, droneState: 'waits' });
  });
});

describe('the key that takes back', () => {
  it('takes an early verdict first, though a reading was told before it', () => {
    const sat = sit();
    const { press, key, pass, practice, records } = sat;
    press('open', 'play-block');
    pass(30);
    while (!practice()) press('next-block');
    press('start-pause');
    heardTo(sat, 'count-in', 'repetition');
    press('clean');
    key('tension', '2');
    const told = () => records().filter(({ kind }) => kind === 'tension').length;
    expect(told()).toBe(1);
    press('undo');
    expect([practice()!.due?.early, told()]).toEqual([null, 1]);
    press('undo');
    expect(told()).toBe(0);
  });

  it('says so where there is nothing on the screen to take back', () => {
    const { press, stand } = sitWith('hum: {work: clock, drone: yes}', 'hum: 5');
    press('open', 'undo');
    expect(messageNow(stand())).toEqual({ kind: 'answer', sentence: 'Nothing to take back here.' });
  });

  it('asks again by the title of the block that was played, where another plays the same exercise', () => {
    const { press, key, pass, stand } = sitWith(
      'a: {work: clock}, b: {work: clock}',
      '{play: a, title: First}, {play: b, title: Middle}, {play: a, title: Last}',
    );
    press('open', 'play-block');
    pass(30);
    press('next-block');
    expect(stand().sitting?.run.asked?.title).toBe('First');
    key('tension', '3');
    press('undo');
    expect(stand().sitting?.run.asked?.title).toBe('First');
  });

  it('leaves the question about another block that is asked by now', () => {
    const { press, key, pass, stand } = sit();
    press('open', 'play-block');
    pass(30);
    press('next-block');
    key('tension', '3');
    pass(30);
    press('next-block');
    const asked = stand().sitting?.run.asked;
    expect(asked).not.toBeNull();
    press('undo');
    expect(stand().sitting?.run.asked).toEqual(asked);
  });
});

describe('a note at the end', () => {
  it('is not lost to a second that passes while it is written', () => {
    const { press, key, pass, stand, screen } = sit();
    press('open', 'play-block');
    for (let k = 0; k < 40 && screen() !== 'end'; k += 1) press('next-block');
    press('note');
    for (const letter of 'low') key('note', letter);
    pass(3);
    expect(stand().view).toEqual({ screen: 'end', note: 'low' });
  });
});

describe('what is said', () => {
  it('of a full disk stands once among what was found, however many keys it costs', () => {
    const { press, program, stand } = sit();
    press('open');
    program.disk('full');
    press('play-block', 'next-block', 'play-block', 'next-block');
    expect(stand().notices.filter((sentence) => sentence === DISK_FULL)).toHaveLength(1);
  });

  it('in answer to a key is over after eight seconds, not sooner', () => {
    const { press, pass, stand } = sitWith('hum: {work: clock, drone: yes}', 'hum: 5');
    press('open', 'undo');
    pass(7);
    expect(stand().answer).not.toBeNull();
    pass(1);
    expect(stand().answer).toBeNull();
  });

  it('of ease is nothing while a rest is taken, whatever was told before it', () => {
    const { press, key, pass, stand, item } = sit();
    press('more-time', 'more-time', 'more-time', 'more-time', 'open', 'play-block');
    for (let k = 0; k < 40 && !isRest(item()!); k += 1) {
      pass(2);
      press('next-block');
      key('tension', '4');
    }
    expect(isRest(item()!)).toBe(true);
    expect(easeNow(stand())).toBeNull();
    press('next-block');
    expect(easeNow(stand())).not.toBeNull();
  });
});

describe('a second in which nothing runs and nothing is said', () => {
  it('leaves the program as it is: the screen need not be drawn', () => {
    const { pass, stand } = sit();
    const before = stand();
    pass(1);
    expect(stand()).toBe(before);
  });
});

describe('a block whose time is up in the middle of a repetition', () => {
  it('goes on to count with the next repetition, not with the bars that are left of this one', () => {
    const sat = sit();
    const { press, pass, practice, program, stand } = sat;
    press('open', 'play-block');
    while (!practice()) press('next-block');
    press('start-pause');
    heardTo(sat, 'count-in', 'repetition');
    pass(3000);
    expect(stand().sitting?.run.phase).toBe('over');
    const { span } = practice()!.heard!;
    const beat = { tell: 'beat', span, bar: 0, beatsInBar: 4, lateBy: 0 } as const;
    program.send({ type: 'sound', report: { ...beat, beat: 1 } });
    program.send({ type: 'sound', report: { ...beat, bar: 1, beat: 0 } });
    expect(stand().sitting?.run.phase).toBe('over');
    heardTo(sat, 'breath');
    press('tense');
    heardTo(sat, 'count-in');
    expect(stand().sitting?.run.phase).toBe('over');
    heardTo(sat, 'repetition');
    expect(stand().sitting?.run.phase).toBe('playing on');
  });
});

describe('what is known of speed', () => {
  it('says where triple takes over, as it does of double', () => {
    const write = writer();
    const entries = (['single', 'triple'] as const).flatMap((articulation) =>
      Array.from({ length: 40 }, (_, i) =>
        write.mark(i < 20 ? 'clean' : 'missed', (articulation === 'single' ? 90 : 110) + (i < 20 ? 0 : 14), 90, {
          exercise: EXERCISE.id,
          articulation,
          key: 'C',
          day: DAY,
        }),
      ),
    );
    const known = withKnowledge({ ...firstStand([]).known, lines: Object.fromEntries(foldAll(entries).lines) });
    const found = crossingOf(known, { ...EXERCISE, articulations: ['single', 'triple'] }, 'C');
    expect(found?.sentence).toMatch(/triple/);
  });

  it('and was learnt while playing is not replaced by what was worked out at the start', () => {
    const { program, stand } = sit();
    const early = withKnowledge(firstStand([]).known).knowledge;
    program.send({ type: 'learnt', knowledge: early });
    const { knowledge } = stand().known;
    program.send({ type: 'learnt', knowledge: { ...early } });
    expect(stand().known.knowledge).toBe(knowledge);
  });
});
