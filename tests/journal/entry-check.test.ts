import { describe, expect, it } from 'vitest';
import { isKnownKind, wrongInCommon, wrongInEntry } from '../../src/journal/entry-check.ts';
import { writer } from './entries.ts';

const { id, at, day } = writer().note('x');
const COMMON = { v: 1, id, at, day };
const LINE = { exercise: 'five-notes', articulation: 'single', key: 'Bb' };
const BLOCK = { part: 'fingers', block: 'thirds', length: 300, before: 0, exercise: null };

/** One whole entry of each kind. */
const WHOLE: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
  mark: {
    ...LINE,
    mark: 'clean',
    bpm: 92.5,
    beat: '1/4',
    notesPerBeat: 4,
    cleanUp: 3,
    missedDown: 2,
    next: 95,
    by: 'player',
  },
  tempo: { ...LINE, next: 90 },
  undo: { of: id },
  block: { routine: 'cornet', part: 'am', block: 'tone', event: 'going', played: 60, length: 300, exercise: 'five' },
  tension: { level: 3, exercise: null },
  note: { text: 'new mouthpiece' },
  draw: { pool: 'keys', item: 'Bb · double' },
  way: { ...LINE, way: 'bursts', wall: 120, outcome: 'played' },
  plan: { routine: 'cornet', items: [BLOCK] },
};
const KINDS = Object.keys(WHOLE);

const entry = (kind: string, more: object = {}): Readonly<Record<string, unknown>> => ({
  ...COMMON,
  kind,
  ...WHOLE[kind],
  ...more,
});

const TEXT = 'a text';
const TEMPO = 'beats per minute above 0, at most 1000';
const COUNT = 'a whole number above 0';
const AMOUNT = 'a number above 0';
const SECONDS = 'seconds, 0 or more';
const UUID = 'a UUID in small letters';
const MOMENT = "a date and time with offset, as '2026-11-25T18:04:09.123+01:00'";
const DAY = "a day, as '2026-11-25'";
const VALUE = "a note value, as '1/4'";
const LIST = 'a list, each of it whole';

