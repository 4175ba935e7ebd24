/** Bad input of every command: one sentence, an exit code that is not 0, nothing printed, no stack trace. */
import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Said, eachWithData, standside, standsideInTerminal } from './typed.ts';

const data = eachWithData();

/** One sentence on stderr; commander puts a guess below its own. */
function expectSentence({ code, out, err }: Said, sentence: RegExp, exitCode: number): void {
  expect(err).toMatch(sentence);
  expect(err.trim().replace(/\n\(Did you mean .*\)$/, '')).not.toContain('\n');
  expect(err).not.toMatch(/^ +at |a mistake in the program/m);
  expect({ code, out }).toEqual({ code: exitCode, out: '' });
}

/** 'DATA' stands for the data folder. */
const typed = (words: string): readonly string[] =>
  `--data DATA ${words}`
    .split(' ')
    .filter(Boolean)
    .map((word) => word.replace('DATA', data()));

/** Each command with all that it needs. */
const WHOLE = [
  '',
  'bests',
  'sound',
  'drill quick-turn',
  'exercises',
  'journal check',
  'journal export',
  'journal merge DATA/other.jsonl',
  'journal schema',
  'ladder',
  'listen DATA/take.wav --exercise quick-turn',
  'tendencies',
  'practice quick-turn',
  'render quick-turn --out DATA/click.wav',
  'weeks',
  'routine check',
  'routine show mine',
  'routine new other',
  'routine fit mine --minutes 10',
  'lag',
  'write quick-turn --out DATA/page.abc',
] as const;

describe('an unknown option', () => {
  it.each(WHOLE)('of %j', async (words) => {
    expectSentence(await standside(...typed(`${words} --nonsense`)), /^error: unknown option '--nonsense'$/m, 2);
  });
});

describe('what is missing', () => {
  it.each([
    ['drill', /missing required argument 'exercise'/],
    ['journal merge', /missing required argument 'file'/],
    ['listen', /missing required argument 'file'/],
    ['practice', /missing required argument 'exercise'/],
    ['render --out DATA/click.wav', /missing required argument 'exercise'/],
    ['render quick-turn', /required option '--out <file>' not specified/],
    ['routine show', /missing required argument 'routine'/],
    ['routine new', /missing required argument 'name'/],
    ['routine fit --minutes 10', /missing required argument 'routine'/],
    ['routine fit mine', /required option '--minutes <n>' not specified/],
    ['write --out DATA/page.abc', /missing required argument 'exercise'/],
    ['write quick-turn', /required option '--out <file>' not specified/],
    ['sound --device', /option '--device <name>' argument missing/],
  ])('in %j', async (words, sentence) => {
    expectSentence(await standside(...typed(words)), sentence, 2);
  });

  it.each(['journal', 'routine'])('after %s shows what there is, on stderr', async (words) => {
    const { code, out, err } = await standside(...typed(words));
    expect(err).toMatch(new RegExp(`^Usage: standside ${words}`));
    expect({ code, out }).toEqual({ code: 2, out: '' });
  });
});

describe('a word too many', () => {
  it.each(WHOLE.filter((words) => words !== '' && words !== 'routine check' && !words.startsWith('journal merge')))(
    'after %j',
    async (words) => {
      expectSentence(await standside(...typed(`${words} another`)), /^error: too many arguments for/, 2);
    },
  );

  it('that is no command says which there are, harmless', async () => {
    expectSentence(await standside('\u001b[2J'), /^standside: There is no command '\\u001b\[2J'; the commands are/, 2);
    expectSentence(await standside('journal', 'chek'), /^error: unknown command 'chek'\n\(Did you mean check\?\)$/m, 2);
  });
});

