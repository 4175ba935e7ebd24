/** The grid while it is played, what is ahead in words, and the screen on which a cell is chosen. */
import { describe, expect, it } from 'vitest';
import { KEYS } from '../../src/ui/keys.ts';
import { plainText } from '../../src/ui/paint.ts';
import { wholeScreen } from '../../src/ui/whole-screen.ts';
import type { Stand } from '../../src/practice/stand.ts';
import { turning } from '../practice/turning.ts';

const seen = (stand: Stand, columns: number, rows: number, lettering: 'signs' | 'plain' = 'signs'): string =>
  plainText(wholeScreen(stand, KEYS, { columns, rows }, lettering));

const ALL = 'keys: all major, articulations: [slurred, single, double, triple]';

function played(rotate: string, many: number, settings = ALL) {
  const sat = turning(`${settings}, rotate: ${rotate}`);
  sat.press('open', 'start-pause');
  for (let n = 0; n < many; n += 1) sat.repetition();
  return sat;
}

/** How often a sign stands in the rows of the grid. */
const count = (screen: string, sign: string): number =>
  screen
    .split('\n')
    .filter((row) => /^ +(slurred|single|double|triple) /.test(row))
    .reduce((sum, row) => sum + row.slice(0, 62).split(sign).length - 1, 0);

describe('the grid', () => {
  it('stands under the ladder while cells come out of the hat: today, before, never, and the one on the stand', () => {
    const sat = played('from the hat', 5);
    const screen = seen(sat.stand(), 120, 36);
    expect(screen).toContain('5 of 48 this round');
    expect(screen).toMatch(/● today 5 +○ before 0 +· 43 never/);
    expect(count(screen, '●')).toBe(5);
    expect(count(screen, '[')).toBe(1);
    const next = sat.nextDay('2026-11-26');
    next.press('open', 'start-pause');
    for (let n = 0; n < 3; n += 1) next.repetition();
    const later = seen(next.stand(), 120, 36);
    expect(later).toMatch(/8 of 48 this round +● today 3 +○ before 5 +· 40 never/);
  });

  it.each([
    [80, 24],
    [100, 30],
    [160, 50],
  ])('is there at %i by %i with the cell on the stand in sight', (columns, rows) => {
    const sat = played('from the hat', 7);
    const screen = seen(sat.stand(), columns, rows);
    expect(screen).toContain('of 48 this round');
    expect(count(screen, '[')).toBe(1);
    expect(screen.split('\n').every((row) => [...row].length <= columns)).toBe(true);
  });

  it('has letters for terminals that have only ASCII', () => {
    const screen = seen(played('from the hat', 4).stand(), 80, 24, 'plain');
    expect(screen).toMatch(/^[ -~\n]*$/);
    expect(screen).toMatch(/\[.\]/);
  });

  it('is not there where keys come in order', () => {
    expect(seen(played('fourths', 1).stand(), 120, 36)).not.toContain('this round');
  });

  it('of one cell is one cell', () => {
    const sat = played('from the hat', 2, 'keys: [C], articulations: [slurred]');
    expect(sat.turn()).toBe('C · slurred');
    expect(seen(sat.stand(), 120, 36)).toMatch(/of 1 this round +● today 1/);
    sat.press('grid', 'cell-after', 'key-after', 'down', 'open');
    expect(sat.turn()).toBe('C · slurred');
  });

  it.each([
    [80, 24],
    [60, 18],
    [120, 36],
  ])('shows the cell under the finger and what to do, as a screen of its own at %i by %i', (columns, rows) => {
    const sat = played('fourths', 1);
    sat.press('grid', 'key-after');
    const screen = seen(sat.stand(), columns, rows);
    expect(screen).toContain('▶ F, slurred');
    expect(screen).toMatch(/>[●○·]</);
    expect(screen).toMatch(/COUNT-IN|CLEAN/);
  });
});

describe('what is ahead', () => {
  it.each([
    ['{order: fourths, change: repetition}', 'then F, then B♭'],
    ['{order: fourths, change: rung}', 'then F, then B♭'],
    ['fourths', 'next time F, then B♭'],
    ['{order: fourths, change: repetition, repetitions: 3}', '2 more, then F, then B♭'],
    ['{order: own, change: repetition, fingerings: yes}', 'then alternate, then G ordinary'],
    ['{order: own, articulations: in turn}', 'then single, then double'],
    ['{order: own, change: repetition, ends: 1 key 3 times}', 'an end: 2 more, then G, then D'],
    ['{order: own, change: repetition, week: 3}', '; this week '],
  ])('is said beside the title: %s', (rotate, words) => {
    expect(seen(played(rotate, 0).stand(), 100, 30).split('\n')[0]).toContain(words);
  });

  it('is said of a block without a ladder, too', () => {
    const sat = turning('keys: [C, F, Bb], work: clock, drone: yes, rotate: fourths');
    sat.press('open');
    expect(seen(sat.stand(), 80, 24)).toContain('next time F, then B♭');
    sat.press('play-block', 'key-after');
    expect(seen(sat.stand(), 80, 24)).toContain('next time B♭, then C');
  });

  it('says why a key comes again: weak where its best lies far under the others', () => {
    const weak =
      'keys: [C, F, Bb], tempo: 60 -> 120, step: 10, up: 1, rotate: {order: own, change: repetition, weak: 2}';
    const sat = turning(weak);
    sat.press('open', 'start-pause');
    for (let n = 0; n < 40; n += 1) sat.repetition(sat.practice().key === 'F' ? 'missed' : 'clean');
    const heads = Array.from({ length: 8 }, () => {
      const head = seen(sat.stand(), 120, 36).split('\n')[0] ?? '';
      sat.repetition(sat.practice().key === 'F' ? 'missed' : 'clean');
      return head;
    });
    expect(heads.filter((head) => /Study +F .*a weak key: 1 more, then B♭/.test(head)).length).toBeGreaterThan(0);
    expect(heads.filter((head) => /Study +C .*a weak key/.test(head))).toEqual([]);
  });

  it('names the keys of this week that come', () => {
    const sat = played('{order: own, change: repetition, week: 3}', 0);
    const week =
      /this week (.*)$/
        .exec(seen(sat.stand(), 160, 40).split('\n')[0] ?? '')?.[1]
        ?.trim()
        .split(' ') ?? [];
    expect(week).toHaveLength(3);
    const keys = new Set<string>();
    for (let n = 0; n < 12; n += 1) {
      keys.add((sat.turn() ?? '').split(' ')[0]?.replace('b', '♭').replace('#', '♯') ?? '');
      sat.repetition();
    }
    expect([...keys].toSorted()).toEqual(week.toSorted());
  });

  it.each([60, 64, 80, 160])('is never broken off in %i columns: what comes later is left out first', (columns) => {
    const sat = played('{order: own, change: repetition, week: 3, fingerings: yes}', 0);
    const head = (seen(sat.stand(), columns, 30).split('\n')[0] ?? '').trim();
    expect(head).toMatch(/then alternate(, then \S+ ordinary)?; this week \S+ \S+ \S+$/);
  });

  it('is what comes then', () => {
    const sat = played('from the hat', 3);
    const head = seen(sat.stand(), 120, 36).split('\n')[0] ?? '';
    sat.repetition();
    const [key = '', tongue = ''] = (sat.turn() ?? '').split(' · ');
    const sign = key.replace('b', '♭').replace('#', '♯');
    expect(head).toMatch(new RegExp(`then (${sign}( ${tongue})?|${tongue})`));
  });
});
