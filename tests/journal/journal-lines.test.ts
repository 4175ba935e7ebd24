import { describe, expect, it } from 'vitest';
import { linesOf, ordered, parseJournal, parseLine } from '../../src/journal/journal-lines.ts';
import { writer } from './entries.ts';

const write = writer();
const note = write.note('first');
const text = (value: unknown): string => JSON.stringify(value);

describe('a line of the journal', () => {
  it.each<[string, string]>([
    ['{"v":1', 'it is not JSON'],
    ['', 'it is not JSON'],
    ['null', 'it is not an object'],
    ['[]', 'it is not an object'],
    ['"text"', 'it is not an object'],
    ['7', 'it is not an object'],
    [text({ ...note, v: 0 }), '"v" should be the version, a whole number above 0'],
    [text({ ...note, v: 1.5 }), '"v" should be the version, a whole number above 0'],
    [text({ ...note, v: '1' }), '"v" should be the version, a whole number above 0'],
    [text({ ...note, v: undefined }), '"v" should be the version, a whole number above 0'],
    ...['constructor', '__proto__', 'valueOf', 'toString'].map((v): [string, string] => [
      text({ ...note, v }),
      '"v" should be the version, a whole number above 0',
    ]),
    ['{"v":"constructor"}', '"v" should be the version, a whole number above 0'],
    ['{"__proto__":{"v":1}}', '"v" should be the version, a whole number above 0'],
    [text({ ...note, id: 'ffffffff-ffff-7fff-bfff-ffffffffffff' }), '"id" should be a UUID in small letters'],
    [text({ ...note, kind: 7 }), '"kind" should be a text'],
    [text({ ...note, kind: undefined }), '"kind" should be a text'],
    [text({ ...note, text: '' }), '"text" should be a text'],
    [text({ ...note, day: 'today' }), `"day" should be a day, as '2026-11-25'`],
    [text({ ...note, v: 2, day: 'today' }), `"day" should be a day, as '2026-11-25'`],
    [text({ ...note, kind: 'breath', day: 'today' }), `"day" should be a day, as '2026-11-25'`],
  ])('%j is none: %s', (line, reason) => {
    expect(parseLine(line)).toEqual({ is: 'bad', reason });
  });

  it('is an entry, or what a newer program wrote: another kind, or another version of one that is known', () => {
    expect(parseLine(text(note))).toEqual({ is: 'entry', entry: note });
    const breath = { ...note, kind: 'breath' };
    expect(parseLine(text(breath))).toEqual({ is: 'foreign', foreign: breath });
    const newer = { ...note, v: 2, text: 7 };
    expect(parseLine(text(newer))).toEqual({ is: 'foreign', foreign: newer });
  });

  it('is lifted from version to version, and only as far as it is old', () => {
    const migrations = {
      1: (value: Readonly<Record<string, unknown>>) => ({ ...value, v: 2, text: `${String(value['text'])}, lifted` }),
    };
    const lifted = { ...note, v: 2, text: 'first, lifted' };
    expect(parseLine(text(note), migrations, 2)).toEqual({ is: 'entry', entry: lifted });
    expect(parseLine(text(lifted), migrations, 2)).toEqual({ is: 'entry', entry: lifted });
  });
});

describe('a kind by a name that every object inherits', () => {
  it.each(['constructor', '__proto__', 'valueOf'])('%s is one of a newer program', (kind) => {
    const line = `{"kind":${text(kind)},${text({ ...note, kind: undefined }).slice(1)}`;
    expect(parseLine(line)).toMatchObject({ is: 'foreign', foreign: { kind } });
  });
});

describe('the lines of a text', () => {
  it('have numbers from 1, and say whether they are whole', () => {
    expect([...linesOf('a\n\nb\nc')]).toEqual([
      ['a', 1, true],
      ['', 2, true],
      ['b', 3, true],
      ['c', 4, false],
    ]);
    expect([...linesOf('a\n')]).toEqual([['a', 1, true]]);
    expect([...linesOf('')]).toEqual([]);
  });
});

describe('a journal', () => {
  const [second, third] = [write.note('second'), write.note('third')];

  it('has its entries in order, its bad lines by number, and what was cut off', () => {
    const breath = { ...third, kind: 'breath' };
    const lines = ['what', text(second), '  ', text(breath), '{}', text(note), text(third).slice(0, -9)];
    expect(parseJournal(lines.join('\n'))).toEqual({
      entries: [note, second],
      foreign: [breath],
      bad: [
        { line: 1, reason: 'it is not JSON' },
        { line: 5, reason: '"v" should be the version, a whole number above 0' },
      ],
      torn: text(third).slice(0, -9),
    });
  });

  it('has a last line without its line break too, if that is whole', () => {
    expect(parseJournal(`${text(note)}\n${text(second)}`)).toMatchObject({ entries: [note, second], torn: null });
    const breath = { ...second, kind: 'breath' };
    expect(parseJournal(`${text(note)}\n${text(breath)}`)).toMatchObject({ foreign: [breath], torn: null });
    expect(parseJournal(`${text(note)}\n   `)).toMatchObject({ entries: [note], torn: null });
  });

  it('puts what a newer program wrote in order too', () => {
    const [a, b] = [
      { ...note, v: 2 },
      { ...second, v: 2 },
    ];
    expect(parseJournal(`${text(b)}\n${text(a)}\n`).foreign).toEqual([a, b]);
  });
});

describe('the order of ids', () => {
  it('is left as it is where it is right already', () => {
    const values = [{ id: 'a' }, { id: 'b' }, { id: 'c' }];
    expect(ordered(values)).toBe(values);
    expect(ordered([])).toEqual([]);
  });

  it('is made, and the given list is not touched', () => {
    const values = [{ id: 'c' }, { id: 'a' }, { id: 'b' }];
    expect(ordered(values)).toEqual([{ id: 'a' }, { id: 'b' }, { id: 'c' }]);
    expect(values[0]).toEqual({ id: 'c' });
  });

  it('has each id once, of two that differ the one whose text comes first', () => {
    const [a, b] = [
      { id: 'x', say: 'a' },
      { id: 'x', say: 'b' },
    ];
    expect(ordered([a, b])).toEqual([a]);
    expect(ordered([b, a])).toEqual([a]);
    expect(ordered([b, a, { id: 'w', say: 'z' }, b])).toEqual([{ id: 'w', say: 'z' }, a]);
  });
});
