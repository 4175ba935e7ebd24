import { readFileSync, readdirSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
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
