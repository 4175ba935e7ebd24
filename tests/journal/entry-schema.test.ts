import * as fc from 'fast-check';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { entrySchema, journalSchema } from '../../src/journal/entry-schema.ts';
import { parseLine } from '../../src/journal/journal-lines.ts';
import { sitting, writer } from './entries.ts';

const write = writer();
const common = write.note('x');
const { id, at, day } = common;
const line = { exercise: 'five-notes', articulation: 'single', key: 'Bb' };

/** One of every kind. */
const ONE_EACH: readonly Readonly<Record<string, unknown>>[] = [
  { ...write.mark('clean', 92.5, 95) },
  { ...write.tempo(90) },
  { ...write.undo(id) },
  { ...write.block('tone', 60) },
  { v: 1, id, at, day, kind: 'tension', level: 3, exercise: null },
  { ...common },
  { v: 1, id, at, day, kind: 'draw', pool: 'keys', item: 'Bb · double', laid: true },
  { v: 1, id, at, day, kind: 'way', ...line, way: 'bursts', wall: 120, outcome: 'played' },
  {
    v: 1,
    id,
    at,
    day,
    kind: 'plan',
    routine: 'cornet-daily',
    items: [{ part: 'fingers', block: 'thirds', length: 300, before: 0, exercise: null }],
  },
  {
    v: 1,
    id,
    at,
    day,
    kind: 'heard',
    ...line,
    bpm: 60,
    instrument: 'cornet',
    tuning: 'just',
    a4: 440,
    notes: [{ name: 'C#5', written: 73, notes: 2, cents: 14, beginning: 9.5, middle: 14, end: 22, spread: 3 }],
  },
  { v: 1, id, at, day, kind: 'list', items: [{ exercise: 'thirds', title: 'Thirds', length: 300 }] },
  {
    v: 1,
    id,
    at,
    day,
    kind: 'added',
    routine: 'cornet-daily',
    item: { part: 'by-hand', block: 'slow', length: 300, before: 0, exercise: null, title: 'Slow' },
  },
];

/** Values that some field or other must not have. */
const odd = fc.constantFrom<unknown>(
  undefined,
  null,
  '',
  'x',
  0,
  -1,
  1.5,
  1e9,
  true,
  [],
  {},
  '2026-13-01',
  '1/0',
  'clean',
  'played',
);

/** An entry with one field replaced by something odd, or as it was. */
const bent = fc.constantFrom(...ONE_EACH).chain((entry) =>
  fc
    .tuple(fc.constantFrom(...Object.keys(entry).filter((key) => key !== 'kind' && key !== 'v')), odd)
    .map(([field, value]) => {
      const copy: Record<string, unknown> = { ...entry, [field]: value };
      if (value === undefined) delete copy[field];
      return copy;
    }),
);

const isEntry = (value: unknown): boolean => parseLine(JSON.stringify(value)).is === 'entry';

describe('the schema of an entry', () => {
  it.each(ONE_EACH)('takes a $kind', (entry) => {
    expect(entrySchema.safeParse(entry).success).toBe(true);
    expect(isEntry(entry)).toBe(true);
  });

  it('and the checks by hand say the same of whatever is written', () => {
    fc.assert(
      fc.property(bent, (value) => {
        expect(isEntry(value)).toBe(entrySchema.safeParse(value).success);
      }),
      { numRuns: 2000 },
    );
  });

  it('holds as JSON Schema 2020-12 too, read by an independent validator (ajv)', () => {
    const validate = new Ajv2020({ strict: false }).compile(journalSchema());
    fc.assert(
      fc.property(bent, (value) => {
        expect(validate(value)).toBe(isEntry(value));
      }),
      { numRuns: 500 },
    );
    fc.assert(fc.property(sitting, (entries) => entries.every((entry) => validate(entry))));
  });

  it('knows every kind that the program writes', () => {
    expect(ONE_EACH.map(({ kind }) => kind).sort()).toEqual([
      'added',
      'block',
      'draw',
      'heard',
      'list',
      'mark',
      'note',
      'plan',
      'tempo',
      'tension',
      'undo',
      'way',
    ]);
  });
});

describe('migrations', () => {
  const older = { ...write.mark('clean', 80), v: 1 };

  it('lift an old entry step by step to the newest version', () => {
    const migrations = {
      1: (value: Readonly<Record<string, unknown>>) => ({ ...value, v: 2, mark: 'missed' }),
      2: (value: Readonly<Record<string, unknown>>) => ({ ...value, v: 3, bpm: 81 }),
    };
    expect(parseLine(JSON.stringify(older), migrations, 3)).toEqual({
      is: 'entry',
      entry: { ...older, v: 3, mark: 'missed', bpm: 81 },
    });
  });

  it('leave an entry of a newer program as it is', () => {
    expect(parseLine(JSON.stringify({ ...older, v: 2 })).is).toBe('foreign');
  });
});