describe('an entry', () => {
  it.each(KINDS)('of the kind %s is whole, and known', (kind) => {
    expect(wrongInEntry(entry(kind))).toBeNull();
    expect(isKnownKind(kind)).toBe(true);
  });

  it('of another kind is not known', () => {
    expect(isKnownKind('breath')).toBe(false);
    expect(isKnownKind('')).toBe(false);
  });

  it.each(KINDS.flatMap((kind) => Object.keys(WHOLE[kind]!).map((field) => [kind, field])))(
    'of the kind %s needs its %s',
    (kind, field) => {
      expect(wrongInEntry(entry(kind, { [field]: undefined }))).toMatch(new RegExp(`^"${field}" should be `, 'u'));
    },
  );

  it.each<[string, string, unknown, string | null]>([
    ['note', 'text', '', TEXT],
    ['note', 'text', 7, TEXT],
    ['mark', 'exercise', '', TEXT],
    ['mark', 'articulation', null, TEXT],
    ['mark', 'key', [], TEXT],
    ['mark', 'mark', 'tense', null],
    ['mark', 'mark', 'missed', null],
    ['mark', 'mark', 'fine', 'one of clean, tense, missed'],
    ['mark', 'bpm', 0, TEMPO],
    ['mark', 'bpm', 0.1, null],
    ['mark', 'bpm', 1000, null],
    ['mark', 'bpm', 1000.1, TEMPO],
    ['mark', 'bpm', '92', TEMPO],
    ['mark', 'next', -1, TEMPO],
    ['tempo', 'next', 1001, TEMPO],
    ['way', 'wall', 0, TEMPO],
    ['mark', 'beat', '3/8', null],
    ['mark', 'beat', '10/16', null],
    ['mark', 'beat', '0/4', VALUE],
    ['mark', 'beat', '1/0', VALUE],
    ['mark', 'beat', '01/4', VALUE],
    ['mark', 'beat', '1/4 ', VALUE],
    ['mark', 'beat', 'a 1/4', VALUE],
    ['mark', 'beat', 0.25, VALUE],
    ['mark', 'notesPerBeat', 0.5, null],
    ['mark', 'notesPerBeat', 64, null],
    ['mark', 'notesPerBeat', 64.1, AMOUNT],
    ['mark', 'notesPerBeat', 0, AMOUNT],
    ['mark', 'notesPerBeat', '4', AMOUNT],
    ['mark', 'cleanUp', 1, null],
    ['mark', 'cleanUp', 0, COUNT],
    ['mark', 'cleanUp', 1.5, COUNT],
    ['mark', 'missedDown', '2', COUNT],
    // Written by earlier versions; nobody asks for it any more.
    ['mark', 'slow', true, null],
    ['mark', 'sounded', 'F', null],
    ['mark', 'sounded', '', TEXT],
    ['mark', 'by', 'rule', null],
    ['mark', 'by', 'teacher', 'one of player, rule'],
    ['undo', 'of', id.toUpperCase(), UUID],
    ['undo', 'of', `${id}0`, UUID],
    ['undo', 'of', `0${id}`, UUID],
    ['undo', 'of', id.replace('-', ''), UUID],
    ['undo', 'of', null, UUID],
    ...['started', 'going', 'left', 'done', 'skipped'].map((event): [string, string, unknown, null] => [
      'block',
      'event',
      event,
      null,
    ]),
    ['block', 'event', 'paused', 'one of started, going, left, done, skipped'],
    ['block', 'routine', '', TEXT],
    ['block', 'part', '', TEXT],
    ['block', 'block', '', TEXT],
    ['block', 'played', 0, null],
    ['block', 'played', 999_999.9, null],
    ['block', 'played', 1e6, SECONDS],
    ['block', 'played', -0.1, SECONDS],
    ['block', 'length', '300', SECONDS],
    ['block', 'exercise', null, null],
    ['block', 'exercise', '', TEXT],
    ['tension', 'level', 0, null],
    ['tension', 'level', 4, null],
    ['tension', 'level', 5, 'one of 0, 1, 2, 3, 4'],
    ['tension', 'level', '3', 'one of 0, 1, 2, 3, 4'],
    ['tension', 'exercise', 'five', null],
    ['draw', 'pool', '', TEXT],
    ['draw', 'item', '', TEXT],
    ['draw', 'laid', true, null],
    ['draw', 'laid', undefined, null],
    ['draw', 'laid', false, 'true, or left out'],
    ['way', 'way', '', TEXT],
    ['way', 'outcome', 'left', null],
    ['way', 'outcome', 'lost', 'one of played, left'],
    ['plan', 'routine', '', TEXT],
    ['plan', 'items', [], null],
    ['plan', 'items', [BLOCK, { ...BLOCK, exercise: 'five' }], null],
    ['plan', 'items', BLOCK, LIST],
    ['plan', 'items', [BLOCK, null], LIST],
    ['plan', 'items', [BLOCK, 'tone'], LIST],
    ['plan', 'items', [BLOCK, []], LIST],
    ['plan', 'items', [BLOCK, { ...BLOCK, part: '' }], LIST],
    ['plan', 'items', [BLOCK, { ...BLOCK, block: '' }], LIST],
    ['plan', 'items', [BLOCK, { ...BLOCK, length: -1 }], LIST],
    ['plan', 'items', [BLOCK, { ...BLOCK, before: -1 }], LIST],
    ['plan', 'items', [BLOCK, { ...BLOCK, exercise: undefined }], LIST],
    // A list with the fields of a block is still a list.
    ['plan', 'items', [Object.assign([], BLOCK)], LIST],
  ])('of the kind %s, with %s %j', (kind, field, value, right) => {
    expect(wrongInEntry(entry(kind, { [field]: value }))).toBe(right && `"${field}" should be ${right}`);
  });

  it.each<[string, unknown, string | null]>([
    ['id', '018bcfe5-6800-7000-8000-00000000000', UUID],
    ['id', 'x018bcfe5-6800-7000-8000-000000000000', UUID],
    ['id', 7, UUID],
    ['at', '2026-11-25T18:04:09Z', null],
    ['at', '2026-11-25T18:04:09.1234-03:30', null],
    ['at', '2026-11-25T18:04:09', MOMENT],
    ['at', '2026-11-25 18:04:09Z', MOMENT],
    ['at', '2026-11-25T18:04:09.Z', MOMENT],
    ['at', '2026-11-25T18:04:09+0100', MOMENT],
    ['at', ' 2026-11-25T18:04:09Z', MOMENT],
    ['at', '2026-11-25T18:04:09Z ', MOMENT],
    ['day', '2026-12-31', null],
    ['day', '2026-01-09', null],
    ['day', '2026-10-20', null],
    ['day', '2026-13-01', DAY],
    ['day', '2026-00-01', DAY],
    ['day', '2026-01-32', DAY],
    ['day', '2026-01-00', DAY],
    ['day', '26-01-01', DAY],
    ['day', '12026-01-01', DAY],
    ['day', '2026-01-011', DAY],
    ['day', undefined, DAY],
  ])('has what every entry has, with %s %j', (field, value, right) => {
    const sentence = right && `"${field}" should be ${right}`;
    expect(wrongInCommon({ ...COMMON, [field]: value })).toBe(sentence);
    expect(wrongInEntry(entry('note', { [field]: value }))).toBe(sentence);
  });

  it('says the first that is wrong, of what every entry has before its own', () => {
    expect(wrongInEntry(entry('mark', { bpm: 0, next: 0 }))).toBe(`"bpm" should be ${TEMPO}`);
    expect(wrongInEntry(entry('mark', { bpm: 0, day: 'today' }))).toBe(`"day" should be ${DAY}`);
    expect(wrongInEntry({ ...COMMON, kind: 'breath' })).toBeNull();
  });
});
