/** The page for a reader who was not there: whole, harmless, small, and with the journal's own numbers on it. */
import { execFileSync } from 'node:child_process';
import { linearRegression, mean, sum } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/diary/entry.ts';
import { dayPlus } from '../../src/common/days.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { type ReportAsked, practiceReport } from '../../src/review/report/practice-report.ts';
import { reportPage } from '../../src/review/report/report-page.ts';
import { routineAnswered } from '../../src/review/report/routine-answered.ts';
import { words } from '../../src/review/report/markup.ts';
import { writer } from '../journal/entries.ts';
import { EXERCISE } from '../practice/rehearsal.ts';
import { itWith } from '../programs.ts';

const ASKED: ReportAsked = { from: '2026-11-23', to: '2026-11-29', notes: false, tension: false };
const OF = { exercise: EXERCISE.id, articulation: 'slurred', key: 'C' };
const EXERCISES: ReadonlyMap<string, Exercise> = new Map([[EXERCISE.id, EXERCISE]]);
const write = writer();
const on = (day: string, mark: 'clean' | 'tense' | 'missed', bpm: number): Entry =>
  write.mark(mark, bpm, bpm, { ...OF, day });

const ENTRIES: readonly Entry[] = [
  on('2026-11-20', 'clean', 60),
  ...[1, 2, 3].map(() => on('2026-11-23', 'clean', 80)),
  on('2026-11-23', 'missed', 84),
  on('2026-11-25', 'clean', 84),
  { ...write.block('tone', 600), day: '2026-11-23' },
  { ...write.block('tone', 900), day: '2026-11-23' },
  { ...write.block('scales', 300), day: '2026-11-25', exercise: EXERCISE.id },
  { ...write.note('<img src=x onerror=alert(1)> \u001b[31m\u202e quiet'), day: '2026-11-25' },
  { ...write.tempo(1), kind: 'tension', level: 3, exercise: EXERCISE.id, day: '2026-11-25' } as unknown as Entry,
  on('2026-12-02', 'clean', 200),
];

const said = (asked: Partial<ReportAsked> = {}, entries = ENTRIES): string =>
  reportPage(practiceReport(entries, EXERCISES, { ...ASKED, ...asked }));

describe('what a page is made from', () => {
  const report = practiceReport(ENTRIES, EXERCISES, ASKED);

  it('is of its days alone, with minutes as last reported on each block', () => {
    expect(report.days.map(({ day, minutes }) => [day, minutes])).toEqual([
      ['2026-11-23', 15],
      ['2026-11-25', 5],
    ]);
    expect(report.minutesByKind).toEqual([
      ['other', 15],
      [EXERCISE.kind, 5],
    ]);
  });

  it('has each line’s marks of those days, and its best of all days up to the last', () => {
    const [line] = report.lines;
    expect(line).toMatchObject({ counts: { clean: 4, tense: 0, missed: 1 }, clean: 0.8, best: 80 });
    expect(line?.days).toEqual([
      { day: '2026-11-23', bpm: 80 },
      { day: '2026-11-25', bpm: 84 },
    ]);
    expect(line).toMatchObject({ bestDay: '2026-11-23', lastDay: '2026-11-25', target: EXERCISE.ladder.target });
  });

  it('leaves out what was taken back', () => {
    const undone = [...ENTRIES, write.undo(ENTRIES[7]!.id), write.undo(ENTRIES[1]!.id)];
    const { days, lines } = practiceReport(undone, EXERCISES, ASKED);
    expect(days[0]?.minutes).toBe(10);
    expect(lines[0]).toMatchObject({ counts: { clean: 3 }, best: null });
  });

  it('sums and means as a statistics library has them (simple-statistics)', () => {
    const minutes = report.days.map((day) => day.minutes);
    expect(said()).toContain(`${sum(minutes)} minutes in 1 week, ${mean(minutes) * minutes.length} a week on average.`);
    const { m } = linearRegression(report.lines[0]!.days.map(({ bpm }, index) => [index, bpm ?? 0]));
    expect(m).toBeGreaterThan(0);
    expect(said()).toContain('Clean at 80 on the first day, at 84 on the last');
  });
});

