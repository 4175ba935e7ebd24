/** The form and the list by hand: pictures as text, the keys they take, and what is read out of them. */
import { stripVTControlCharacters } from 'node:util';
import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import { ownKeys } from '../../src/runtime/files/own-keys.ts';
import { keyPressed } from '../../src/ui/app.tsx';
import { formLines } from '../../src/ui/forms/form-lines.ts';
import { FormPage } from '../../src/ui/forms/form-page.tsx';
import { KEYS, type OwnKeys, withOwnKeys } from '../../src/ui/keys.ts';
import { plainText } from '../../src/ui/paint.ts';
import { wholeScreen } from '../../src/ui/whole-screen.ts';
import { listToday } from '../../src/practice/screens/today-keys.ts';
import { sit } from '../practice/daily-sitting.ts';

const NO_KEY = {
  upArrow: false,
  downArrow: false,
  leftArrow: false,
  rightArrow: false,
  pageDown: false,
  pageUp: false,
  home: false,
  end: false,
  return: false,
  escape: false,
  ctrl: false,
  shift: false,
  tab: false,
  backspace: false,
  delete: false,
  meta: false,
  super: false,
  hyper: false,
  capsLock: false,
  numLock: false,
};

const FLAGS = {
  enter: 'return',
  tab: 'tab',
  escape: 'escape',
  up: 'upArrow',
  down: 'downArrow',
  left: 'leftArrow',
  right: 'rightArrow',
  pagedown: 'pageDown',
  pageup: 'pageUp',
} as const;

/** The program from its keyboard on, with the player's own keys. */
function desk(own: OwnKeys = {}) {
  const all = sit([]);
  const keys = withOwnKeys(own);
  const act = { state: all.stand, subscribe: () => () => {}, act: all.key };
  const hit = (...names: readonly string[]): void =>
    names.forEach((name) => {
      const flag = FLAGS[name as keyof typeof FLAGS] as string | undefined;
      keyPressed(act, keys, flag ? '' : name, flag ? { ...NO_KEY, [flag]: true } : NO_KEY);
    });
  const picture = (columns: number, rows: number): string => {
    const page = <FormPage stand={all.stand()} keys={keys} size={{ columns, rows }} lettering="signs" />;
    return stripVTControlCharacters(renderToString(page, { columns }));
  };
  return {
    ...all,
    hit,
    picture,
    keys,
    type: (text: string) => hit(...text),
    titles: () => listToday(all.stand()).map(({ title }) => title),
  };
}

const withThree = (own: OwnKeys = {}) => {
  const all = desk(own);
  all.hit('l');
  for (const title of ['thirds', 'five', 'lip']) {
    all.type(title);
    all.hit('enter');
  }
  all.hit('tab');
  return all;
};

describe('the list’s keys', () => {
  it('stand in the one table: the player’s own take their place, in the foot line and on the page of keys too', () => {
    const own = ownKeys.parse({ 'take-out': ['o'], 'move-down': 'z' });
    const all = withThree(own);
    all.hit('x');
    expect(all.titles()).toHaveLength(3);
    all.hit('z');
    expect(all.titles()[1]).toBe('Thirds up and down');
    all.hit('o');
    expect(all.titles()).toEqual(['Five-note study', 'Lip flexibility, three partials']);
    expect(all.picture(80, 24)).toMatch(/ o out /);
    all.hit('?');
    const help = plainText(wholeScreen(all.stand(), all.keys, { columns: 80, rows: 36 }, 'signs'));
    expect(help).toMatch(/Keys in the list by hand/);
    expect(help).toMatch(/ o out /);
    all.hit('?');
    expect(all.picture(80, 24)).toMatch(/Today’s list/);
  });

  it('each have a sentence of their own', () => {
    const rows = KEYS.filter(({ places }) => places.includes('list'));
    expect(rows.length).toBeGreaterThan(15);
    expect(new Set(rows.map(({ help }) => help)).size).toBe(rows.length);
  });

  it('leave the program and the list like everywhere', () => {
    const all = withThree();
    all.hit('escape');
    expect(all.screen()).toBe('today');
    all.hit('l', 'q');
    expect(all.stand().leaving).toBe(true);
  });
});

