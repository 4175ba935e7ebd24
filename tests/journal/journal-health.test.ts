import { describe, expect, it } from 'vitest';
import { reportOn } from '../../src/journal/journal-health.ts';
import { parseJournal } from '../../src/journal/journal-lines.ts';
import { writer } from './entries.ts';

const DAY = 86_400_000;

describe('a look through a journal', () => {
  it('counts its entries by kind, the most frequent first, with its first and last day', () => {
    const write = writer();
    const first = write.note('a');
    write.sleep(3 * DAY);
    const marks = [write.mark('clean', 80), write.mark('clean', 80), write.mark('missed', 80)];
    write.sleep(2 * DAY);
    const tempos = [write.tempo(80), write.tempo(82)];
    const contents = { entries: [...tempos, first, ...marks], foreign: [], bad: [], torn: null };
    const report = reportOn(contents);
    expect(report).toEqual({
      kinds: { mark: 3, tempo: 2, note: 1 },
      entries: 6,
      newer: 0,
      firstDay: '2026-11-25',
      lastDay: '2026-11-30',
      bad: [],
      torn: false,
      undosOfNothing: 0,
    });
    expect(Object.keys(report.kinds)).toEqual(['mark', 'tempo', 'note']);
  });

  it('has no days where it has no entries', () => {
    expect(reportOn(parseJournal(''))).toMatchObject({ kinds: {}, entries: 0, firstDay: null, lastDay: null });
  });

  it('says what is bad, cut off or newer', () => {
    const note = writer().note('a');
    const text = `what\n${JSON.stringify({ ...note, v: 2 })}\n${JSON.stringify(note)}\n{"v"`;
    expect(reportOn(parseJournal(text))).toMatchObject({
      entries: 1,
      newer: 1,
      bad: [{ line: 1, reason: 'it is not JSON' }],
      torn: true,
    });
  });

  it('counts undos of what is not there: what a newer program wrote is', () => {
    const write = writer();
    const [note, newer, elsewhere] = [write.note('a'), write.note('b'), write.note('c')];
    const undos = [note, newer, elsewhere].map(({ id }) => write.undo(id));
    const contents = { entries: [note, ...undos], foreign: [{ ...newer, v: 2 }], bad: [], torn: null };
    expect(reportOn(contents).undosOfNothing).toBe(1);
  });
});