describe('the page', () => {
  it('has private things only where they were asked for', () => {
    expect(said()).not.toMatch(/quiet|Tension|Notes<\/h2>/);
    expect(said({ notes: true })).toContain('quiet');
    expect(said({ tension: true })).toMatch(/<h2>Tension<\/h2>.*3 \(quite\).*see a licensed clinician/s);
  });

  it('holds no script, asks for nothing, and shows a stranger’s text as words', () => {
    const all = said({ notes: true, tension: true });
    expect(all).not.toMatch(/<(?:script|img|link|iframe|object|a)\b|<[^>]*\s(?:src|href|on\w+)=|url\(|@import/i);
    expect(all).not.toContain('\u001b');
    expect(all).not.toContain('\u202e');
    expect(all).toContain('&lt;img src=x onerror=alert(1)&gt; \\u001b[31m\\u202e quiet');
    expect(all).toContain("default-src 'none'");
  });

  it.each(['<b>', '"><i>', "' onload='x", '&amp;', '\u2028\u200b\u061c\u00ad'])('takes %j for words', (text) => {
    expect(words(text)).not.toMatch(/[<>"'\u2028\u200b\u061c\u00ad]|&(?!amp;|lt;|gt;|quot;|#39;)/);
  });

  it('says what is drawn in words too: each picture has a title and a description, each table a caption', () => {
    const all = said({ notes: true, tension: true });
    const pictures = all.match(/<svg [^>]*>/g) ?? [];
    for (const picture of pictures)
      expect(picture).toMatch(/role="img" aria-labelledby="(\w+)t \1d"|aria-hidden="true"/);
    expect(all.match(/<table>/g)?.length).toBe(all.match(/<table><caption>/g)?.length);
    const ids = [...all.matchAll(/ id="(\w+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const levels = [...all.matchAll(/<h(\d)>/g)].map(([, level]) => Number(level));
    expect(levels[0]).toBe(1);
    expect(levels.slice(1).every((level, index) => level > 1 && level - (levels[index] ?? 0) <= 1)).toBe(true);
  });

  it('of an empty journal says so, and is whole', () => {
    expect(said({}, [])).toMatch(/0 days played.*No repetition was marked in these days/s);
  });

  const year = (): readonly Entry[] =>
    Array.from({ length: 365 }, (_, day) => day).flatMap((day) =>
      Array.from({ length: 30 }, (__, index) => {
        const key = ['C', 'F', 'Bb', 'Eb', 'G', 'D', 'A', 'E'][(day + index) % 8]!;
        const articulation = ['slurred', 'single', 'double'][index % 3]!;
        const exercise = `exercise with a long name ${index % 5}`;
        return write.mark('clean', 60 + (day % 90), 60, {
          exercise,
          articulation,
          key,
          day: dayPlus('2025-11-30', day),
        });
      }),
    );

  it('of a year with a hundred and twenty lines is under 300 kB', () => {
    const page = said({ from: '2025-11-30', to: '2026-11-29' }, year());
    expect(page.match(/<tr>/g)?.length).toBeGreaterThan(170);
    expect(Buffer.byteLength(page)).toBeLessThan(300_000);
  });

  itWith('xmllint')('is well-formed, pictures and all, says libxml2’s xmllint', () => {
    const input = said({ notes: true, tension: true });
    expect(() => execFileSync('xmllint', ['--noout', '-'], { input, stdio: ['pipe', 'pipe', 'pipe'] })).not.toThrow();
  });
});

describe('a teacher’s routine', () => {
  const routine = {
    exercises: [EXERCISE, { ...EXERCISE, id: 'more', name: 'more', title: 'More' }],
  } as unknown as Parameters<typeof routineAnswered>[0];
  const answers = routineAnswered(routine, practiceReport(ENTRIES, EXERCISES, ASKED));

  it('is answered point by point, also where nothing was played', () => {
    const { target } = EXERCISE.ladder;
    const lines = EXERCISE.keys.length * EXERCISE.articulations.length;
    expect(answers.map(({ said: answer }) => answer)).toEqual([
      `Held 80 of ${target}; 0 of ${lines} at the target; 5 marks, last on 2026-11-25.`,
      'Not played in these days.',
    ]);
  });

  it('finds the student’s copy under its file and name too', () => {
    const renamed = ENTRIES.map((entry): Entry =>
      entry.kind === 'mark' ? { ...entry, exercise: `${EXERCISE.file}/${EXERCISE.name}` } : entry,
    );
    const [first] = routineAnswered(routine, practiceReport(renamed, EXERCISES, ASKED));
    expect(first).toMatchObject({ best: [80, 80], marks: 5 });
  });
});
