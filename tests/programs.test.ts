import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { PACKAGES } from './programs.ts';

it('has every program that a test needs installed by .ci/run', () => {
  const installed = readFileSync(new URL('../.ci/packages', import.meta.url), 'utf8').split('\n');
  expect(installed).toEqual(expect.arrayContaining(Object.values(PACKAGES)));
});
