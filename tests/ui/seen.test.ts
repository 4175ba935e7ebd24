/** The practice screen at every size and in every state: the state, the tempo and the next step are on the screen. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { KEYS } from '../../src/ui/keys.ts';
import { type PaintedLine, plainText, widthOf } from '../../src/ui/paint.ts';
import { type Size, wholeScreen } from '../../src/ui/whole-screen.ts';
import { STATES, onStand, press, timeIsUp, today } from './practice-states.ts';
import type { Stand } from '../../src/practice/stand.ts';

const SIZES: readonly Size[] = [
  { columns: 30, rows: 8 },
  { columns: 44, rows: 12 },
  { columns: 60, rows: 18 },
  { columns: 64, rows: 20 },
  { columns: 80, rows: 24 },
  { columns: 120, rows: 36 },
  { columns: 200, rows: 60 },
];

const CASES = Object.entries(STATES).flatMap(([name, state]) =>
  SIZES.map((size) => ({ name, ...state, size, at: `${size.columns}x${size.rows}` })),
);

function seen(stand: Stand, size: Size, lettering: 'signs' | 'plain' = 'signs'): string {
  const lines: readonly PaintedLine[] = wholeScreen(stand, KEYS, size, lettering);
  expect(lines).toHaveLength(size.rows);
  for (const painted of lines) expect(widthOf(painted)).toBeLessThanOrEqual(size.columns);
  return plainText(lines);
}

/** '88', '86' and '92' begin alike in tall figures; small where there is no room, the beat behind them. */
const TEMPO = /█{6} {2}█{6}|█{12} {4}█{12}|█{18} {6}█{18}|\b(86|88|92) {2}[▂█]/;

describe('from across the room', () => {
  it.each(CASES)('$name at $at shows its state, the tempo and the next step', ({ name, stand, word, size, at }) => {
    const text = seen(stand, size);
    if (process.env['LOOK']) {
      mkdirSync('/tmp/face-looks', { recursive: true });
      writeFileSync(`/tmp/face-looks/${at}-${name.replaceAll(' ', '-')}.txt`, text);
      writeFileSync(`/tmp/face-looks/${at}-${name.replaceAll(' ', '-')}.ascii`, seen(stand, size, 'plain'));
    }
    expect(text).toMatch(word);
    expect(text).toMatch(TEMPO);
    expect(text).toMatch(/\d (more )?(clean|missed)/);
    // eslint-disable-next-line no-control-regex
    expect(seen(stand, size, 'plain')).toMatch(/^[\x20-\x7e\n]*$/);
  });

  it.each(SIZES)('no two states look alike at $columns by $rows', (size) => {
    // A mark that is due is asked for alike in the breath and after it.
    const { waiting: _, ...others } = STATES;
    const all = Object.values(others).map(({ stand }) => seen(stand, size));
    expect(new Set(all).size).toBe(all.length);
  });

  it.each(SIZES.flatMap((size) => (['practice', 'block'] as const).map((screen) => ({ screen, ...size }))))(
    'says at $columns by $rows that the time of a $screen is up, with the key that goes on',
    ({ screen, ...size }) => {
      expect(seen(timeIsUp(screen), size)).toMatch(/Time is up: n goes on/);
      if (size.columns >= 80) expect(seen(timeIsUp(screen), size)).toMatch(/n goes on, PageDown too/);
    },
  );

  it.each(SIZES)('keeps state and tempo in sight beside a very long sentence at $columns by $rows', (size) => {
    const { stand, word } = STATES['clean']!;
    const answer = { sentence: 'What there is to say now takes more lines than there are. '.repeat(20), since: 10 };
    const text = seen({ ...stand, answer }, size);
    expect(text).toMatch(word);
    expect(text).toMatch(TEMPO);
    if (size.rows > 4) expect(text).toMatch(/What there is/);
    expect(text).toContain('…');
  });

  it.each(SIZES.filter(({ columns }) => columns >= 60))('shows the whole caution on the page of keys', (size) => {
    for (const all of [onStand(), today()]) {
      press(all, 'help');
      const text = seen(all.stand(), size).replace(/\s+/g, ' ');
      expect(text).toContain(
        'Stop on pain, numbness or tingling, and see a licensed clinician or your teacher; this program gives no ' +
          'medical advice. With headphones, start softly.',
      );
    }
  });
});
