import { readFileSync, readdirSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { parseMeter } from '../../src/music/time/meter.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { routineJsonSchema } from '../../src/plan/file/routine-schema.ts';

const schema = routineJsonSchema();

describe("the routine file's JSON Schema", () => {
  it('in shared/ is up to date (npm run schema writes it)', async () => {
    await expect(`${JSON.stringify(schema, null, 2)}\n`).toMatchFileSnapshot('../../shared/routine.schema.json');
  });

  // JSON Schema 2020-12 as ajv, a general-purpose validator, understands it.
  const check = new Ajv2020({ strict: false }).compile(schema);

  it.each(readdirSync('routines').filter((name) => name.endsWith('.yaml')))('accepts routines/%s', (name) => {
    const value: unknown = parse(readFileSync(`routines/${name}`, 'utf8'));
    expect(check(value), JSON.stringify(check.errors)).toBe(true);
  });

  it.each(['4/4', '7/8 (2+2+3)', '7/8 as 2+2+3', '7/8 2+2+3', '2+2+3/8', '12/8'])(
    'takes the meter %s, as the reader of meters does, and so does the routine',
    (meter) => {
      const value = { exercises: { a: { meter, bars: 1 } }, parts: [{ part: 'A', blocks: [{ a: 5 }] }] };
      expect(check(value), JSON.stringify(check.errors)).toBe(true);
      const read = parseRoutine(JSON.stringify(value), 'a.yaml', () => ({ trouble: 'none' }));
      expect('routine' in read && read.routine.exercises[0]?.meter).toEqual(parseMeter(meter));
    },
  );

  it.each(['0/4', '4/3', '99/4', '7/8 (2+2+2)', '7/8 as 2+0+5'])(
    'leaves what is wrong about the numbers of %s to the reader, and the routine says it',
    (meter) => {
      const read = parseRoutine(JSON.stringify({ exercises: { a: { meter } } }), 'a.yaml', () => ({ trouble: 'none' }));
      const right = parseMeter(meter);
      expect('troubles' in read && read.troubles.map(({ sentence }) => sentence).join(' ')).toContain(right);
    },
  );

  it.each([
    ['negative minutes', { parts: [{ part: 'A', blocks: [{ rest: -3 }] }] }],
    ['negative minutes, short', { parts: [{ part: 'A', blocks: [{ scales: -3 }] }] }],
    ['a setting that is not there', { exercises: { a: { tempi: 60 } } }],
    ['a path', { include: '../other.yaml' }],
    ['a title with an escape', { routine: 'a\u001b[31m' }],
    ['a meter without a unit', { exercises: { a: { meter: '4' } } }],
  ])('refuses %s', (_, value) => {
    expect(check(value)).toBe(false);
  });
});
