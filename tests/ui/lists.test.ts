/** Lists say what they leave out, and no screen cuts a word silently. */
import { describe, expect, it } from 'vitest';
import { hasLadder } from '../../src/plan/routine/exercise.ts';
import { KEYS } from '../../src/ui/keys.ts';
import { plainText } from '../../src/ui/paint.ts';
import { wholeScreen } from '../../src/ui/whole-screen.ts';
import type { Stand } from '../../src/practice/stand.ts';
import { marked, onStand, press, today } from './practice-states.ts';

const firstLadder = (stand: Stand): number => stand.known.exercises.findIndex(hasLadder);

const seen = (stand: Stand, columns: number, rows: number): string =>
  plainText(wholeScreen(stand, KEYS, { columns, rows }, 'signs'));

describe('the foot', () => {
  it('names the key of a breath only where breaths are counted', () => {
    const all = today();
    press(all, 'open');
    const seenWith = new Set<string>();
    for (let k = 0; k < 20 && all.stand().view.screen !== 'end'; k += 1) {
      const { run } = all.stand().sitting!;
      const counts = Boolean(run.items[run.at]?.breaths);
      if (all.stand().view.screen === 'block') {
        expect(/c breath/.test(seen(all.stand(), 120, 24).split('\n').at(-1) ?? '')).toBe(counts);
        seenWith.add(`${counts}`);
      }
      press(all, 'next-block');
    }
    expect([...seenWith].toSorted()).toEqual(['false', 'true']);
  });
});

describe('the foot of a block', () => {
  it('names no drone, no key and no way of tonguing where there is none: work on the body, a rest', () => {
    const all = today();
    press(all, 'open');
    const seenWith = new Set<boolean>();
    for (let k = 0; k < 20 && all.stand().view.screen !== 'end'; k += 1) {
      const { view } = all.stand();
      if (view.screen === 'block') {
        const words = seen(all.stand(), 160, 24).split('\n').at(-1) ?? '';
        expect(/ d drone /.test(words)).toBe(view.tone !== null);
        if (!view.tone) expect(words).not.toMatch(/\. key|a articulation/);
        seenWith.add(view.tone !== null);
      }
      press(all, 'next-block');
    }
    expect(seenWith).toContain(false);
  });

  it('names other keys and ways of tonguing only where there are others', () => {
    const words = (exercise: Parameters<typeof onStand>[0]): string =>
      seen(onStand(exercise).stand(), 200, 40).split('\n').at(-1) ?? '';
    expect(words({ keys: ['C'], articulations: ['single'] })).not.toMatch(/\. key|a articulation/);
    expect(words({ keys: ['C', 'F'], articulations: ['single', 'double'] })).toMatch(/\. key .*a articulation/);
  });
});

