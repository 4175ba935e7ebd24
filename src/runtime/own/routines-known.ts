/** What the program knows of all routine files, for the player's instrument. */
import { basename, sep } from 'node:path';
import { harmless } from '../../common/harmless-text.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS, type Instrument, instrumentNamed } from '../../music/pitch/instruments.ts';
import { troubleLine } from '../../plan/file/place-in-file.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { prepareFor } from '../../practice/line/line-notes.ts';
import type { Prepare, ReadAnew } from '../../practice/stand.ts';
import { withPlayersRule } from '../files/players-rule.ts';
import { routinesOf } from '../files/routine-cache.ts';
import { type LoadedRoutines, orderedFor, routineFiles, routineFolders } from '../files/routine-finder.ts';
import type { Settings } from '../files/settings.ts';
import { forInstrument } from './for-instrument.ts';

const playersInstrument = (name: string): Instrument =>
  instrumentNamed(name) ?? instrumentNamed(DEFAULT_INSTRUMENT) ?? (INSTRUMENTS[0] as Instrument);

/** Each exercise is written for its own routine's instrument, unless the player's settings name one. */
function preparer({ routines }: LoadedRoutines, { instrument, a4, syllables, drone }: Settings): Prepare {
  const usual = prepareFor(
    playersInstrument(instrument ?? routines[0]?.routine.instrument ?? DEFAULT_INSTRUMENT),
    a4,
    syllables,
    drone,
  );
  if (instrument !== null) return usual;
  const own = new Map<Exercise, Prepare>();
  for (const { routine } of routines) {
    const prepare = prepareFor(playersInstrument(routine.instrument), a4, syllables, drone);
    for (const exercise of routine.exercises) own.set(exercise, prepare);
  }
  return (exercise, line, place, blockDrone) => (own.get(exercise) ?? usual)(exercise, line, place, blockDrone);
}

/** The player's own come first; those no longer offered come late, and those of other instruments stand last. */
function inOrder(exercises: readonly Exercise[], own: readonly string[]): readonly Exercise[] {
  const rank = ({ retired, elsewhere, file }: Exercise): number => {
    if (elsewhere) return 3;
    return retired ? 2 : own.includes(file) ? 0 : 1;
  };
  return exercises.toSorted((a, b) => rank(a) - rank(b));
}

/** Files of the player's own folder, without their endings. */
function ownFiles(dataFolder: string): readonly string[] {
  const [own = ''] = routineFolders(dataFolder);
  return routineFiles([own])
    .filter((path) => path.startsWith(own + sep))
    .map((path) => basename(path).replace(/\.ya?ml$/, ''));
}

/** All routines, those for the player's instrument first. @throws Trouble when a folder cannot be read. */
export const loadedFor = async (dataFolder: string, settings: Settings): Promise<LoadedRoutines> =>
  orderedFor(withPlayersRule(await routinesOf(dataFolder), settings), settings.instrument ?? DEFAULT_INSTRUMENT);

export function knownOf(loaded: LoadedRoutines, dataFolder: string, settings: Settings): ReadAnew {
  const own = ownFiles(dataFolder);
  const { routines, exercises } = forInstrument(loaded, settings.instrument);
  return {
    routines,
    exercises: inOrder(exercises, own),
    own,
    prepare: preparer(loaded, settings),
    troubles: [...new Set(loaded.troubles.map((one) => harmless(troubleLine(one), 300)))],
  };
}
