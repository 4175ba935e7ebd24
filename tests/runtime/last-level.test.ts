/** A level that was shown is in the settings file when the program is left, however soon that is. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { volumeKeeper } from '../../src/runtime/keepers.ts';
import type { PlayerData } from '../../src/runtime/files/player-data.ts';
import { eachInOwnFolder } from './folder.ts';

const own = eachInOwnFolder();

it('is waited for when it is being written already', async () => {
  const data = { folder: { path: own() }, log: { write: () => {} } } as unknown as PlayerData;
  const { keep, finish } = volumeKeeper(data);
  keep({ click: 0.2, drone: 0.3 });
  // As the timer does: the writing has begun, and nobody has waited for it yet.
  void finish();
  await finish();
  expect(readFileSync(join(own(), 'settings.yaml'), 'utf8')).toMatch(/click: 20/);
});

it('is the last one of many', async () => {
  const data = { folder: { path: own() }, log: { write: () => {} } } as unknown as PlayerData;
  const { keep, finish } = volumeKeeper(data);
  for (const click of [0.2, 0.4, 0.6]) {
    keep({ click, drone: 0.3 });
    void finish();
  }
  await finish();
  expect(readFileSync(join(own(), 'settings.yaml'), 'utf8')).toMatch(/click: 60/);
});