describe('a pedal', () => {
  it('goes on in the list and plays from there', () => {
    const all = withThree();
    all.hit('pageup', 'pagedown');
    expect(all.screen()).toBe('practice');
    expect(all.item()?.title).toBe('Five-note study');
  });

  it('goes on in what is found and puts it in', () => {
    const all = desk();
    all.hit('l', 'pageup', 'pagedown');
    expect(all.titles()).toEqual([all.stand().known.exercises[1]?.title]);
  });

  it('does so with whatever it was set to send, but for letters where one types', () => {
    const all = desk({ 'pedal-back': ['down', 'b'], 'pedal-forward': ['right'] });
    all.hit('l', 'down', 'right');
    expect(all.titles()).toEqual([all.stand().known.exercises[1]?.title]);
    all.hit('b');
    expect(all.stand().view).toMatchObject({ typed: 'b' });
  });
});

/** Each picture is held as it was looked at; `-u` writes it anew. */
const held = (name: string): string => `./pictures/${name}.txt`;

const SIZES = [
  [80, 24],
  [64, 20],
  [120, 36],
] as const;

describe.each(SIZES)('at %i by %i', (columns, rows) => {
  const look = (all: ReturnType<typeof desk>): string => {
    const text = all.picture(columns, rows);
    const lines = text.split('\n');
    expect(lines.length).toBeLessThanOrEqual(rows);
    expect(Math.max(...lines.map((one) => [...one].length))).toBeLessThanOrEqual(columns);
    return text;
  };
  const shot = (all: ReturnType<typeof desk>, name: string) =>
    expect(`${look(all)}\n`).toMatchFileSnapshot(held(`${name}-${columns}x${rows}`));

  it('a new exercise shows every field with what it is by itself, and its notes below', async () => {
    const all = desk();
    all.hit('n');
    await shot(all, 'form-blank');
    all.type('Blue folder, p. 12');
    all.hit('down', '6', '0', 'down', 'down', 'down', 'down');
    all.type('1 2 3 4 5 4 3 2 | 1');
    await shot(all, 'form-notes');
  });

  it('a mistake stands at its field, and Esc asks before anything typed is lost', async () => {
    const all = desk();
    all.hit('n', 'T', 'down');
    all.type('9999');
    await shot(all, 'form-mistake');
    all.hit('escape');
    await shot(all, 'form-question');
  });

  it('the list shows what is in it beside what can be put into it', async () => {
    const all = withThree();
    await shot(all, 'list-order');
    all.hit('tab');
    all.type('tri');
    await shot(all, 'list-find');
    all.hit('escape', 'tab', 'r');
    all.type('Band days');
    await shot(all, 'list-name');
  });
});

describe('what is read out', () => {
  const said = (all: ReturnType<typeof desk>): string => formLines(all.stand()).join('\n');

  it('of a form is the field with what may be typed there, and the question', () => {
    const all = desk();
    all.hit('n');
    expect(said(all)).toBe('Title: Title and tempo are enough; everything else is as it stands there.');
    all.type('Page');
    all.hit('down');
    expect(said(all)).toBe('Tempo from: Beats per minute to begin with.');
    all.type('9999');
    expect(said(all)).toBe("Tempo from: write beats per minute from 10 to 400, not '9999'.");
    all.hit('escape');
    expect(said(all)).toBe(
      'Leave this exercise? Enter keep it, l leave it for later, d drop what you typed, Esc go on writing.',
    );
  });

  it('of the list is the thing under the finger, what is found, and the name', () => {
    const all = withThree();
    expect(said(all)).toBe('1 of 3: Thirds up and down, 5 minutes');
    all.hit('down', '+');
    expect(said(all)).toBe('2 of 3: Five-note study, 6 minutes');
    all.hit('tab');
    all.type('trip');
    expect(said(all)).toBe('Find: Triple-tongued run, 1 found');
    all.type('xx');
    expect(said(all)).toBe('Find: nothing is called that, 0 found');
    all.hit('escape', 'tab', 'r');
    expect(said(all)).toBe('Name of the list:');
  });

  it('has nothing to say elsewhere', () => expect(said(desk())).toBe(''));
});
