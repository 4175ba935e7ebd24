/** Many students' journals and reports: who needs what, and what a broken or hostile file may do. */
import { describe, expect, it } from 'vitest';
import { reportPage } from '../../src/review/report/report-page.ts';
import { practiceReport } from '../../src/review/report/practice-report.ts';
import { summaryIn } from '../../src/review/students/report-summary.ts';
import { recentEntries } from '../../src/review/students/recent-entries.ts';
import {
  type Student,
  byNeed,
  isUnread,
  studentOfJournal,
  studentOfReport,
} from '../../src/review/students/student.ts';
import { studentsPage } from '../../src/review/students/students-page.ts';
import { writer } from '../journal/entries.ts';

const DAYS = { from: '2026-11-01', to: '2026-11-28' };
const write = writer();
const marks = (mark: 'clean' | 'missed', count: number, day: string) =>
  Array.from({ length: count }, () => write.mark(mark, 80, 80, { day }));
const text = (entries: readonly object[]): string => entries.map((entry) => `${JSON.stringify(entry)}\n`).join('');

function student(name: string, journal: string): Student {
  const one = studentOfJournal(name, journal, DAYS, new Map());
  if (isUnread(one)) throw new Error(one.reason);
  return one;
}

const steady = text(marks('clean', 15, '2026-11-27'));
const stuck = text([...marks('clean', 5, '2026-11-27'), ...marks('missed', 15, '2026-11-27')]);
const away = text(marks('clean', 15, '2026-11-10'));

describe('who needs what', () => {
  it('who has not played for a week comes first, then who mostly misses, then the others', () => {
    const sorted = byNeed([student('steady', steady), student('stuck', stuck), student('away', away)]);
    expect(sorted.map(({ name, needs }) => [name, needs[0]?.said])).toEqual([
      ['away', 'has not played for 18 days'],
      ['stuck', '25 % clean in 20 marks: five-notes, single, Bb'],
      ['steady', undefined],
    ]);
  });

  it('a report says the same as the journal that it was made from', () => {
    const { entries } = recentEntries(stuck, DAYS.from);
    const page = reportPage(practiceReport(entries, new Map(), { ...DAYS, notes: true, tension: true }));
    const one = studentOfReport('stuck', page, DAYS.to);
    expect(one).toEqual(student('stuck', stuck));
  });
});

describe('a journal', () => {
  it('is read from its first day on, whatever its order, and a bad line is counted', () => {
    const [old, ...rest] = [...marks('clean', 1, '2025-01-01'), ...marks('clean', 2, '2026-11-27')];
    const read = recentEntries(text([...rest.toReversed(), old!, { v: 'constructor' }]), DAYS.from);
    expect(read).toEqual({ entries: rest, lines: 4, bad: 1 });
  });

  it('in which no line is an entry is none; an empty one is somebody who did not play', () => {
    expect(studentOfJournal('x', '\u0000\u0001\nhello\n', DAYS, new Map())).toEqual({
      name: 'x',
      reason: 'no line of it is an entry',
    });
    expect(student('new', '').needs[0]?.said).toBe('nothing played up to 2026-11-28');
  });
});

describe('a page of somebody else’s', () => {
  const carrying = (value: unknown): string =>
    `<meta name="standside-summary" content="${JSON.stringify(value).replaceAll('"', '&quot;')}"/>`;
  const whole = { v: 1, from: '2026-11-01', to: '2026-11-28', days: 0, lastDay: null, minutes: 0, marks: 0, lines: [] };

  it.each<[string, string]>([
    ['no report', '<html></html>'],
    ['no JSON', '<meta name="standside-summary" content="{"/>'],
    ['another version', carrying({ ...whole, v: 2 })],
    ['minutes as text', carrying({ ...whole, minutes: '7' })],
    ['no day', carrying({ ...whole, to: 'today' })],
    ['a line without marks', carrying({ ...whole, lines: [{ title: 'x' }] })],
  ])('is left out: %s', (_, page) => {
    expect(summaryIn(page)).toBeNull();
    expect(studentOfReport('x', page, DAYS.to)).toMatchObject({ name: 'x' });
    expect(isUnread(studentOfReport('x', page, DAYS.to))).toBe(true);
  });

  it('that is whole counts, and its words are only words on the page of all', () => {
    const line = { title: '<script>x</script>', articulation: 'single', key: 'C', marks: 20, clean: 0.1, best: null };
    const one = studentOfReport('<b>\u202e', carrying({ ...whole, lines: [{ ...line, target: 90 }] }), DAYS.to);
    if (isUnread(one)) throw new Error(one.reason);
    const page = studentsPage([one], [{ name: '<i>', reason: '<u>' }], DAYS.to);
    expect(page).not.toMatch(/<script|<b>|<i>|<u>|\u202e/);
    expect(page).toContain('&lt;script&gt;');
  });
});
