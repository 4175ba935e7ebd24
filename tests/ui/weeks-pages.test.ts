/** The pages of the weeks as a player sees them, at every size and in plain letters; and what their keys do. */
import { describe, expect, it } from 'vitest';
import type { DayEntry } from '../../src/diary/entry.ts';
import type { Action } from '../../src/practice/stand.ts';
import { openStand, practiceOf } from '../../src/practice/stand.ts';
import { KEYS } from '../../src/ui/keys.ts';
import { plainText, widthOf } from '../../src/ui/paint.ts';
import { wholeScreen } from '../../src/ui/whole-screen.ts';
import { columnOf } from '../../src/ui/weeks/tempo-band.ts';
import { keeping, played } from '../practice/keeping.ts';
import { DRONE } from '../practice/rehearsal.ts';
import { EXERCISES, QUIET, TODAY, line, planted } from '../review/planted.ts';

const { lines } = planted([
  ...QUIET,
  { line: line('five-notes', 'double', 'Bb'), from: 90, gain: 0 },
  { line: line('thirds', 'slurred', 'F'), from: 70, gain: 0.012, until: 7 },
  { line: line('one-note', 'double', 'Bb'), from: 60, gain: 0.035 },
]);

const stamp = (id: string, day: string) => ({ v: 1, id, at: `${day}T18:00:00.000+00:00`, day }) as const;

const RECORDS: readonly DayEntry[] = [
  {
    ...stamp('01a213a6-aca0-7000-8000-02a229896c61', '2026-11-24'),
    kind: 'block',
    routine: 'mine',
    part: 'a',
    block: 'b',
    event: 'done',
    played: 1500,
    length: 1500,
    exercise: 'thirds',
  },
  { ...stamp('01a213a6-aca0-7000-8000-02a229896c62', '2026-11-24'), kind: 'tension', level: 3, exercise: 'thirds' },
  { ...stamp('01a213a6-aca0-7000-8000-02a229896c63', '2026-11-24'), kind: 'note', text: 'Air \u001b[31mfirst.' },
];

function sit() {
  const all = played(
    openStand({
      today: TODAY,
      routines: [],
      exercises: EXERCISES,
      lines,
      records: RECORDS,
      prepare: () => ({ drone: DRONE, drill: null, remark: null }),
      notices: [],
      dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
    }),
    keeping(TODAY),
  );
  const press = (...actions: readonly Action[]): void =>
    actions.forEach((action) => all.send({ type: 'do', action, key: '', now: 1 }));
  const type = (text: string): void =>
    [...text].forEach((key) => all.send({ type: 'do', action: 'type', key, now: 1 }));
  const drawn = (columns = 80, rows = 24, lettering: 'signs' | 'plain' = 'signs') =>
    wholeScreen(all.stand(), KEYS, { columns, rows }, lettering);
  return { ...all, press, type, drawn, screen: (columns = 80, rows = 24) => plainText(drawn(columns, rows)) };
}

const PAGES: readonly (readonly [name: string, actions: readonly Action[], shows: RegExp])[] = [
  ['lines', ['weeks'], /Stuck +Five-note study, B♭ double/],
  ['line', ['weeks', 'open'], /█ clean 9 times in 10/],
  ['coverage', ['weeks', 'coverage'], /number: best/],
  ['minutes', ['weeks', 'minutes'], /Tue 24 Nov +25/],
  ['bests', ['weeks', 'bests'], /notes\/s/],
];

const SIZES = [
  [60, 18],
  [80, 24],
  [120, 36],
  [200, 60],
] as const;

describe.each(PAGES)('the page of %s', (_, actions, shows) => {
  it.each(SIZES)('fits %i by %i, in signs and in plain letters', (columns, rows) => {
    const all = sit();
    all.press(...actions);
    for (const lettering of ['signs', 'plain'] as const) {
      const picture = all.drawn(columns, rows, lettering);
      expect(picture).toHaveLength(rows);
      for (const painted of picture) expect(widthOf(painted)).toBeLessThanOrEqual(columns);
      // oxlint-disable-next-line no-control-regex -- that none of them is there
      expect(plainText(picture)).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
      if (lettering === 'plain') expect(plainText(picture)).toMatch(/^[\x20-\x7e\n]*$/);
    }
    expect(all.screen(columns, rows)).toMatch(shows);
  });
});

describe('the first page', () => {
  it('has the three answers, each with the key that acts on it, and titles instead of file names', () => {
    const all = sit();
    all.press('weeks');
    const text = all.screen(120, 36);
    expect(text).toMatch(/Stuck +Five-note study, B♭ double: .*v: ways/);
    expect(text).toMatch(/Waits +Thirds up and down, F slurred: not for 6 weeks.*p: play it, c: which/);
    expect(text).toMatch(/Grows +One-note tonguing, B♭ double: \d+ to \d+ in 8 weeks.*g: see it/);
    expect(text).not.toMatch(/five-notes|one-note |thirds/);
  });

  it('has every line on one scale: equal shares of the way are equally far', () => {
    // By the definition of the geometric mean: half of the way from 60 to 240, in ratios, is 120.
    expect(columnOf(120, { start: 60, target: 240 }, 41)).toBe(20);
    expect(columnOf(50, { start: 60, target: 240 }, 41)).toBe(0);
    expect(columnOf(300, { start: 60, target: 240 }, 41)).toBe(40);
  });

  it('finds lines by typing, by exercise, by articulation and by kind', () => {
    const all = sit();
    all.press('weeks', 'find');
    all.type('one dou');
    expect(all.screen()).toMatch(/Find: one dou_/);
    expect(all.screen().match(/^[▶ ](One|Five|Thirds)/gm)).toEqual(['▶One']);
    all.send({ type: 'do', action: 'type', key: 'enter', now: 1 });
    all.press('back', 'articulation');
    expect(all.screen()).toContain('Only double');
    expect(all.screen().match(/^[▶ ](One|Five|Thirds).*double/gm)).toHaveLength(2);
    all.press('back', 'one-exercise');
    expect(all.screen()).toContain('Only Five-note study');
    all.press('back', 'one-kind');
    expect(all.screen()).toContain('Only technique');
    all.press('back', 'back');
    expect(all.stand().view.screen).toBe('today');
  });
});

describe('what acts on an answer', () => {
  it('opens the ways round the wall of what is stuck', () => {
    const all = sit();
    all.press('weeks', 'way');
    expect(all.stand().view.screen).toBe('ways');
    expect(practiceOf(all.stand())?.line).toEqual(line('five-notes', 'double', 'Bb'));
  });

  it('puts what waits on the stand', () => {
    const all = sit();
    all.press('weeks', 'waits');
    expect(practiceOf(all.stand())?.line).toEqual(line('thirds', 'slurred', 'F'));
  });

  it('shows what grows over time', () => {
    const all = sit();
    all.press('weeks', 'grows');
    expect(all.screen()).toMatch(/Weeks +One-note tonguing, B♭ double/);
    all.press('back');
    expect(all.stand().view).toMatchObject({ screen: 'weeks', page: 'lines' });
  });

  it('puts a cell of the coverage on the stand, or its exercise into today’s list', () => {
    const all = sit();
    all.press('weeks', 'coverage', 'down', 'key-after');
    expect(all.screen()).toContain('Five-note study, F single.');
    all.press('list');
    expect(all.stand().known.records.at(-1)).toMatchObject({ kind: 'list', items: [{ exercise: 'five-notes' }] });
    all.press('open');
    expect(practiceOf(all.stand())?.line).toEqual(line('five-notes', 'single', 'F'));
  });
});