describe('an unreadable data folder', () => {
  const FOLDER = /^standside: .* (cannot be read|cannot be used|cannot be written): .*\.$/m;

  it.each(
    WHOLE.filter((words) => !['', 'sound', 'journal schema', 'ladder', 'practice quick-turn', 'lag'].includes(words)),
  )('stops %j', async (words) => {
    rmSync(data(), { recursive: true });
    writeFileSync(data(), 'a file in its way');
    expectSentence(await standside(...typed(words)), FOLDER, 1);
  });

  it.each(['', 'practice quick-turn'])('stops %j in a terminal, before anything is drawn', async (words) => {
    rmSync(data(), { recursive: true });
    writeFileSync(data(), 'a file in its way');
    expectSentence(await standsideInTerminal(...typed(words)), FOLDER, 1);
  });

  it.each(['bests', 'journal check', 'journal export', 'weeks', 'routine fit mine --minutes 10'])(
    'stops %j where the journal is a folder',
    async (words) => {
      rmSync(join(data(), 'journal.jsonl'));
      mkdirSync(join(data(), 'journal.jsonl'));
      expectSentence(await standside(...typed(words)), /journal\.jsonl cannot be read: it is a folder\.$/m, 1);
    },
  );
});

describe('a nonsense number', () => {
  it.each([
    ['--clock-rate fast', "--clock-rate is 'fast'; it must be a number from 1 to 1000."],
    ['--clock-rate 0.5', "--clock-rate is '0.5'; it must be a number from 1 to 1000."],
    ['render quick-turn --out DATA/a.wav --bars 1.5', "--bars is '1.5'; it must be a whole number from 1 to 10000."],
    ['render quick-turn --out DATA/a.wav --times 0', "--times is '0'; it must be a whole number from 1 to 10000."],
    [
      'render quick-turn --out DATA/a.wav --rate fast',
      "--rate is 'fast'; it must be a whole number from 8000 to 192000.",
    ],
    ['weeks --weeks some', "--weeks is 'some'; it must be a whole number from 1 to 520."],
    ['routine fit mine --minutes some', "--minutes is 'some'; it must be a number like 25."],
    ['routine fit mine --minutes 0', '--minutes: 0 minutes cannot be planned; write a number from 1 to 600.'],
    ['routine fit mine --minutes 9 --seed -1', "--seed is '-1'; it must be a whole number from 0 to 999999999."],
    [
      'drill quick-turn --tempo fast',
      "--tempo 'fast' is no tempo; give a number from 10 to 400 beats per minute, like 96.",
    ],
  ])('%s', async (words, sentence) => {
    const said = await standside(...typed(words));
    expectSentence(said, /^standside: --/, 1);
    expect(said.err).toBe(`standside: ${sentence}\n`);
  });

  it.each([
    ['ladder --days x --simulate 2', "--days is 'x'; it must be a whole number from 1 to 1000."],
    ['ladder --slope x', "--slope is 'x'; it must be a number from 1 to 100."],
  ])('%s', async (words, sentence) => {
    const said = await standside(...typed(words));
    expectSentence(said, /^standside: --/, 2);
    expect(said.err).toBe(`standside: ${sentence}\n`);
  });

  it.each(['write quick-turn --out DATA/page.abc --tempo 5', 'render quick-turn --out DATA/a.mid --tempo 401'])(
    '%s',
    async (words) => {
      expectSentence(await standside(...typed(words)), /^standside: --tempo '\d+' is no tempo; give a number/, 1);
    },
  );

  it('for a tempo to practise at is said before anything is drawn', async () => {
    const said = await standsideInTerminal(...typed('practice quick-turn --tempo fast'));
    expectSentence(said, /^standside: --tempo 'fast' is no tempo/, 1);
    expect(existsSync(join(data(), 'standside.lock'))).toBe(false);
  });

  it('is shown harmless, and an empty one is none', async () => {
    expect((await standside('weeks', '--data', data(), '--weeks', '\u001b[2J')).err).toBe(
      "standside: --weeks is '\\u001b[2J'; it must be a whole number from 1 to 520.\n",
    );
    expect((await standside('weeks', '--data', data(), '--weeks', '')).err).toContain("--weeks is ''; it must be");
  });
});

describe('what is no terminal', () => {
  it.each(['', 'practice quick-turn', 'lag'])('stops %j', async (words) => {
    expectSentence(await standside(...typed(words)), /^standside: (This screen|The tap test) .*needs a terminal/, 2);
  });
});

describe('what nothing is written for', () => {
  it.each([
    ['render quick-turn --out DATA/click.wav --rate fast', 'click.wav'],
    ['write quick-turn --out DATA/page.abc --key H', 'page.abc'],
  ])('leaves no file: %s', async (words, file) => {
    expect((await standside(...typed(words))).code).toBe(1);
    expect(existsSync(join(data(), file))).toBe(false);
  });
});