describe('Today', () => {
  it('says how many blocks are above and below, and keeps the chosen one in sight', () => {
    const all = today();
    press(all, 'more-time', 'more-time', 'more-time', 'more-time', 'more-time', 'more-time');
    const items = all.stand().day.plan?.items.length ?? 0;
    expect(items).toBeGreaterThan(10);
    expect(seen(all.stand(), 80, 18)).toMatch(/↓ \d+ more/);
    for (let k = 1; k < items; k += 1) {
      press(all, 'down');
      expect(seen(all.stand(), 80, 18)).toContain('▶');
    }
    expect(seen(all.stand(), 80, 18)).toMatch(/↑ \d+ more/);
  });

  it('lists what to get, a line for each thing, or says how many more', () => {
    const all = today();
    press(all, 'more-time', 'more-time', 'more-time', 'more-time', 'more-time', 'more-time');
    const stand = all.stand();
    const { plan } = stand.day;
    if (!plan) throw new Error('no plan');
    const things = ['the blue folder', 'studies, page 12', 'the mute'];
    const asked: Stand = { ...stand, day: { ...stand.day, plan: { ...plan, materials: things } } };
    const tall = seen(asked, 80, 40).split('\n');
    for (const thing of things) expect(tall.filter((row) => row.endsWith(` ${thing}`))).toHaveLength(1);
    expect(seen(asked, 80, 18)).toMatch(/To get: the blue folder and 2 more/);
  });

  it.each([60, 64, 72, 80, 100])('breaks no reason off in %i columns, and says the chosen one in full', (columns) => {
    const all = today();
    press(all, 'more-time', 'more-time', 'more-time', 'more-time');
    const { plan } = all.stand().day;
    if (!plan) throw new Error('no plan');
    const long = 'due now: 5 of 5 days, 45 % clean lately, you want it often';
    const stand: Stand = {
      ...all.stand(),
      day: { ...all.stand().day, plan: { ...plan, items: plan.items.map((item) => ({ ...item, reason: long })) } },
    };
    const rows = seen(stand, columns, 40).split('\n');
    expect(rows.filter((row) => / {2,}\d+:\d\d .*due now: 5 of 5 days/.test(row)).length).toBe(plan.items.length);
    expect(rows.filter((row) => row.includes('due now') && row.endsWith('…'))).toEqual([]);
    expect(rows.join('\n').replace(/\s+/g, ' ')).toContain(`Why: ${long}`);
  });

  it.each([60, 64, 80, 120])('names exercises and weeks at its foot in %i columns', (columns) => {
    const foot = seen(today().stand(), columns, 24).split('\n').at(-1);
    expect(foot).toMatch(/e exercises/);
    expect(foot).toMatch(/w weeks/);
    expect(foot).toMatch(/Enter begin/);
  });

  it('shows the order in the list: each turn has its number, however long its title', () => {
    const all = today();
    press(all, 'order');
    const { plan } = all.stand().day;
    if (!plan) throw new Error('no plan');
    for (const columns of [60, 80, 120]) {
      const text = seen(all.stand(), columns, 40);
      expect(text).toMatch(/in turns +25 minutes/);
      for (const { turn } of plan.items) if (turn) expect(text).toContain(` ${turn.n}/${turn.of} `);
    }
    const alone = plan.items.map((item) => ({ ...item, turn: null }));
    const inOneGo: Stand = { ...all.stand(), day: { ...all.stand().day, plan: { ...plan, items: alone } } };
    // Said below, whole: beside the minutes it cut the routine's title off.
    for (const columns of [64, 80, 120]) {
      const text = seen(inOneGo, columns, 24);
      expect(text).toMatch(/Cornet, every day +25 minutes/);
      expect(text).toContain('No two of these blocks can take turns.');
    }
  });
});

describe('the ways round a wall', () => {
  it.each([18, 20, 24, 36])('say in %i rows what is left out, and show the chosen one whole', (rows) => {
    const all = onStand();
    press(all, 'start-pause');
    marked(all, 'clean');
    press(all, 'way');
    const { view } = all.stand();
    if (view.screen !== 'ways') throw new Error('no ways');
    for (let k = 1; k < view.ways.offers.length; k += 1) {
      const text = seen(all.stand(), 80, rows);
      expect(text).toContain('▶');
      const isWhole = view.ways.offers.every(({ title }) => text.includes(title));
      expect(isWhole || /[↑↓] \d+ lines more/.test(text)).toBe(true);
      press(all, 'down');
    }
    expect(seen(all.stand(), 80, rows)).toContain('▶');
  });
});

describe('the exercises', () => {
  it.each([60, 64, 80, 120])('keep their numbers under their heads in %i columns', (columns) => {
    const all = today();
    press(all, 'exercises');
    press(
      all,
      ...all
        .stand()
        .known.exercises.slice(0, firstLadder(all.stand()))
        .map(() => 'down' as const),
    );
    const rows = seen(all.stand(), columns, 24).split('\n');
    const head = rows.find((row) => row.includes('articulation')) ?? '';
    const chosen = rows.find((row) => row.includes('▶')) ?? '';
    const numbersEnd = head.indexOf('now') + 3;
    expect(chosen.slice(0, numbersEnd)).toMatch(/\d$/);
  });

  it('tell two of the same title apart by their files; one alone bears its title only', () => {
    const first = today().stand();
    const [one, other] = first.known.exercises;
    const twin = { ...other!, title: one!.title, file: 'my-evening', id: 'my-evening/twin' };
    const known = { ...first.known, exercises: [one!, twin, other!] };
    const stand: Stand = { ...first, known, view: { screen: 'exercises' } };
    const screen = seen({ ...stand, choice: { ...stand.choice, row: 1 } }, 120, 24);
    expect(screen).toContain(`${one!.title} (${one!.file})`);
    expect(screen).toContain(`${one!.title} (my-evening)`);
    expect(screen).toContain('From the file my-evening.');
    expect(screen).toMatch(new RegExp(`${other!.title} +[A-G]`, 'u'));
    expect(seen({ ...stand, choice: { ...stand.choice, row: 2 } }, 120, 24)).not.toContain('From the file');
    // Where there is little room the file of the chosen one can still be read.
    expect(seen({ ...stand, choice: { ...stand.choice, row: 1 } }, 60, 24)).toContain('From the file my-evening.');
  });
});
