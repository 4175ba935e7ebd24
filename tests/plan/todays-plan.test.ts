/** What comes into a plan and what is left out, and how it is told. */
import { describe, expect, it } from 'vitest';
import { KEPT } from '../diary/kept.ts';
import type { BlockEntry } from '../../src/diary/entry.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import type { Routine } from '../../src/plan/routine/routine.ts';
import { ABOUT_ORDER } from '../../src/plan/today/blocks-in-turns.ts';
import { type Plan, isRest } from '../../src/plan/today/plan-items.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { type PlanAsked, todaysPlan, wrongMinutes } from '../../src/plan/today/todays-plan.ts';

const DAY = '2026-11-25';

function routineOf(text: string): Routine {
  const parsed = parseRoutine(text, 'r.yaml', () => ({ trouble: 'none' }));
  if ('troubles' in parsed) throw new Error(JSON.stringify(parsed.troubles));
  return parsed.routine;
}

const today = (part: string, block: string, change: Partial<BlockEntry> = {}): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: '',
  day: DAY,
  routine: 'r',
  part,
  block,
  event: 'done',
  played: 120,
  length: 120,
  exercise: null,
  ...change,
});

interface Asked extends Partial<Omit<PlanAsked, 'before'>> {
  readonly records?: readonly BlockEntry[];
}

const plan = (text: string, { records = [], ...asked }: Asked = {}): Plan =>
  todaysPlan(routineOf(text), { minutes: 60, seed: 1, ...asked, before: playedBefore(DAY, records, []) });

const told = ({ items }: Plan): readonly string[] => items.map(({ title, minutes }) => `${title} ${minutes}`);
const whyNot = ({ leftOut }: Plan): Readonly<Record<string, string>> =>
  Object.fromEntries(leftOut.map(({ block, reason }) => [block, reason]));

const FREE = 'limits: {same kind: 9, high load: 99}\nbreaks: none\n';

describe('minutes', () => {
  it.each([0.99, 600.01])('of %d are too few or too many', (minutes) => {
    expect(wrongMinutes(minutes)).toContain(`${minutes} minutes cannot be planned`);
  });

  it.each([1, 600])('of %d can be planned', (minutes) => {
    expect(wrongMinutes(minutes)).toBeNull();
  });
});

describe('the warm-up', () => {
  const text =
    `${FREE}exercises: {w: {}, v: {}, a: {}}\nparts:\n` +
    '  - {part: One, blocks: [a: 4, {play: w, minutes: 6, warm up: yes}]}\n' +
    '  - {part: Two, blocks: [{play: v, minutes: 4, warm up: yes}]}\n';

  it('comes first wherever the file has it', () => {
    expect(told(plan(text))).toEqual(['W 6', 'V 4', 'A 4']);
  });

  it('is the shortest, cut to what there is, where there is no time for more', () => {
    expect(told(plan(text, { minutes: 1 }))).toEqual(['V 1']);
    expect(plan(text, { minutes: 1 }).sentences[1]).toBe('Shortened to make room: V (1 of 4).');
    // The least of the shortest fits: nothing is cut below it.
    expect(told(plan(text, { minutes: 2 }))).toEqual(['V 2']);
  });

  it('needs not come where one was played today, or the chosen parts have none', () => {
    const records = [today('two', 'v', { event: 'left', played: 60, length: 240 })];
    expect(told(plan(text, { minutes: 1, records }))).toEqual([]);
    expect(told(plan(text, { minutes: 1, records: [today('two', 'v', { event: 'left', played: 0 })] }))).toEqual([
      'V 1',
    ]);
    const later =
      `${FREE}exercises: {w: {}, a: {}}\n` +
      'parts: [{part: One, warm up: yes, blocks: [w: 4]}, {part: Two, blocks: [a: 4]}]\n';
    expect(told(plan(later, { parts: ['two'] }))).toEqual(['A 4']);
  });
});

