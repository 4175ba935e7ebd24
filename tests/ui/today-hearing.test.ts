import { describe, expect, it } from 'vitest';
import { DRONE } from '../practice/rehearsal.ts';
import { openStand } from '../../src/practice/stand.ts';
import { planned } from '../../src/practice/screens/today-keys.ts';
import { readRoutineFile } from '../../src/runtime/files/routine-reader.ts';
import { drawScreen } from '../../src/ui/screens/all-screens.ts';

const read = readRoutineFile(new URL('../../routines/cornet-daily.yaml', import.meta.url).pathname);
if (!('routine' in read)) throw new Error('the cornet routine cannot be read');
const { routine } = read;

const prepare = () => ({ drone: DRONE, drill: null, remark: null });

function shown(level: number | null, columns = 240): string {
  const stand = planned(
    openStand({
      today: '2026-11-25',
      level,
      routines: [routine],
      exercises: [],
      lines: {},
      records: [],
      prepare,
      notices: [],
      dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
    }),
  );
  return drawScreen(stand, { columns, rows: 24, lettering: 'signs', foot: [] })
    .map((line) => line.map(({ text }) => text).join(''))
    .join('\n');
}

describe('Today with a measured sound level', () => {
  // NIOSH's recommended exposure limit: 30 minutes a day at 97 dB(A), 8 hours at 85.
  it('says how much of the recommended limit the day takes, where it is much', () => {
    expect(shown(97)).toMatch(/\d+ min at 97 dB\(A\) are \d+ % of the recommended daily limit of 30 min/);
    expect(shown(97)).toContain('see a licensed clinician');
  });

  it('says the whole of it in eighty columns too, on a screen as tall as the terminal', () => {
    const lines = shown(97, 80).split('\n');
    expect(lines).toHaveLength(24);
    expect(lines.map((one) => one.trim()).join(' ')).toContain('this program gives no medical advice.');
    for (const one of lines) expect([...one].length).toBeLessThanOrEqual(80);
  });

  it('says nothing far from the limit, or where nothing was measured', () => {
    expect(shown(80)).not.toContain('dB(A)');
    expect(shown(null)).not.toContain('dB(A)');
  });
});
