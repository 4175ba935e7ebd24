/** What a sound file promises and cannot hold: worth a word to the player, and no mistake. */
import { type Instrument, instrumentNamed } from '../../music/pitch/instruments.ts';
import { type Passage, isPassage, writeOut } from '../../music/pattern/written-in-key.ts';
import { readArticulation } from '../../music/tongue/articulation.ts';
import { unfitTonguing } from '../../music/tongue/unfit-tonguing.ts';
import { writtenInRound } from '../routine/one-voice-round.ts';
import type { Exercise } from '../routine/exercise.ts';
import type { Routine } from '../routine/routine.ts';

/** The pattern in the exercise's first key; which key does not matter to the tongue. */
function passageOf(exercise: Exercise, instrument: Instrument): Passage | null {
  const { pattern, keys } = exercise;
  if (pattern === null) return null;
  const result = writeOut(writtenInRound({ ...exercise, pattern }, keys[0] ?? 'C', instrument));
  return isPassage(result) ? result : (result.offers[0] ?? null);
}

/** Ways of tonguing that do not go into the exercise's notes. */
function unfit(exercise: Exercise, instrument: Instrument): readonly string[] {
  const passage = passageOf(exercise, instrument);
  if (passage === null) return [];
  return exercise.articulations.flatMap((name) => {
    const articulation = readArticulation(name);
    const sentence = typeof articulation === 'string' ? null : unfitTonguing(passage, articulation);
    return sentence === null ? [] : [`'${exercise.name}', ${name}: ${sentence}`];
  });
}

/** Silence that can never come: nothing is struck without marks, and a chance of nothing never falls. */
function silence({ name, work = 'ladder', click }: Exercise): readonly string[] {
  const { silentBars, silentChance } = click;
  if (work !== 'ladder' && (silentBars ?? silentChance) !== null) {
    const goesBy = work === 'breaths' ? 'its breaths' : 'the clock';
    return [`'${name}': silent bars never come, for it goes by ${goesBy}, and there the click is not struck.`];
  }
  return silentChance?.p === 0 ? [`'${name}': a silent chance of 0 never silences a beat.`] : [];
}

/** A rotation of one thing. */
function standstill({ name, rotation, keys, articulations }: Exercise): readonly string[] {
  const isOne = rotation?.fingerings === false && keys.length * articulations.length === 1;
  return isOne ? [`'${name}': nothing comes round, for it has one key and one way of tonguing.`] : [];
}

const MIDDLE = 'there is no middle, for its keys are all at the ends';

/** What a rotation says and can never do. */
function idle({ name, rotation, keys, articulations, work = 'ladder' }: Exercise): readonly string[] {
  if (!rotation) return [];
  const { ends, repetitions, change } = rotation;
  const changesWith = work === 'ladder' ? change : 'block';
  const isEach = change === 'repetition' || rotation.articulations === 'in turn';
  return [
    ...(ends && ends.keys * 2 >= keys.length ? [`'${name}': ${MIDDLE}.`] : []),
    ...(repetitions > 1 && !(isEach && work === 'ladder')
      ? [`'${name}': repetitions are not counted, for its keys change with the ${changesWith}.`]
      : []),
    ...(rotation.articulations === 'in turn' && articulations.length === 1
      ? [`'${name}': nothing takes turns, for it has one way of tonguing.`]
      : []),
  ];
}

/** Layers go by repetitions and breaths. */
const standingLayer = ({ name, layers, work }: Exercise): readonly string[] =>
  layers !== undefined && work === 'clock'
    ? [`'${name}': its layers never change, for it goes by the clock; count breaths, or let it be marked.`]
    : [];

/** One line each; empty for a file that holds all that it says. */
export function remarksOn({ exercises, instrument }: Routine): readonly string[] {
  const known = instrumentNamed(instrument);
  return exercises.flatMap((exercise) => [
    ...(known ? unfit(exercise, known) : []),
    ...silence(exercise),
    ...standstill(exercise),
    ...idle(exercise),
    ...standingLayer(exercise),
  ]);
}
