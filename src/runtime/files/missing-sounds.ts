/**
 * The click of each exercise, checked: the player's own WAV files are found beside the routine, and what cannot be
 * struck is named.
 */
import { basename, dirname, resolve } from 'node:path';
import { isOwnSound, voiceProblem } from '../../audio/mix/click-voices.ts';
import { notASound } from '../../audio/mix/own-click-sound.ts';
import { readBounded } from '../../disk/bounded-file.ts';
import { isInside } from '../../disk/inside-folder.ts';
import { clickProblem } from '../../music/sound/click-strokes.ts';
import { type Click, PLAIN_CLICK } from '../../music/sound/sound-commands.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type FileTrouble, inOrder } from '../../plan/file/place-in-file.ts';
import { harmless } from '../../common/harmless-text.ts';
import type { LoadedRoutine, LoadedRoutines } from './routine-finder.ts';

/** The line on which a word first stands; 1 where it is in another file. */
function lineOf(path: string, word: string): number {
  try {
    return (
      Math.max(
        0,
        readBounded(path, 1_000_000)
          .toString('utf8')
          .split('\n')
          .findIndex((line) => line.includes(word)),
      ) + 1
    );
  } catch {
    return 1;
  }
}

interface Checked {
  readonly click: Click;
  readonly sentence: string | null;
}

function withVoice(click: Click, folder: string): Checked {
  if (!isOwnSound(click.voice)) return { click, sentence: null };
  const voice = resolve(folder, click.voice);
  const sentence = isInside(voice, folder)
    ? voiceProblem(voice)
    : notASound(voice, "it leads out of the routine's folder");
  return { click: { ...click, voice: sentence ? PLAIN_CLICK.voice : voice }, sentence };
}

function checked({ click, meter, beat, ladder }: Exercise, folder: string): Checked {
  const sentence = clickProblem(click, meter, { bpm: ladder.start, beat });
  return sentence ? { click: PLAIN_CLICK, sentence } : withVoice(click, folder);
}

/** Exercises whose click cannot be as it is written are struck plainly, and the routine's troubles say why. */
export function checkSounds(loaded: LoadedRoutines): LoadedRoutines {
  const troubles: FileTrouble[] = [];
  const check = ({ path, routine }: LoadedRoutine): LoadedRoutine => {
    const exercises = routine.exercises.map((exercise) => {
      const { click, sentence } = checked(exercise, dirname(path));
      if (sentence) {
        const line = lineOf(path, isOwnSound(exercise.click.voice) ? exercise.click.voice : exercise.name);
        troubles.push({ file: basename(path), line, column: 1, sentence: harmless(sentence, 300) });
      }
      return click === exercise.click ? exercise : { ...exercise, click };
    });
    return { path, routine: { ...routine, exercises } };
  };
  const [routines, collections] = [loaded.routines.map(check), loaded.collections.map(check)];
  return { routines, collections, troubles: inOrder([...loaded.troubles, ...troubles]) };
}