describe('what is left out', () => {
  it('says which limit it would break', () => {
    const hard = 'load: high, kind: articulation';
    const text =
      'limits: {same kind: 2, high load: 4}\nbreaks: none\n' +
      `exercises: {w: {kind: sound}, a: {${hard}}, b: {${hard}}, ` +
      'c: {kind: study}, d: {kind: study}, e: {kind: study}}\n' +
      'parts: [{part: One, warm up: yes, blocks: [w: 2]}, {part: Two, blocks: [{play: a, minutes: 4, least: 4}, ' +
      '{play: b, minutes: 4, least: 4}, {play: a, minutes: 6, least: 6}, ' +
      '{play: b, minutes: 5, least: 5, title: Long}]}, ' +
      '{part: Three, blocks: [c: 2, d: 2, e: 2]}]\n';
    const reasons = whyNot(plan(text));
    expect(Object.values(reasons).toSorted()).toEqual([
      'it would be more than 2 of its kind (study) in a row',
      'its 5 minutes are more high load than the limit of 4',
      'its 6 minutes are more high load than the limit of 4',
      'more than 4 high-load minutes would stand together',
    ]);
  });

  it('says so of a single minute in the singular', () => {
    const text =
      'limits: {high load: 0.5}\nbreaks: none\nexercises: {w: {}, a: {load: high}}\n' +
      'parts: [{part: One, blocks: [{play: w, minutes: 2, warm up: yes}, {play: a, minutes: 1, least: 1}]}]\n';
    expect(whyNot(plan(text))).toEqual({ a: 'its 1 minute is more high load than the limit of 0.5' });
  });

  it('says where time is short, for it or for the rest it needs', () => {
    const text =
      'breaks: 5 after 10\nlimits: {same kind: 9}\nexercises: {w: {}, a: {}, b: {}}\n' +
      'parts: [{part: One, blocks: [{play: w, minutes: 10, least: 10, warm up: yes}, ' +
      '{play: a, minutes: 4, least: 4}, ' +
      '{play: b, minutes: 9, least: 9}]}]\n';
    expect(whyNot(plan(text, { minutes: 17 }))).toEqual({
      a: 'no time left for it and the rest that it needs',
      b: 'no time left',
    });
    expect(told(plan(text, { minutes: 19 }))).toEqual(['W 10', 'Rest 5', 'A 4']);
  });

  it('has what was done today and no rests of the file', () => {
    const text = `${FREE}exercises: {w: {}, a: {}}\nparts: [{part: One, blocks: [w: 2, a: 4, rest: 3]}]\n`;
    const records = [today('one', 'w'), today('one', 'a', { event: 'skipped', played: 0 })];
    const found = plan(text, { records });
    expect(found.items).toEqual([]);
    expect(found.leftOut.map(({ title, reason }) => `${title}: ${reason}`)).toEqual([
      'W: done today',
      'A: skipped today',
    ]);
  });
});

