/** The player's own rule: for every exercise that does not say itself what moves its ladder. */
import { describe, expect, it } from 'vitest';
import { withPlayersRule } from '../../src/runtime/files/players-rule.ts';
import { routinesOf } from '../../src/runtime/files/routine-cache.ts';
import { exercisesOf } from '../../src/runtime/files/routine-finder.ts';
import { eachInOwnFolder } from './folder.ts';
import { put } from './routines.ts';
import { join } from 'node:path';

const folder = eachInOwnFolder();

const FILE = `
routine: Mine
exercises:
  plain: {pattern: 1 2 3 4 5 4 3 2 | 1}
  counted: {pattern: 1 2 3 4 5 4 3 2 | 1, rule: count}
  patient: {pattern: 1 2 3 4 5 4 3 2 | 1, up: 5}
  aiming: {pattern: 1 2 3 4 5 4 3 2 | 1, rule: aim 90 %}
parts:
  - part: All
    blocks: [plain: 5, counted: 5, patient: 5, aiming: 5]
`;

async function aims(rule: { readonly aim: number | null }): Promise<Readonly<Record<string, number | null>>> {
  put(join(folder(), 'routines', 'mine.yaml'), FILE);
  const found = exercisesOf(withPlayersRule(await routinesOf(folder()), { rule }));
  return Object.fromEntries(
    ['plain', 'counted', 'patient', 'aiming'].map((name) => [name, found.get(name)?.exercise.ladder.aim ?? null]),
  );
}

describe("the player's own rule", () => {
  it('is that of every exercise that does not say its own', async () => {
    expect(await aims({ aim: 0.8 })).toEqual({ plain: 0.8, counted: null, patient: null, aiming: 0.9 });
  });

  it('leaves them as they are where the player counts', async () => {
    expect(await aims({ aim: null })).toEqual({ plain: null, counted: null, patient: null, aiming: 0.9 });
  });
});
