import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { merged, missingFrom } from '../../src/journal/journal-merge.ts';
import { parseJournal } from '../../src/journal/journal-lines.ts';
import { sitting, writer } from './entries.ts';

/** A journal of one machine, with now and then a line that no program understands and one of a newer program. */
const journal = fc
  .tuple(sitting, fc.array(fc.constantFrom('what is this', '{"v":1}', ''), { maxLength: 2 }), fc.boolean())
  .map(([entries, odd, newer]) => {
    const lines = entries.map((entry) => JSON.stringify(entry));
    const last = entries.at(-1);
    const ahead =
      newer && last
        ? [JSON.stringify({ ...last, v: 2, id: last.id.replace(/.$/, (digit) => (digit === 'f' ? 'e' : 'f')) })]
        : [];
    return [...lines, ...odd, ...ahead].map((line) => `${line}\n`).join('');
  });

/** What a journal says, without the lines that say nothing. */
const said = (text: string) => {
  const { entries, foreign } = parseJournal(text);
  return { entries, foreign };
};

const json = (value: unknown): string => JSON.stringify(value);

describe('merging journals', () => {
  it('puts lines of the same id in the same order, whichever came first', () => {
    const mark = writer().mark('clean', 88);
    const lines = ['a', 'b', 'c'].map((more) => json({ ...mark, v: 2, more }));
    const orders = [lines, lines.toReversed(), [lines[1]!, lines[2]!, lines[0]!]];
    for (const order of orders) expect(missingFrom('', `${order.join('\n')}\n`).lines).toEqual(lines);
  });

  it('leaves what is days ahead of our clock, and says which lines; what a time zone makes is taken', () => {
    const now = Date.parse('2026-11-25T17:00:00Z');
    const [near, far] = [writer(now + 86_400_000).note('near'), writer(now + 30 * 86_400_000).note('far')];
    const taken = missingFrom('', `${json(near)}\n${json(far)}\n`, now);
    expect(taken).toEqual({ lines: [json(near)], known: 0, left: [], ahead: [2] });
  });

  it('says the same in either order', () => {
    fc.assert(
      fc.property(journal, journal, (a, b) => {
        expect(said(merged(a, b))).toEqual(said(merged(b, a)));
      }),
    );
  });

  it('says the same however three are brought together', () => {
    fc.assert(
      fc.property(journal, journal, journal, (a, b, c) => {
        const one = merged(merged(a, b), c);
        const other = merged(a, merged(b, c));
        expect(said(one)).toEqual(said(other));
        expect(foldAll(said(one).entries)).toEqual(foldAll(said(other).entries));
      }),
    );
  });

  it('changes nothing the second time, nor with itself', () => {
    fc.assert(
      fc.property(journal, journal, (a, b) => {
        expect(merged(merged(a, b), b)).toBe(merged(a, b));
        expect(merged(a, a)).toBe(a);
      }),
    );
  });

  it('only ever adds to ours, and takes everything that the other knows', () => {
    fc.assert(
      fc.property(journal, journal, (a, b) => {
        const both = merged(a, b);
        expect(both.startsWith(a)).toBe(true);
        const ids = new Set([...said(both).entries, ...said(both).foreign].map(({ id }) => id));
        for (const { id } of [...said(b).entries, ...said(b).foreign]) expect(ids.has(id)).toBe(true);
      }),
    );
  });

  it('agrees on one of two entries that carry the same id', () => {
    const entry = writer().mark('clean', 80);
    const [a, b] = [entry, { ...entry, mark: 'missed' }].map((value) => `${JSON.stringify(value)}\n`) as [
      string,
      string,
    ];
    expect(said(merged(a, b)).entries).toHaveLength(1);
    expect(said(merged(a, b))).toEqual(said(merged(b, a)));
  });

  it('takes what is missing in the order of its ids, then of its text, each line once', () => {
    const write = writer();
    const [a, b, c] = [write.note('a'), write.note('b'), write.note('c')];
    const twin = { ...b, text: 'B' };
    const newer = { ...c, v: 2 };
    const other = [newer, b, a, twin, b].map((value) => `${json(value)}\n`).join('');
    expect(missingFrom('', other)).toEqual({ lines: [a, twin, b, newer].map(json), known: 0, left: [], ahead: [] });
    expect(missingFrom(`${json(twin)}\n`, other)).toEqual({
      lines: [a, b, newer].map(json),
      known: 1,
      left: [],
      ahead: [],
    });
  });

  it('completes a last line of ours without its line break, and adds nothing to an empty journal but the other', () => {
    const write = writer();
    const [a, b] = [write.note('a'), write.note('b')].map(json) as [string, string];
    expect(merged(a, `${b}\n`)).toBe(`${a}\n${b}\n`);
    expect(merged(a, a)).toBe(`${a}\n`);
    expect(merged('', b)).toBe(`${b}\n`);
    expect(merged('', '')).toBe('');
  });

  it('skips lines with nothing on them and counts them, so that the others keep their numbers', () => {
    const entry = json(writer().note('a'));
    expect(missingFrom('', `\n  \n${entry}\n\nwhat\n`)).toEqual({ lines: [entry], known: 0, left: [5], ahead: [] });
    expect(missingFrom(`\n${entry}\n`, `${entry}\n\n`)).toEqual({ lines: [], known: 1, left: [], ahead: [] });
  });

  it('counts what was known and names what it leaves', () => {
    const write = writer();
    const [a, b] = [JSON.stringify(write.mark('clean', 80)), JSON.stringify(write.mark('clean', 80))];
    expect(missingFrom(`${a}\n`, `${a}\noh\n${b}\n`)).toEqual({ lines: [b], known: 1, left: [2], ahead: [] });
  });
});
