/** Forms of the player's own exercises: to YAML and back, and what is said of bad input in every field. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseRoutine } from '../../../src/plan/file/routine-file.ts';
import { formOf } from '../../../src/plan/own/form-of-exercise.ts';
import { mistakesIn } from '../../../src/plan/own/form-mistakes.ts';
import { newName } from '../../../src/plan/own/new-name.ts';
import { BLANK_FORM, FIELDS, type Field, type OwnForm, nextChoice } from '../../../src/plan/own/own-form.ts';
import { OWN_FILE, keptIn } from '../../../src/plan/own/own-file.ts';
import { rightForm } from './forms.ts';

const FILE = `${OWN_FILE}.yaml`;
const none = () => ({ trouble: 'there is nothing else here.' });

function kept(form: OwnForm, text = ''): string {
  const name = newName(form.title, new Set());
  const change = keptIn(
    text,
    FILE,
    { name, before: null, form, history: name, beside: { name: 'b', history: 'b' } },
    none,
  );
  if ('wrong' in change) throw new Error(change.wrong);
  return change.text;
}

function readBack(text: string) {
  const read = parseRoutine(text, FILE, none);
  if ('troubles' in read) throw new Error(`${read.troubles[0]?.sentence}\n${text}`);
  return read.routine.exercises;
}

describe('a form', () => {
  it('to YAML to form is the same form', () => {
    fc.assert(
      fc.property(rightForm, (form) => {
        expect(mistakesIn(form)).toEqual([]);
        expect(readBack(kept(form)).map(formOf)).toEqual([form]);
      }),
      { numRuns: 200 },
    );
  });

  it('is written as a person would write it', () => {
    const form = {
      ...BLANK_FORM,
      title: 'Blue folder, p. 12',
      from: '60',
      to: '96',
      keys: 'C F Bb',
      cues: 'Air first',
    };
    expect(kept(form).split('\n').slice(2)).toEqual([
      'exercises:',
      '  blue-folder-p-12:',
      '    title: Blue folder, p. 12',
      '    keys: [C, F, Bb]',
      '    tempo: 60 -> 96',
      '    cues: [Air first]',
      '    history: blue-folder-p-12',
      '',
    ]);
  });

  it('needs a title and no more', () => {
    expect(mistakesIn(BLANK_FORM).map(({ field }) => field)).toEqual(['title']);
    expect(mistakesIn({ ...BLANK_FORM, title: 'x' })).toEqual([]);
  });

  it('goes round its choices, and the first of them is left out', () => {
    const once = nextChoice(BLANK_FORM, 'work', 1);
    expect(once.work).toBe('breaths');
    expect(nextChoice(nextChoice(once, 'work', 1), 'work', 1).work).toBe('');
    expect(nextChoice(BLANK_FORM, 'work', -1).work).toBe('clock');
  });
});

const LONG = 'x'.repeat(10_000);
const BAD: readonly (readonly [Field, string, RegExp])[] = [
  ['from', '0', /write beats per minute from 10 to 400, not '0'/],
  ['from', '9999', /from 10 to 400, not '9999'/],
  ['from', 'fast', /from 10 to 400, not 'fast'/],
  ['from', '-60', /not '-60'/],
  ['from', '1e2', /not '1e2'/],
  ['to', '9999', /from 10 to 400/],
  ['to', '12', /a start that is not above the target/],
  ['keys', 'H', /'H' is no key/],
  ['keys', 'C, Q flat', /'Q flat' is no key/],
  ['scale', 'bluesy', /scale/],
  ['pattern', '1 2 x 4', /./],
  ['pattern', '1 2 3 | 1 2', /./],
  ['articulations', 'quadruple', /quadruple/],
  ['meter', '4', /write a meter like 4\/4/],
  ['meter', '7/8 (2+2)', /groups/],
  ['beat', 'crotchet', /a note value like quarter/],
  ['bars', '2.5', /a whole number from 1 to 1000/],
  ['bars', '0', /a whole number from 1 to 1000/],
  ['notes', '17', /a number from 0.25 to 16/],
  ['breaths', '10', /leave this empty, or let it go by 'breaths'/],
  ['minutes', '0', /a number of minutes from 0.5 to 240/],
  ['minutes', 'five', /not 'five'/],
  ['cues', Array.from({ length: 21 }, () => 'a').join(';'), /at most 20 cues/],
];

describe('bad input', () => {
  it.each(BAD)("in '%s', %s, is named there with what would be right", (field, text, sentence) => {
    const found = mistakesIn({ ...BLANK_FORM, title: 'x', from: '60', [field]: text });
    expect(found.map((one) => one.field)).toContain(field === 'to' && text === '12' ? 'from' : field);
    expect(found[0]?.sentence).toMatch(sentence);
    expect(found[0]?.sentence).toMatch(/\.$/);
  });

  it.each(FIELDS.filter((field) => field !== 'kind' && field !== 'work'))(
    "of ten thousand characters, of control characters and of marks that turn text round is named in '%s'",
    (field) => {
      const said = (text: string) =>
        mistakesIn({ ...BLANK_FORM, title: 'x', [field]: text }).filter((one) => one.field === field);
      expect(said(LONG)[0]?.sentence).toMatch(/write at most \d+ characters, not 10000/);
      for (const sign of ['\u0007', '\u001b', '\u202e', '\u2066', '\ufeff'])
        expect(said(`1 ${sign}`)[0]).toEqual({
          field,
          at: 3,
          sentence: 'take out character 3: it is one that a terminal obeys or that turns text round.',
        });
    },
  );

  it('in a pattern is named at its place', () => {
    const [found] = mistakesIn({ ...BLANK_FORM, title: 'x', pattern: '1 2 q 4' });
    expect(found).toMatchObject({ field: 'pattern', at: 5 });
  });

  it('is said in every field at once', () => {
    const form = { ...BLANK_FORM, from: '0', keys: 'H', bars: 'x', pattern: '1 (2' };
    expect(mistakesIn(form).map(({ field }) => field)).toEqual(['title', 'from', 'pattern', 'keys', 'bars']);
  });
});

describe('a new name', () => {
  it.each([
    ['Blue folder, p. 12', 'blue-folder-p-12'],
    ['Étude nº 3', 'etude-no-3'],
    ['Глинка', 'exercise'],
    [' -- ', 'exercise'],
  ])('of %s is %s', (title, name) => expect(newName(title, new Set())).toBe(name));

  it('is nobody else’s', () => {
    expect(newName('Scales', new Set(['scales', 'scales-2']))).toBe('scales-3');
  });
});
