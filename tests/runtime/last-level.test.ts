/** A level that was shown is in the settings file when the program is left, however soon that is. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../src/practice/settings.ts';
import { settingsAtWork } from '../../src/runtime/settings-at-work.ts';
import { eachInOwnFolder } from './folder.ts';

const own = eachInOwnFolder();

const never = (): never => {
  throw new Error('levels change neither material nor device');
};
const atWork = () =>
  settingsAtWork({ folder: own(), first: DEFAULT_SETTINGS, log: () => {}, read: never, reopen: never });

it('is waited for when it is being written already', async () => {
  const { set, finish } = atWork();
  set({ volume: { click: 0.2, drone: 0.3 } });
  // As the timer does: the writing has begun, and nobody has waited for it yet.
  void finish();
  await finish();
  expect(readFileSync(join(own(), 'settings.yaml'), 'utf8')).toMatch(/click: 20/);
});

it('is the last one of many', async () => {
  const { set, finish } = atWork();
  for (const click of [0.2, 0.4, 0.6]) {
    set({ volume: { click, drone: 0.3 } });
    void finish();
  }
  await finish();
  expect(readFileSync(join(own(), 'settings.yaml'), 'utf8')).toMatch(/click: 60/);
});
