import { describe, expect, it } from 'vitest';
import { toCsv } from '../../src/journal/csv-export.ts';
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

  it('survive names with commas and quotes, and disarm formulas, line breaks and terminal escapes', () => {
    const write = writer();
    const names = ['a, "b"', '=1+1', 'two\r\nlines', '\u001b[2Jx'];
    const rows = readCsv(toCsv(names.map((exercise) => write.mark('clean', 80, 80, { exercise }))));
    expect(rows.slice(1).map((row) => row[2])).toEqual(['a, "b"', "'=1+1", 'two  lines', ' [2Jx']);
  });
});
