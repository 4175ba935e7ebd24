/** What `rotate` in a file makes of the line on the stand, block after block: the way from the file to the player. */
import { describe, expect, it } from 'vitest';
import type { DayEntry } from '../../src/diary/entry.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { practiceOf } from '../../src/practice/stand.ts';
import { DAY, standWith } from '../practice/daily-sitting.ts';
import { keeping, played } from '../practice/keeping.ts';

function routineThat(rotates: string) {
  const exercise = `{pattern: "1 2 3 2 | 1", keys: [C, G], articulations: [slurred, single], rotate: ${rotates}}`;
  const text = `exercises: {five-notes: ${exercise}}\nparts: [{part: All, blocks: [five-notes: 5]}]\n`;
  const parsed = parseRoutine(text, 'own.yaml', () => ({ trouble: 'none' }));
  if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
  return parsed.routine;
}

/** A stand in a sitting that is begun, or gone on with, and played for a minute; what is to be kept is kept at once. */
function stoodUp(rotates: string, records: readonly DayEntry[], how: 'open' | 'go-on') {
  const first = standWith(routineThat(rotates), records);
  const { stand, send } = played({ ...first, now: 1000 }, keeping(DAY, records));
  for (const action of [how, 'start-pause'] as const) send({ type: 'do', action, key: '', now: 1000 });
  for (let now = 1001; now <= 1061; now += 1) send({ type: 'tick', now });
  const practice = practiceOf(stand());
  return {
    name: practice && `${practice.key} · ${practice.line.articulation} · ${practice.fingering}`,
    records: stand().known.records,
  };
}

/** What stands on the stand in each of so many sittings, each on a day of its own. */
function blocks(rotates: string, many: number): readonly (string | null)[] {
  const names: (string | null)[] = [];
  let draws: readonly DayEntry[] = [];
  for (let i = 0; i < many; i += 1) {
    const { name, records } = stoodUp(rotates, draws, 'open');
    names.push(name);
    draws = records.filter(({ kind }) => kind === 'draw');
  }
  return names;
}

const EVERY = ['C', 'G'].flatMap((key) => [`${key} · single · ordinary`, `${key} · slurred · ordinary`]);

describe('an exercise that rotates', () => {
  it('comes in every key, and then in the next way of tonguing', () => {
    expect(blocks('fifths', 5)).toEqual([
      'C · slurred · ordinary',
      'G · slurred · ordinary',
      'C · single · ordinary',
      'G · single · ordinary',
      'C · slurred · ordinary',
    ]);
  });

  it.each(['key and articulation', '{order: key and articulation, change: block}'])(
    'comes in every pair of both, drawn: %s',
    (rotates) => {
      expect(blocks(rotates, 4).toSorted()).toEqual(EVERY);
    },
  );

  it('keeps its fingering when its block is gone on with', () => {
    const first = stoodUp('{order: own, fingerings: yes}', [], 'open');
    const draws = first.records.filter(({ kind }) => kind === 'draw');
    const second = stoodUp('{order: own, fingerings: yes}', draws, 'open');
    expect(second.name).toBe('C · slurred · alternate');
    expect(stoodUp('{order: own, fingerings: yes}', second.records, 'go-on').name).toBe('C · slurred · alternate');
  });
});
