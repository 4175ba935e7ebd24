import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { type ReadInclude, parseRoutine, readUtf8 } from '../../src/plan/file/routine-file.ts';

const alone: ReadInclude = () => ({ trouble: 'there is no such file.' });
const among =
  (files: Readonly<Record<string, string>>): ReadInclude =>
  (name) =>
    files[name] === undefined ? { trouble: `there is no ${name}.` } : { text: files[name] };

function sentences(text: string, read: ReadInclude = alone): readonly string[] {
  const parsed = parseRoutine(text, 'a.yaml', read);
  return 'troubles' in parsed ? parsed.troubles.map(troubleLine) : [];
}

const day = (block: string): string =>
  `exercises: {scales: {articulations: [slurred]}}\nparts:\n  - part: A\n    blocks:\n      - ${block}\n`;
const refersTo = (name: string): string => `[${`*${name},`.repeat(9)}*${name}]`;
const bomb = `a: &a [${'x,'.repeat(20)}x]\n${[...'bcdefgh']
  .map((name, i) => `${name}: &${name} ${refersTo('abcdefgh'[i] as string)}`)
  .join('\n')}\n`;

describe('bad input, each with its place and what would be right', () => {
  it.each<readonly [string, string, readonly string[]]>([
    ['nothing', '', ["line 1, column 1: the file is empty; begin with 'routine: ' and a title."]],
    ['no YAML of ours', 'just words', ['line 1, column 1: the file is "just words"; write']],
    [
      'a tab',
      'exercises:\n\tscales: {}\n',
      ['line 2, column 1: a tab stands where spaces belong; indent with spaces.'],
    ],
    [
      'a name twice',
      'routine: A\nroutine: B\n',
      ["line 2, column 1: 'routine' stands here a second time; keep one of the two."],
    ],
    [
      'negative minutes',
      day('scales: -3'),
      ["line 5, column 17: 'scales' is -3; write a number of minutes from 0.5 to 240."],
    ],
    ...(['aim 0', 'aim 100', 'much'] as const).map((rule): readonly [string, string, readonly string[]] => [
      `the rule ${rule}`,
      `exercises: {scales: {rule: ${rule}}}\n`,
      [
        `line 1, column 28: 'rule' is "${rule}"; write aim and a share of clean repetitions from 60 % to 95 %, like ` +
          'aim 80 %, or count for so many in a row.',
      ],
    ]),
    [
      'a number of tense ones that is none',
      'exercises: {scales: {tense down: 0}}\n',
      ["line 1, column 34: 'tense down' is 0; write a whole number from 1 to 20, or never."],
    ],
    ['no minutes', day('scales: 0'), ["'scales' is 0; write a number of minutes from 0.5 to 240."]],
    [
      '9999 minutes',
      day('{play: scales, minutes: 9999}'),
      ["line 5, column 33: 'minutes' is 9999; write a number of minutes from 0.5 to 240."],
    ],
    [
      'minutes in words',
      day('scales: many'),
      ['line 5, column 17: \'scales\' is "many"; write its minutes, from 0.5 to 240.'],
    ],
    [
      'a misspelt setting',
      day('{play: scales, minuts: 4}'),
      ["line 5, column 24: there is no 'minuts' in a block; did you mean 'minutes'?"],
    ],
    [
      'an unknown exercise',
      day('scalse: 5'),
      ["line 5, column 9: there is no exercise 'scalse'; did you mean 'scales'?"],
    ],
    [
      'two things at once',
      day('{rest: 5, play: scales}'),
      ['a block has one of play, draw, do and rest; here are play and rest.'],
    ],
    ['no thing', day('{minutes: 5}'), ['a block has one of play, draw, do and rest; here is none.']],
    [
      'more at least than at most',
      day('{play: scales, minutes: 3, least: 4}'),
      ["'least' is 4; write no more than the block's 3 minutes."],
    ],
    [
      'an articulation the exercise lacks',
      day('{play: scales, articulations: slured}'),
      ["there is no articulation 'slured'; did you mean 'slurred'?"],
    ],
    [
      'groups that do not fill the bar',
      'exercises: {a: {meter: 7/8 (2+2+2)}}',
      ['line 1, column 24: \'meter\' is "7/8 (2+2+2)"; write groups that add up to 7, not to 6.'],
    ],
    ['no beats in a bar', 'exercises: {a: {meter: 0/4}}', ['\'meter\' is "0/4"; write an upper number from 1 to 32.']],
    ['a tempo of nothing', 'exercises: {a: {tempo: 0}}', ["'tempo' is 0; write beats per minute from 10 to 400."]],
    ['a tempo in words', 'exercises: {a: {tempo: fast}}', ['\'tempo\' is "fast"; write a start']],
    ['a start above the target', 'exercises: {a: {tempo: 90 -> 60}}', ['write a start that is not above the target.']],
    [
      'a start off the ladder',
      'exercises: {a: {tempo: 50, ladder: 60 to 90}}',
      ['write tempos on the ladder, from 60 to 90.'],
    ],
    [
      'the same under defaults',
      'defaults: {ladder: 90 to 60}\nexercises: {a: {}}',
      ['line 1, column 20: \'ladder\' is "90 to 60"; write a lower and then a higher tempo, both from 10 to 400.'],
    ],
    ['a step of nothing', 'exercises: {a: {step: 0%}}', ['write a percentage from 0.1% to 50%.']],
    ['a degree of nothing', 'exercises: {a: {pattern: 1 2 0 4}}', ['a.yaml, line 1, column 30:']],
    [
      'a bar that is too short',
      'exercises: {a: {pattern: 1:1/4 2:1/4 | 1}}',
      ['line 1, column 26: Bar 1 is too short by 1/2'],
    ],
    [
      'an unknown scale',
      'exercises: {a: {scale: blue}}',
      ["line 1, column 24: 'blue' is no scale: write one of major"],
    ],
    [
      'an unknown key',
      'exercises: {a: {keys: [C, H]}}',
      ["line 1, column 23: 'H' is no key: write a letter from A to G"],
    ],
    [
      'a way of tonguing that is none',
      'exercises: {a: {articulations: [single, quadruple]}}',
      ["line 1, column 32: 'quadruple' is no way of tonguing: write slurred"],
    ],
    [
      'a rotation that is none',
      'exercises: {a: {rotate: upwards}}',
      ['\'rotate\' is "upwards"; write one of own, fifths'],
    ],
    [
      'more bars than the pattern has',
      'exercises: {a: {pattern: 1 2 3 4 | 1, bars: 3}}',
      ["'bars' is 3; write 2, as many as the pattern has, or leave it out."],
    ],
    [
      'a ladder of one rung',
      'exercises: {a: {tempo: 60, ladder: 60 to 61, step: 50%}}',
      ['line 1, column 52: The ladder from 60 to 61 has one rung only'],
    ],
    [
      'an unknown instrument',
      'instrument: cornett\n',
      ["line 1, column 13: 'instrument' is \"cornett\", which is not known; did you mean 'cornet'?"],
    ],
    [
      'a name with capitals',
      'exercises: {Scales: {}}',
      [
        "line 1, column 13: 'Scales' is no name that can be used; write a short name in small letters, digits " +
          'and hyphens.',
      ],
    ],
    [
      'an escape in a title',
      'routine: "a\\e[31mb"\n',
      [
        'line 1, column 10: \'routine\' is "a\\u001b[31mb"; write a line of at most 80 characters without ' +
          'control characters.',
      ],
    ],
    ['reading order turned round', 'routine: "a\u202eb"\n', ['\'routine\' is "a\\u202eb"; write']],
    [
      'a path',
      'include: ../b.yaml\n',
      ['line 1, column 10: \'include\' is "../b.yaml"; write the name of a .yaml file in the same folder'],
    ],
    ['an alias bomb', bomb, ['references with * unfold into far too much; write the values out.']],
    [
      'ten megabytes',
      `routine: ${'x'.repeat(10_000_000)}`,
      ['line 1, column 1: the file is larger than a megabyte; that is no routine.'],
    ],
    ['brackets without end', `routine: ${'['.repeat(20_000)}`, ['line 1, column']],
    [
      'a pool with a stranger',
      'exercises: {a: {}}\npools: {p: [a, q]}\n',
      ["line 2, column 16: there is no exercise 'q'"],
    ],
    [
      'a pool that cannot come round',
      'exercises: {a: {}, b: {}, c: {}}\npools: {p: {every: 2, items: [a, b, c]}}\nparts: [{part: A, blocks: ' +
        '[p: 5]}]\n',
      [
        "line 2, column 12: the pool 'p' has 3 exercises for every 2 days, and 1 drawn a day are too few; allow " +
          'more days.',
      ],
    ],
    ...(
      [
        ['a starting note that is none', '{from: Q9}', '\'from\' is "Q9"; write a written note like C4 or Bb3.'],
        ['a register that is none', '{register: deep}', '\'register\' is "deep"; write one of low, middle, high.'],
        [
          'a starting note outside the instrument',
          '{pattern: 1 | 2 | 1, from: C2}',
          '\'from\' is "C2"; write a note from which it stays in the range of the B-flat cornet, F#3 to C6.',
        ],
        [
          'a register that cannot hold the pattern',
          '{pattern: 1..15 1, notes: 4, register: low}',
          '\'register\' is "low"; write another, for in none of its keys it lies in that register',
        ],
        [
          'a register and a starting note',
          '{pattern: 1 | 2 | 1, register: low, from: C4}',
          "'register' and 'from' both say where it belongs; leave one of them out.",
        ],
      ] as const
    ).map(([name, exercise, said]) => [name, `exercises: {a: ${exercise}}\ninstrument: cornet\n`, [said]] as const),
    [
      'a starting note of a block outside the instrument',
      'exercises: {a: {pattern: 1 | 2 | 1}}\nparts: [{part: A, blocks: [{play: a, from: C7}]}]\n',
      ['line 2, column 44: \'from\' is "C7"; write a note from which it stays in the range of the B-flat cornet'],
    ],
    [
      'breaks of nothing',
      'breaks: 0 after 25\n',
      ['\'breaks\' is "0 after 25"; write minutes above nothing, like 5 after 25.'],
    ],
  ])('%s', (_, text, expected) => {
    const said = sentences(text);
    expect(said.length).toBeGreaterThan(0);
    for (const part of expected) expect(said.join('\n')).toContain(part);
    // Nothing a terminal would obey, one sentence each, no more of the input than fits a line.
    for (const sentence of said) {
      expect(sentence).not.toMatch(/[\p{Cc}\u202e]/u);
      expect(sentence.length).toBeLessThan(450);
      expect(sentence).toMatch(/^a\.yaml, line \d+, column \d+: .*[.?,]$/);
    }
  });

  it('several at once, in the order of lines', () => {
    const said = sentences('minuts: 5\nexercises:\n  a: {tempo: 0}\nparts:\n  - part: A\n    blocks:\n      - a: -3\n');
    expect(said.map((sentence) => /line (\d+)/.exec(sentence)?.[1])).toEqual(['1', '3', '7']);
  });

  it('a circle of includes', () => {
    const files = { 'b.yaml': 'include: c.yaml\n', 'c.yaml': 'include: a.yaml\n' };
    expect(sentences('include: b.yaml\n', among(files))).toEqual([
      "c.yaml, line 1, column 10: 'include' goes in a circle: a.yaml, then b.yaml, then c.yaml, then a.yaml; " +
        'take one of them out.',
    ]);
  });

  it("trouble in an included file has that file's name", () => {
    expect(sentences('include: b.yaml\n', among({ 'b.yaml': '\n\nexercises: {a: {bars: 0}}\n' }))[0]).toBe(
      "b.yaml, line 3, column 23: 'bars' is 0; write a whole number from 1 to 1000.",
    );
  });

  it('anything at all is a routine or sentences with places, never a throw', () => {
    const sound = readFileSync('routines/clarinet-second-year.yaml', 'utf8').slice(0, 1500);
    const piece = fc.oneof(
      fc.constantFrom('- ', ': ', '{', ']', '"', '\t', '\n  ', '*a', '&a ', '#', '-3', '!x ', '|', '\u001b', 'null'),
      fc.string({ maxLength: 6 }),
    );
    fc.assert(
      fc.property(fc.nat(sound.length), fc.nat(40), piece, (at, cut, text) => {
        const parsed = parseRoutine(sound.slice(0, at) + text + sound.slice(at + cut), 'a.yaml', alone);
        if ('routine' in parsed) return;
        expect(parsed.troubles.length).toBeGreaterThan(0);
        for (const { line, column, sentence } of parsed.troubles) {
          expect(line).toBeGreaterThan(0);
          expect(column).toBeGreaterThan(0);
          expect(sentence).not.toMatch(/\p{Cc}/u);
        }
      }),
      { numRuns: 80 },
    );
  });

  it('Latin-1', () => {
    const read = readUtf8(new Uint8Array([...Buffer.from('routine: A\nabout: caf'), 0xe9, 10]), 'l.yaml');
    expect('troubles' in read && read.troubles.map(troubleLine)).toEqual([
      'l.yaml, line 2, column 11: a letter here is not UTF-8 (Latin-1 perhaps); save the file as UTF-8.',
    ]);
  });
});