describe('a plan in words', () => {
  const text =
    `${FREE}exercises: {w: {}, a: {material: The yellow book}, b: {material: The yellow book}}\n` +
    'parts: [{part: One, blocks: [{play: w, minutes: 2, warm up: yes}, ' +
    '{play: a, minutes: 8, least: 2}, rest: 2, {play: b, minutes: 8, least: 2}]}]\n';

  it('sums it up', () => {
    const [sentence, ...others] = plan(text, { minutes: 30 }).sentences;
    expect(sentence).toBe('30 minutes: 3 of 4 blocks, 18 minutes of work and one rest; 10 minutes are left over.');
    expect(others).toHaveLength(2);
    expect(others[0]).toMatch(/^Every block counts its minutes times how due, how weak and how wanted it is/);
    expect(others[1]).toBe(ABOUT_ORDER.blocked);
    expect(plan(text, { minutes: 21 }).sentences[0]).toBe(
      '21 minutes: 3 of 4 blocks, 18 minutes of work and one rest; 1 minute is left over.',
    );
    expect(plan(text, { minutes: 20 }).sentences[0]).toMatch(/and one rest\.$/);
    expect(plan(text, { minutes: 20.9 }).sentences[0]).toMatch(/and one rest\.$/);
  });

  it('says what was shortened, from half a minute on', () => {
    const small = plan(text, { minutes: 12, order: 'interleaved' });
    expect(small.sentences[0]).toMatch(/^12 minutes: 3 of 4 blocks, 12 minutes of work\.$/);
    expect(small.sentences[1]).toMatch(/^Shortened to make room: A \(\d of 8\), B \(\d of 8\)\.$/);
    expect(small.sentences.at(-1)).toBe(ABOUT_ORDER.interleaved);
    expect(small.order).toBe('interleaved');
  });

  it('names what has to be on the stand once', () => {
    expect(plan(text).materials).toEqual(['The yellow book']);
    expect(plan(text).minutes).toBe(60);
  });

  it('counts a block in turns once, and one block in the singular', () => {
    const turns = plan(`${FREE}exercises: {a: {}, b: {}}\nparts: [{part: A, warm up: no, blocks: [a: 6, b: 6]}]`, {
      order: 'interleaved',
      minutes: 12,
    });
    expect(turns.items).toHaveLength(4);
    expect(turns.sentences[0]).toBe('12 minutes: 2 of 2 blocks, 12 minutes of work.');
    expect(plan(`${FREE}exercises: {a: {}}\nparts: [{part: A, blocks: [a: 6]}]`).sentences[0]).toMatch(
      /^60 minutes: 1 of one block, 6 minutes of work; 54 minutes are left over\.$/,
    );
  });
});

describe('what stands in a plan', () => {
  const text =
    'breaks: 2 after 6\nlimits: {same kind: 9}\nexercises:\n' +
    '  w: {cues: [Low], breaths: 4, material: Sheet}\n' +
    '  a: {kind: study, keys: [C, G], articulations: [slurred, single]}\n' +
    'pools: {p: {title: The pool, every: 9, items: [a]}}\n' +
    'parts:\n  - part: One\n    warm up: yes\n    blocks: [{play: w, minutes: 6, cues: [First], at end: go on}]\n' +
    '  - part: Two\n    blocks: [{draw: p, minutes: 4, keys: G, articulations: single, load: high}, ' +
    '{do: Listen, minutes: 1}]\n';

  it('has what its block and its exercise say', () => {
    const [warm, rest, drawn, body] = plan(text).items;
    expect(warm).toEqual({
      part: 'one',
      block: 'w',
      title: 'W',
      kind: 'technique',
      minutes: 6,
      exercise: 'w',
      turn: null,
      reason: 'warm-up, always first',
      warmUp: true,
      highLoad: false,
      material: 'Sheet',
      cues: ['First', 'Low'],
      atEnd: 'go on',
      breaths: 4,
      keys: null,
      articulations: null,
    });
    expect(rest).toMatchObject({
      part: 'two',
      block: 'break',
      title: 'Rest',
      kind: 'rest',
      minutes: 2,
      exercise: null,
    });
    expect(rest).toMatchObject({
      warmUp: false,
      highLoad: false,
      material: null,
      cues: [],
      atEnd: 'wait',
      breaths: null,
    });
    expect(drawn).toMatchObject({ block: 'the-pool', title: 'A', kind: 'study', exercise: 'a', highLoad: true });
    expect(drawn).toMatchObject({ keys: ['G'], articulations: ['single'], warmUp: false });
    expect(body).toMatchObject({
      title: 'Listen',
      kind: 'body',
      exercise: null,
      material: null,
      cues: [],
      breaths: null,
    });
    expect(plan(text).items.map(isRest)).toEqual([false, true, false, false]);
  });

  it('keeps the title of a block that was given one', () => {
    const own = `${FREE}exercises: {a: {}}\nparts: [{part: A, blocks: [{play: a, title: Mine, kind: sound}]}]`;
    expect(plan(own).items[0]).toMatchObject({ title: 'Mine', kind: 'sound' });
  });
});
