/** Forms that are right, drawn: no field says what it would be by itself. */
import * as fc from 'fast-check';
import { BLANK_FORM, type OwnForm } from '../../../src/plan/own/own-form.ts';

const WORDS = [
  'blue',
  'folder',
  'p. 12',
  'low C',
  '#4',
  'a: b',
  '"quoted"',
  "it's",
  '- x',
  '{y}',
  'é',
  'naïve',
  '(2)',
  '*',
  '&',
  '!',
  '%',
  '@',
  ',',
];

const words = fc.array(fc.constantFrom(...WORDS), { minLength: 1, maxLength: 5 }).map((some) => some.join(' '));

const some = (...texts: readonly string[]) => fc.constantFrom('', ...texts);

const tempos = fc.oneof(
  fc.constant({ from: '', to: '' }),
  fc.integer({ min: 10, max: 240 }).map((from) => ({ from: `${from}`, to: '' })),
  fc
    .tuple(fc.integer({ min: 20, max: 59 }), fc.integer({ min: 100, max: 400 }))
    .map(([from, to]) => ({ from: `${from}`, to: `${to}` })),
);

/** Patterns go with their meter; bars are theirs to say. */
const notes = fc.oneof(
  fc.record({
    pattern: some('1 2 3 4 5 4 3 2 | 1', '#4 5 b7 1', '1..8 8..1 | 1', "1' 7, 1"),
    meter: fc.constant(''),
    beat: fc.constant(''),
    bars: fc.constant(''),
    notes: fc.constant(''),
  }),
  fc.record({
    pattern: fc.constant(''),
    meter: some('3/4', '6/8', '7/8 (3+2+2)', '2/2'),
    beat: some('sixteenth', 'dotted half'),
    bars: some('8', '32', '1000'),
    notes: some('2', '4', '0.5'),
  }),
);

const work = fc.oneof(
  fc.record({ work: some('clock', 'breaths'), breaths: fc.constant('') }),
  fc.record({ work: fc.constant('breaths'), breaths: fc.constantFrom('10', '500') }),
);

export const rightForm: fc.Arbitrary<OwnForm> = fc
  .tuple(
    fc.record({
      title: words,
      material: fc.oneof(fc.constant(''), words),
      spot: fc.oneof(fc.constant(''), words),
      scale: some('harmonic minor', 'dorian'),
      keys: some('F', 'C, F, Bb', 'all major', 'D, F#'),
      articulations: some('double', 'slurred, single, slur 2 tongue 2'),
      kind: some('sound', 'music', 'body'),
      minutes: some('3', '0.5', '12.5'),
      cues: some('Air first', 'Air first; Low, quiet shoulders'),
    }),
    tempos,
    notes,
    work,
  )
  .map((parts) => Object.assign({}, BLANK_FORM, ...parts) as OwnForm);
