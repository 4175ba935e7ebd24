/** Edits of a routine file's text: comments and order survive them, and two editors lose nothing. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type Settings, withSettings } from '../../../src/plan/own/exercise-edit.ts';
import { formOf } from '../../../src/plan/own/form-of-exercise.ts';
import { OWN_FILE, keptIn } from '../../../src/plan/own/own-file.ts';
import { BLANK_FORM, type OwnForm } from '../../../src/plan/own/own-form.ts';
import { commentsIn } from '../../../src/plan/own/yaml-comments.ts';
import { parseRoutine } from '../../../src/plan/file/routine-file.ts';

const TEXT = `# For the band, spring.
routine: Spring   # my own
instrument: cornet

exercises:
  # the first one
  five-notes:
    title: Five notes      # up and down
    pattern: "1 2 #4 5"  # a # that is no comment
    keys: [C, F]   # more later
    cues:
      - Air first
      - Shoulders low
    # the end of it
    tempo: 60 -> 96

  page: {material: 'Blue folder, p. 12', tempo: 60} # braces
  block-text:
    # nothing yet
    material: >-
      The folder
      on the shelf
    bars: 8

# what the day is
parts:
  - part: All   # of it
    blocks:
      - five-notes: 5 # five
      - page: 5
`;

const words = fc.constantFrom(
  'One',
  'two: three',
  'a # b',
  "it's",
  '[x]',
  'C, F',
  '60',
  'yes',
  '- dash',
  'long '.repeat(30),
);
const value = fc.oneof(words, fc.integer({ min: 1, max: 200 }), fc.array(words, { maxLength: 3 }));
const edit = fc.tuple(
  fc.constantFrom('five-notes', 'page', 'block-text', 'new-one', 'another'),
  fc.dictionary(fc.constantFrom('title', 'keys', 'cues', 'tempo', 'material', 'bars', 'kind'), fc.option(value), {
    minKeys: 1,
    maxKeys: 3,
  }),
);

const names = (group: unknown): readonly string[] => Object.keys((group ?? {}) as object);

describe('a thousand edits, one upon the other', () => {
  it('keep every comment and the order of what was there', () => {
    let done = 0;
    fc.assert(
      fc.property(fc.array(edit, { minLength: 10, maxLength: 10 }), fc.boolean(), (edits, isWindows) => {
        let text = isWindows ? TEXT.replaceAll('\n', '\r\n') : TEXT;
        const comments = commentsIn(TEXT);
        for (const [name, settings] of edits) {
          const before = parse(text) as Record<string, Record<string, Record<string, unknown>>>;
          const after = withSettings(text, name, settings as Settings);
          if (after === null) throw new Error(`not written: ${name} ${JSON.stringify(settings)}\n${text}`);
          const said = parse(after) as typeof before;
          expect(commentsIn(after).filter((one) => comments.includes(one))).toEqual(comments);
          expect(names(said)).toEqual(names(before));
          const old = names(before['exercises']);
          expect(names(said['exercises']).slice(0, old.length)).toEqual(old);
          for (const other of old.filter((one) => one !== name))
            expect(said['exercises']?.[other]).toEqual(before['exercises']?.[other]);
          for (const [setting, wanted] of Object.entries(settings))
            expect(said['exercises']?.[name]?.[setting]).toEqual(wanted ?? undefined);
          text = after;
          done += 1;
        }
      }),
      { numRuns: 100 },
    );
    expect(done).toBe(1000);
  });

  it('change nothing but the value where it stands on its line', () => {
    const after = withSettings(TEXT, 'five-notes', { title: 'Six notes', tempo: 66 });
    expect(after).toBe(TEXT.replace('title: Five notes ', 'title: Six notes ').replace('60 -> 96', '66'));
    expect(withSettings(TEXT, 'page', { tempo: '66 -> 90' })).toBe(TEXT.replace('tempo: 60}', 'tempo: 66 -> 90}'));
  });

  it('leave a text alone that is broken or tied together', () => {
    expect(withSettings('exercises: [', 'a', { title: 'x' })).toBeNull();
    expect(withSettings('- a\n- b\n', 'a', { title: 'x' })).toBeNull();
    const tied = 'exercises:\n  a: &a {title: A}\n  b: *a\n';
    expect(withSettings(tied, 'b', { title: 'B' })).toBeNull();
  });
});

const FILE = `${OWN_FILE}.yaml`;
const none = () => ({ trouble: 'there is nothing else here.' });
const page: OwnForm = { ...BLANK_FORM, title: 'Page', from: '60', material: 'Blue folder' };

const FIELD_VALUES = {
  title: ['Page', 'Page twelve', 'The page'],
  from: ['60', '66', '72'],
  material: ['', 'Blue folder', 'Red folder'],
  spot: ['', 'bar 9', 'low C sharp'],
  keys: ['', 'F', 'F, Bb'],
} as const;

const drawn = fc.record(
  Object.fromEntries(Object.entries(FIELD_VALUES).map(([field, values]) => [field, fc.constantFrom(...values)])),
) as fc.Arbitrary<Partial<OwnForm>>;

const formsIn = (text: string): readonly OwnForm[] => {
  const read = parseRoutine(text, FILE, none);
  if ('troubles' in read) throw new Error(read.troubles[0]?.sentence);
  return read.routine.exercises.map(formOf);
};

const keeping = (before: OwnForm | null, form: OwnForm) => ({
  name: 'page',
  before,
  form,
  history: 'page',
  beside: { name: 'page-2', history: 'page-2' },
});

function written(text: string, before: OwnForm | null, form: OwnForm) {
  const change = keptIn(text, FILE, keeping(before, form), none);
  if ('wrong' in change) throw new Error(change.wrong);
  return change;
}

describe('two who change one exercise at once', () => {
  const first = written('', null, page).text;

  it('lose nothing: whatever either changed stands in the file', () => {
    fc.assert(
      fc.property(drawn, drawn, (theirs, mine) => {
        const editor = { ...page, ...theirs };
        const here = { ...page, ...mine };
        const byEditor = written(first, page, editor).text;
        const { text, sentence } = written(byEditor, page, here);
        const all = formsIn(text);
        for (const field of Object.keys(FIELD_VALUES) as readonly (keyof typeof FIELD_VALUES)[]) {
          if (editor[field] !== page[field]) expect(all[0]?.[field]).toBe(editor[field]);
          if (here[field] !== page[field])
            expect(all.some((one) => one[field] === here[field] || one[field] === `${here[field]} (typed)`)).toBe(true);
        }
        expect(all.length === 2).toBe(/both are kept/.test(sentence));
      }),
    );
  });

  it('both keep what they typed where they typed the same thing differently, and it is said', () => {
    const theirs = written(first, page, { ...page, from: '72' }).text;
    const { text, sentence } = written(theirs, page, { ...page, from: '80' });
    expect(sentence).toBe("The file said something else of 'from' meanwhile: both are kept, yours as 'Page (typed)'.");
    expect(formsIn(text).map(({ title, from }) => [title, from])).toEqual([
      ['Page', '72'],
      ['Page (typed)', '80'],
    ]);
  });

  it('have it again where the other one took it out', () => {
    const { text } = written('routine: Mine\n', page, { ...page, from: '80' });
    expect(formsIn(text)).toEqual([{ ...page, from: '80' }]);
  });

  it('leave a file alone that has a mistake in it, and say where', () => {
    const change = keptIn('exercises:\n  a: {tempi: 3}\n', FILE, keeping(page, page), none);
    expect(change).toMatchObject({
      wrong: expect.stringMatching(/^my-exercises.yaml, line 2, column \d+: .*is kept\.$/),
    });
  });
});
