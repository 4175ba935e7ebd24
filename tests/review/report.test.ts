import { lineName } from '../../src/ladder/line.ts';
import { dateOf, mondayOf } from '../../src/common/days.ts';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { toCsv } from '../../src/journal/csv-export.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { DEFAULT_RULE, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';
import { PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';

import { type Stand, openStand } from '../../src/practice/stand.ts';
import { plainText } from '../../src/ui/paint.ts';
import { drawScreen } from '../../src/ui/screens/all-screens.ts';
import { coverageOf } from '../../src/review/coverage.ts';
import { bar, drawReport, spark } from '../../src/review/report-text.ts';
import { reportOf } from '../../src/review/weeks-report.ts';
import { linesOver, seriesOf } from '../../src/review/line-weeks.ts';
import { weeksOf } from '../../src/review/calendar-weeks.ts';
import { DRONE } from '../practice/rehearsal.ts';
import { LINE, writer } from '../journal/entries.ts';

const DAY = 86_400_000;
const TODAY = '2026-11-25';

const STUDY: Exercise = {
  id: 'five-notes',
  name: 'five-notes',
  file: 'own',
  title: 'Five-note study',
  kind: 'technique',
  material: null,
  pattern: '1 2 3 4 5 4 3 2 | 1',
  scale: 'major',
  meter: COMMON_TIME,
  beat: QUARTER,
  notesPerBeat: 4,
  bars: 2,
  breathBars: 1,
  countInBars: 1,
  noMark: 'wait',
  keys: ['Bb', 'F', 'C'],
  articulations: ['slurred', 'single'],
  ladder: DEFAULT_RULE,
  click: PLAIN_CLICK,
  cues: [],
};

/** Two weeks of a cornet player: a good day, then one with misses, then today. */
function played() {
  const write = writer(Date.parse('2026-11-10T17:00:00Z'));
  const marks = (bpm: number, next: number, ...all: readonly Mark[]) =>
    all.map((mark, index) => write.mark(mark, bpm, index === all.length - 1 ? next : bpm));
  const first = marks(88, 91, 'clean', 'clean', 'clean');
  write.sleep(8 * DAY);
  const second = marks(91, 91, 'missed', 'clean', 'tense', 'clean');
  write.sleep(7 * DAY);
  const third = [...marks(91, 94, 'clean', 'clean', 'clean'), write.mark('clean', 60, 60, { key: 'F' })];
  return foldAll([...first, ...second, ...third]);
}

it('a shared ladder still shows which keys were played', () => {
  const write = writer(Date.parse('2026-11-25T17:00:00Z'));
  const shared = (sounded: string, mark: Mark) => ({ ...write.mark(mark, 88, 88, { key: 'all keys' }), sounded });
  const fold = foldAll([shared('Bb', 'clean'), shared('F', 'missed')]);
  const cells = coverageOf(fold, STUDY, TODAY)
    .rows.flatMap((row) => row.cells)
    .filter(({ repetitions }) => repetitions > 0);
  expect(cells.map(({ key, clean }) => [key, clean])).toEqual([
    ['Bb', 1],
    ['F', 0],
  ]);
});

describe('weeks', () => {
  it(
    'start on Monday, as a calendar library has it (luxon, ISO 8601 weeks), leap years and turns of the year ' +
      'included',
    () => {
      for (let day = 10_000; day < 25_000; day += 13) {
        const date = DateTime.fromMillis(day * DAY, { zone: 'utc' });
        expect(dateOf(mondayOf(date.toISODate() ?? ''))).toBe(date.startOf('week').toISODate());
      }
    },
  );

  it('hold the share of clean ones, the days and the bests that stand', () => {
    expect(weeksOf(played(), TODAY, 4)).toEqual([
      { from: '2026-11-02', counts: { clean: 0, tense: 0, missed: 0 }, clean: null, days: 0, bests: 0 },
      { from: '2026-11-09', counts: { clean: 3, tense: 0, missed: 0 }, clean: 1, days: 1, bests: 0 },
      { from: '2026-11-16', counts: { clean: 2, tense: 1, missed: 1 }, clean: 0.5, days: 1, bests: 0 },
      { from: '2026-11-23', counts: { clean: 4, tense: 0, missed: 0 }, clean: 1, days: 1, bests: 1 },
    ]);
  });
});

describe('a line', () => {
  it('goes day by day', () => {
    const state = played().lines.get(lineName(LINE));
    expect(
      state && seriesOf(state).map(({ day, low, high, highestClean, clean }) => [day, low, high, highestClean, clean]),
    ).toEqual([
      ['2026-11-10', 88, 88, 88, 1],
      ['2026-11-18', 91, 91, 91, 0.5],
      ['2026-11-25', 91, 91, 91, 1],
    ]);
  });

  it('goes week by week, the most played first, with gaps', () => {
    expect(
      linesOver(played(), TODAY, 3).map(({ key, repetitions, highestClean, best }) => [
        key,
        repetitions,
        highestClean,
        best,
      ]),
    ).toEqual([
      ['Bb', 10, [88, 91, 91], 91],
      ['F', 1, [null, null, 60], null],
    ]);
  });
});

describe('coverage', () => {
  it('has a cell for each key in each articulation, never played ones included', () => {
    const { rows, played: share } = coverageOf(played(), STUDY, '2026-12-30');
    expect(share).toBeCloseTo(2 / 6);
    expect(rows.map(({ articulation }) => articulation)).toEqual(['slurred', 'single']);
    expect(rows[1]?.cells).toEqual([
      { key: 'Bb', articulation: 'single', repetitions: 10, clean: 0.8, best: 91, daysAgo: 35 },
      { key: 'F', articulation: 'single', repetitions: 1, clean: 1, best: null, daysAgo: 35 },
      { key: 'C', articulation: 'single', repetitions: 0, clean: null, best: null, daysAgo: null },
    ]);
  });
});

describe('the drawing', () => {
  it('is exact to an eighth of a cell', () => {
    expect([0, 1 / 16, 0.5, 1, 2].map((share) => bar(share, 2))).toEqual(['  ', '▏ ', '█ ', '██', '██']);
  });

  it('sets each week between the lowest and the highest', () => {
    expect(spark([60, null, 67, 74])).toBe('▁ ▅█');
    expect(spark([60, 60])).toBe('▄▄');
    expect(spark([null])).toBe(' ');
  });

  it('says everything in plain letters, as wide as the terminal', () => {
    const fold = played();
    const lines = drawReport(reportOf(fold, [STUDY], TODAY, 3), 80);
    expect(lines.join('\n')).toMatchInlineSnapshot(`
      "3 weeks to 2026-11-25

        week from   clean                       marks  days  bests
        2026-11-09  ████████████████████ 100 %      3     1      0
        2026-11-16  ██████████            50 %      4     1      0
        2026-11-23  ████████████████████ 100 %      4     1      1

      Highest clean tempo of each week, most played lines first
        five-notes · single · B♭  ▁██  from 88 to 91, 80 % clean
        five-notes · single · F     ▄  at 60, 100 % clean

      Keys and articulations
        Five-note study: 33 % of its keys and articulations played
                   B♭    F    C
        slurred     ·    ·    ·
        single     91    –    ·

        number: best in beats per minute · –: none held yet · ·: never played · °: not for four weeks"
    `);
    const narrow = drawReport(reportOf(fold, [STUDY], TODAY, 3), 24);
    expect(
      Math.max(...narrow.filter((line) => /^ {2}(single|slurred)/.test(line)).map((line) => line.length)),
    ).toBeLessThanOrEqual(24);
  });

  it('of nothing says what will be there', () => {
    expect(drawReport(reportOf(foldAll([]), [STUDY], TODAY, 3), 80)).toEqual([
      'No line was marked yet. The weeks show here once you mark a repetition clean, tense or missed.',
    ]);
  });
});

it('no tempo has more than two decimals, and those of the list of exercises do not run together', () => {
  const write = writer(Date.parse('2026-11-25T17:00:00Z'));
  const marks = [111.6178, 111.6178, 114.9663].map((next) => write.mark('clean', 111.6178, next));
  const fold = foldAll(marks);
  const decimals = /\d\.\d{3}/;
  const report = drawReport(reportOf(fold, [STUDY], TODAY, 4), 100).join('\n');
  expect(report).toContain('111.62');
  expect(report).not.toMatch(decimals);
  expect(toCsv(marks)).toContain('111.62');
  expect(toCsv(marks)).not.toMatch(/(?:111|114)\.\d{3}/);
  const lines = Object.fromEntries([...fold.lines.values()].map((state) => [lineName(state.line), state]));
  const study = { ...STUDY, articulations: ['single'] };
  const stand = openStand({
    today: TODAY,
    routines: [],
    records: [],
    exercises: [study],
    lines,
    prepare: () => ({ drone: DRONE, drill: null, remark: null }),
    notices: [],
    dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
  });
  const list: Stand = { ...stand, view: { screen: 'exercises' } };
  expect(plainText(drawScreen(list, { columns: 80, rows: 24, lettering: 'signs', foot: [] }))).toMatch(
    / 114\.97 111\.62 /,
  );
});
