import { describe, expect, it } from 'vitest';
import { countingMarks, toCsv } from '../../src/journal/csv-export.ts';
import { writer } from './entries.ts';

/** A reader after the grammar of RFC 4180, section 2, written for this test alone. */
function readCsv(text: string): string[][] {
  const rows = text.split('\r\n').slice(0, -1);
  return rows.map((row) =>
    [...row.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^",]*))/g)].map(
      ([, quoted, plain]) => quoted?.replaceAll('""', '"') ?? plain ?? '',
    ),
  );
}

describe('comma-separated values', () => {
  it('hold one row for each mark that counts, speeds in notes per second included', () => {
    const write = writer();
    const [kept, undone] = [write.mark('clean', 120, 124), write.mark('missed', 124)];
    const rows = readCsv(toCsv([kept, undone, write.undo(undone.id)]));
    expect(rows).toHaveLength(2);
    expect(Object.fromEntries((rows[0] ?? []).map((name, index) => [name, rows[1]?.[index]]))).toEqual({
      day: '2026-11-25',
      at: kept.at,
      exercise: 'five-notes',
      articulation: 'single',
      key: 'Bb',
      mark: 'clean',
      'beats per minute': '120',
      beat: '1/4',
      // Sixteenths at 120 are 8 notes per second: arithmetic.
      'notes per second': '8',
      'next beats per minute': '124',
      'marked by': 'player',
    });
  });

  it('say in their heading what stands in each column, and end each row as RFC 4180 asks', () => {
    expect(toCsv([])).toBe(
      'day,at,exercise,articulation,key,mark,beats per minute,beat,notes per second,next beats per ' +
        'minute,marked by\r\n',
    );
    const mark = writer().mark('tense', 92.5, 95.25, { notesPerBeat: 4, by: 'rule' });
    // 92.5 x 4 / 60 is 6.1666..., to three places.
    expect(toCsv([mark]).split('\r\n').slice(1)).toEqual([
      `2026-11-25,${mark.at},five-notes,single,Bb,tense,92.5,1/4,6.167,95.25,rule`,
      '',
    ]);
  });

  it('leave out what is no mark, and what was taken back', () => {
    const write = writer();
    const [first, second] = [write.mark('clean', 80), write.mark('clean', 82)];
    const entries = [first, write.note('between'), write.tempo(82), second, write.undo(first.id)];
    expect(countingMarks(entries)).toEqual([second]);
    expect(countingMarks([write.undo(second.id), second])).toEqual([]);
  });

  it.each([
    ['=1+1', "'=1+1"],
    ['+1', "'+1"],
    ['-1', "'-1"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['1=1', '1=1'],
    ['a-b', 'a-b'],
    ["'=1", "'=1"],
    ['=1,2', `"'=1,2"`],
    ['="a"', `"'=""a"""`],
    ['plain', 'plain'],
    ['a,b', '"a,b"'],
    ['a"b"c', '"a""b""c"'],
  ])('write %j as %s: no spreadsheet takes a name for a formula', (exercise, cell) => {
    const mark = writer().mark('clean', 80, 80, { exercise });
    expect(toCsv([mark]).split('\r\n')[1]).toBe(`2026-11-25,${mark.at},${cell},single,Bb,clean,80,1/4,5.333,80,player`);
  });

  it(
    'leave nothing in that steers a terminal or turns the text round (Unicode, C0, C1 and bidirectional ' + 'marks)',
    () => {
      const c0 = [0, 8, 9, 10, 13, 27, 0x1f, 0x7f, 0x85, 0x9f];
      const steering = [
        ...c0,
        0xad,
        0x61c,
        0x200b,
        0x200d,
        0x200e,
        0x200f,
        0x2028,
        0x2029,
        0x202a,
        0x202e,
        0x2066,
        0x2069,
      ];
      const harmless = [0x20, 0x7e, 0xa0, 0xac, 0xae, 0x200a, 0x2010, 0x2027, 0x202f, 0x2065, 0x206a];
      for (const code of [...steering, ...harmless]) {
        const exercise = `a${String.fromCodePoint(code)}b`;
        const cell = toCsv([writer().mark('clean', 80, 80, { exercise })])
          .split('\r\n')[1]
          ?.split(',')[2];
        expect(cell, code.toString(16)).toBe(steering.includes(code) ? 'a b' : exercise);
      }
    },
  );

  it('survive names with commas and quotes, and disarm formulas, line breaks and terminal escapes', () => {
    const write = writer();
    const names = ['a, "b"', '=1+1', 'two\r\nlines', '\u001b[2Jx'];
    const rows = readCsv(toCsv(names.map((exercise) => write.mark('clean', 80, 80, { exercise }))));
    expect(rows.slice(1).map((row) => row[2])).toEqual(['a, "b"', "'=1+1", 'two  lines', ' [2Jx']);
  });
});
