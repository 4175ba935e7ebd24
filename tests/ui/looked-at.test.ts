import { type DayEntry } from '../../src/diary/entry.ts';
import { describe, expect, it } from 'vitest';

import { type Action, type Stand, openStand } from '../../src/practice/stand.ts';
import { planned } from '../../src/practice/screens/today-keys.ts';
import { readRoutineFile } from '../../src/runtime/files/routine-reader.ts';
import { plainText } from '../../src/ui/paint.ts';
import { drawScreen } from '../../src/ui/screens/all-screens.ts';
import { keeping, played } from '../practice/keeping.ts';
import { DRONE } from '../practice/rehearsal.ts';

const DAY = '2026-11-25';
const read = readRoutineFile(new URL('../../routines/cornet-daily.yaml', import.meta.url).pathname);
if (!('routine' in read)) throw new Error('the cornet routine cannot be read');
const { routine } = read;

const prepare = () => ({ drone: DRONE, drill: null, remark: null });
const opened = (records: readonly DayEntry[]): Stand =>
  planned(
    openStand({
      today: DAY,
      routines: [routine],
      exercises: routine.exercises,
      lines: {},
      records,
      prepare,
      notices: [],
      dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
    }),
  );

/**
 * Every block of the day is gone on from after two seconds; what the journal keeps comes back as the program hands it
 * back.
 */
function hurried(): Stand {
  const { stand, send } = played(opened([]), keeping(DAY));
  let now = 100;
  const press = (action: Action): void => send({ type: 'do', action, key: '', now });
  press('open');
  press('play-block');
  for (let i = 0; i < 40 && stand().view.screen !== 'end'; i += 1) {
    now += 2;
    press('next-block');
  }
  return stand();
}

const drawn = (stand: Stand, columns: number): string =>
  plainText(drawScreen(stand, { columns, rows: 40, lettering: 'signs', foot: [] }));

describe('blocks that were only looked at', () => {
  const stand = hurried();

  it('have no full sign at the end', () => {
    const end = drawn(stand, 100);
    expect(end).toMatch(/○ .* 0:02 of \d:00/);
    expect(end).not.toMatch(/● .* 0:02/);
  });

  it('are played today but not done, and stand in the plan again', () => {
    const today = drawn(opened(stand.known.records), 200);
    expect(today).toMatch(/Played today: .* 0:02/);
    expect(today).not.toContain('done today');
    expect(opened(stand.known.records).day.plan?.leftOut.map(({ reason }) => reason)).not.toContain('done today');
  });
});
