/** Today in the player's hands: one part and only it, a proposal that stays, only what the file says is warm-up. */
import { describe, expect, it } from 'vitest';
import type { DayEntry } from '../../src/diary/entry.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { KEYS } from '../../src/ui/keys.ts';
import { plainText } from '../../src/ui/paint.ts';
import { wholeScreen } from '../../src/ui/whole-screen.ts';
import { routine, sit } from './daily-sitting.ts';

const parts = (all: ReturnType<typeof sit>): readonly string[] => [
  ...new Set(all.stand().day.plan?.items.map(({ part }) => part)),
];
const seen = (all: ReturnType<typeof sit>): string =>
  plainText(wholeScreen(all.stand(), KEYS, { columns: 100, rows: 30 }, 'signs'));

describe('a day narrowed to a part', () => {
  it('has that part and only it, each in its turn, and then all of it again', () => {
    const all = sit();
    const whole = all.stand().day.plan;
    for (const { id, title } of routine.parts) {
      all.press('part');
      expect(parts(all)).toEqual([id]);
      expect(seen(all)).toContain(`${routine.title}: ${title}`);
    }
    all.press('part');
    expect(all.stand().day.plan).toEqual(whole);
  });

  it('has no warm-up put before it that its part does not hold', () => {
    const all = sit();
    all.press('part', 'part', 'part');
    expect(all.stand().day.plan?.items.some(({ warmUp }) => warmUp)).toBe(false);
  });

  it('can be the parts still to come, once something was played', () => {
    const all = sit();
    all.press('part', 'open', 'play-block');
    all.pass(400);
    all.press('back');
    const rounds = routine.parts.length;
    for (let k = 0; k < rounds; k += 1) all.press('part');
    expect(seen(all)).toContain('parts still to come');
    expect(parts(all)).not.toContain(routine.parts[0]?.id);
    expect(parts(all).length).toBeGreaterThan(1);
    all.press('part');
    expect(all.stand().day.part).toBeNull();
  });
});

describe('today’s proposal', () => {
  it('stays what it is after each return, less what was done, until another is asked for', () => {
    const all = sit();
    const before = all.stand().day.plan?.items.map(({ block }) => block) ?? [];
    all.press('open', 'play-block');
    all.pass(10);
    all.press('back');
    expect(all.stand().day.plan?.items.map(({ block }) => block)).toEqual(before);
    expect(all.stand().day.plan?.items[0]?.reason).toBe('begun today, 0:10 played');
    all.press('exercises', 'back', 'weeks', 'back');
    expect(all.stand().day.plan?.items.map(({ block }) => block)).toEqual(before);
    all.press('more-time');
    expect(all.stand().day.plan?.minutes).toBe(30);
  });
});

describe('a warm-up', () => {
  const read = (text: string) => {
    const parsed = parseRoutine(text, 'a.yaml', () => ({ trouble: 'none' }));
    if ('troubles' in parsed) throw new Error(parsed.troubles[0]?.sentence);
    return parsed.routine.parts.map(({ blocks }) => blocks.map(({ warmUp }) => warmUp));
  };

  it('is only what the file says is one', () => {
    const exercises = 'exercises: {a: {}, b: {}, c: {}}\n';
    expect(read(`${exercises}parts: [{part: One, blocks: [a: 5, b: 5]}, {part: Two, blocks: [c: 5]}]`)).toEqual([
      [false, false],
      [false],
    ]);
    expect(
      read(`${exercises}parts: [{part: One, blocks: [a: 5, b: 5]}, {part: W, warm up: yes, blocks: [c: 5]}]`),
    ).toEqual([[false, false], [true]]);
    expect(read(`${exercises}parts: [{part: One, warm up: yes, blocks: [a: 5, {play: b, warm up: no}]}]`)).toEqual([
      [true, false],
    ]);
  });
});

describe('the note of the last day', () => {
  const note = (day: string, text: string, n: number): DayEntry => ({
    v: 1,
    id: `018bcfe5-0000-7000-8000-00000000000${n}`,
    at: `${day}T20:00:00Z`,
    day,
    kind: 'note',
    text,
  });

  it('is shown on Today, and an older or today’s own is not', () => {
    const all = sit([
      note('2026-11-20', 'The old one', 1),
      note('2026-11-24', 'Left hand \u001b[31mlighter', 2),
      note('2026-11-25', 'This morning', 3),
    ]);
    expect(seen(all)).toContain('Your note of Tuesday, 2026-11-24: Left hand \\u001b[31mlighter');
    expect(seen(all)).not.toMatch(/The old one|This morning/);
  });

  it('is not shown where the last day has none', () => {
    const all = sit([
      note('2026-11-20', 'The old one', 1),
      { ...note('2026-11-24', 'x', 2), kind: 'draw', pool: 'p', item: 'i' } as DayEntry,
    ]);
    expect(seen(all)).not.toContain('Your note');
  });
});

describe('own material on the stand', () => {
  it('shows what to get and the hard spot, and claims no notes a second', () => {
    const parsed = parseRoutine(
      'exercises:\n  page: {title: The march, material: "Blue folder, p. 12", spot: "bars 9 to 12, low C sharp"}\n' +
        '  known: {title: Known, material: Red folder, notes: 4}\n',
      'a.yaml',
      () => ({ trouble: 'none' }),
    );
    if ('troubles' in parsed) throw new Error(parsed.troubles[0]?.sentence);
    const all = sit();
    const { known } = all.stand();
    all.program.send({ type: 'read', read: { ...known, exercises: parsed.routine.exercises } });
    all.press('exercises', 'open');
    expect(seen(all)).toContain('On the stand: Blue folder, p. 12');
    expect(seen(all)).toContain('Hard spot: bars 9 to 12, low C sharp');
    expect(seen(all)).not.toContain('notes/s');
    all.press('back', 'exercises', 'down', 'open');
    expect(seen(all)).toMatch(/= 60 · 4\.0 notes\/s/);
  });
});

describe('Today', () => {
  it('says what came of an exercise that was kept, and that one waits', () => {
    const all = sit();
    all.program.send({ type: 'own', answer: { sentence: 'Page: kept.', written: { file: 'a', name: 'b' } } });
    expect(seen(all)).toContain('Page: kept.');
    all.press('new-exercise');
    all.key('type', 'a');
    all.key('type', 'escape');
    all.key('type', 'l');
    expect(seen(all)).toContain('An exercise that you were writing waits: n goes on with it.');
  });
});
