/** Ways of tonguing that do not go into an exercise's notes. */
import { type Passage, isPassage, writeOut } from '../../music/pattern/written-in-key.ts';
import { type Instrument, instrumentNamed } from '../../music/pitch/instruments.ts';
import { readArticulation } from '../../music/tongue/articulation.ts';
import { unfitTonguing } from '../../music/tongue/unfit-tonguing.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { Routine } from '../../plan/routine/routine.ts';

/** The pattern in the exercise's first key; which key does not matter to the tongue. */
function passageOf(exercise: Exercise, instrument: Instrument): Passage | null {
  const { pattern, scale, meter, beat, notesPerBeat, keys } = exercise;
  const key = keys[0] ?? 'C';
  const result = writeOut({ pattern: pattern ?? '', scale, meter, beat, notesPerBeat, key, instrument });
  return isPassage(result) ? result : (result.offers[0] ?? null);
}

function unfitLine(exercise: string, name: string, passage: Passage): readonly string[] {
  const articulation = readArticulation(name);
  const sentence = typeof articulation === 'string' ? null : unfitTonguing(passage, articulation);
  return sentence === null ? [] : [`'${exercise}', ${name}: ${sentence}`];
}

/** A line each: "'runs', triple: The quick notes stand in fours, ..." */
export function unfitArticulations({ exercises, instrument }: Routine): readonly string[] {
  const known = instrumentNamed(instrument);
  return exercises.flatMap((exercise) => {
    const passage = known && exercise.pattern !== null ? passageOf(exercise, known) : null;
    return passage === null ? [] : exercise.articulations.flatMap((name) => unfitLine(exercise.id, name, passage));
  });
}
