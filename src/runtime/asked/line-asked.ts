/** A line named by words from the command line. */
import { type KeyName, type Line } from '../../ladder/line.ts';
import { HIGHEST_BPM, LOWEST_BPM, isPlayable } from '../../ladder/rule/rule-check.ts';
import { readKey, tonalityOf } from '../../music/pitch/keys.ts';
import type { Bpm } from '../../common/units.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';

/** Words from the command line. */
export interface AskedLine {
  readonly exercise: string;
  readonly key: string | null;
  readonly articulation: string | null;
  readonly tempo: string | null;
}

/** Throws Trouble for a word that is no tempo. */
export function tempoAsked(word: string): Bpm {
  const bpm = Number(word);
  if (word.trim() !== '' && Number.isFinite(bpm) && isPlayable(bpm)) return bpm;
  const range = `from ${LOWEST_BPM} to ${HIGHEST_BPM} beats per minute`;
  throw new Trouble(`--tempo '${harmless(word, 20)}' is no tempo; give a number ${range}, like 96.`);
}

/** The one of these that was meant, in small letters or not; throws Trouble that lists them. */
function oneOf(word: string, known: readonly string[], what: string, title: string): string {
  const found = known.find((each) => each.toLowerCase() === word.trim().toLowerCase());
  if (found !== undefined) return found;
  throw new Trouble(`'${title}' has no ${what} '${harmless(word, 30)}'; it has ${known.join(', ')}.`);
}

/**
 * Any key that goes with the exercise's scale, written in any way; its own keys are only the ones that come round by
 * themselves.
 */
function keyIn({ scale }: Exercise, word: string): KeyName {
  const key = readKey(word);
  const tonality = typeof key === 'string' ? key : tonalityOf(key, scale);
  if (typeof key === 'string' || typeof tonality === 'string') throw new Trouble(harmless(String(tonality), 300));
  return key.name;
}

/** What was not asked for is taken from `usual`. */
export function lineAsked(exercise: Exercise, asked: AskedLine, usual: Line): { line: Line; tempo: Bpm | null } {
  const { id, title, articulations } = exercise;
  return {
    line: {
      exercise: id,
      key: asked.key === null ? usual.key : keyIn(exercise, asked.key),
      articulation:
        asked.articulation === null
          ? usual.articulation
          : oneOf(asked.articulation, articulations, 'articulation', title),
    },
    tempo: asked.tempo === null ? null : tempoAsked(asked.tempo),
  };
}
