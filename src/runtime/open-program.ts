/** Opens everything the full-screen program needs, in the order in which it can fail. */
import { putOnStand } from '../practice/sitting/put-on-stand.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS, type Instrument, instrumentNamed } from '../music/pitch/instruments.ts';
import type { SoundOutput } from '../music/sound/sound-commands.ts';
import { choiceOf, lineChosen } from '../practice/screens/line-choice.ts';
import { troubleLine } from '../plan/file/place-in-file.ts';
import { type Exercise, hasLadder, withoutLadder } from '../plan/routine/exercise.ts';
import { harmless } from '../common/harmless-text.ts';
import { type Prepare, type Stand, openStand } from '../practice/stand.ts';
import { prepareFor } from '../practice/line/line-notes.ts';
import { planned, withLastRoutine } from '../practice/screens/today-keys.ts';
import { withOwnKeys } from '../ui/keys.ts';
import { type Clock, stampOf } from './clock.ts';
import { createDesk } from './desk.ts';
import { runFullScreen } from './screen/full-screen.tsx';
import { type AskedLine, lineAsked } from './asked/line-asked.ts';
import { keeper, knownLines, volumeKeeper } from './keepers.ts';
import { whereData } from './files/data-folder.ts';
import { type PlayerData, openPlayerData } from './files/player-data.ts';
import { withPlayersRule } from './files/players-rule.ts';
import { routinesOf } from './files/routine-cache.ts';
import { type LoadedRoutines, exercisesOf, findExercise, orderedFor } from './files/routine-finder.ts';
import { type ReadSettings, type Settings, readSettings } from './files/settings.ts';
import { letteringFor } from './screen/terminal-letters.ts';
import { IN_LINES, createTerminal } from './screen/terminal.ts';
import { Trouble } from '../common/trouble.ts';

export interface ProgramOptions {
  /** The value of `--data`. */
  readonly data?: string | undefined;
  readonly silent: boolean;
  /** Said in lines instead of drawn. */
  readonly inLines: boolean;
  /** The one clock that everything but the sound goes by. */
  readonly clock: Clock;
  /** A line to put on the stand at once; null opens Today. */
  readonly line: AskedLine | null;
}

export interface SoundNeeds {
  readonly logPath: string;
  readonly silent: boolean;
  readonly settings: Settings;
}

/** Ticks follow the clock: a clock that runs faster ticks as often in its own seconds. */
const everySecond =
  (clock: Clock) =>
  (call: () => void): (() => void) => {
    const timer = setInterval(call, 1000 / (clock.rate ?? 1));
    return () => clearInterval(timer);
  };

/** Throws Trouble (exit code 2) where there is no terminal to draw on; lines need one for the keys only. */
export function needTerminal(inLines: boolean): void {
  if (process.stdin.isTTY && (inLines || process.stdout.isTTY)) return;
  throw new Trouble('This screen needs a terminal, and here input or output is not one.', 2);
}

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

function firstStand(
  data: PlayerData,
  loaded: LoadedRoutines,
  { settings, troubles }: ReadSettings,
  clock: Clock,
): Stand {
  const stand = openStand({
    today: stampOf(clock, settings.dayStart).day,
    clockRate: clock.rate ?? 1,
    level: settings.level,
    routines: loaded.routines.map(({ routine }) => routine),
    records: data.store.fold().others,
    dials: { ...settings.volume, tapOffset: settings.tapOffset },
    exercises: [...exercisesOf(loaded).values()].map(({ exercise }) => exercise),
    lines: knownLines(data.store.fold()),
    prepare: preparer(loaded, settings),
    notices: [...data.store.notices, ...troubles, ...loaded.troubles.map(troubleLine)].map((notice) =>
      harmless(notice, 300),
    ),
  });
  return planned(withLastRoutine(stand));
}

function withAskedLine(stand: Stand, loaded: LoadedRoutines, asked: AskedLine | null): Stand {
  if (!asked) return stand;
  const { exercise } = findExercise(loaded, asked.exercise);
  if (!hasLadder(exercise)) throw new Trouble(withoutLadder(exercise));
  const { line, tempo } = lineAsked(exercise, asked, lineChosen(stand.choice, exercise));
  return putOnStand(
    { ...stand, choice: choiceOf(line, stand.known.exercises) },
    exercise,
    { line, key: line.key },
    tempo,
  );
}

/** Runs until the player leaves; gives the exit code. */
export async function runProgram(
  options: ProgramOptions,
  openSound: (needs: SoundNeeds) => SoundOutput,
): Promise<number> {
  needTerminal(options.inLines);
  const read = await readSettings(whereData(options.data));
  const data = openPlayerData(options.data, options.clock, read.settings.dayStart);
  try {
    const routines = withPlayersRule(await routinesOf(data.folder.path), read.settings);
    const loaded = orderedFor(routines, read.settings.instrument ?? DEFAULT_INSTRUMENT);
    const stand = withAskedLine(firstStand(data, loaded, read, options.clock), loaded, options.line);
    return await sit(
      { data, stand, settings: read.settings, clock: options.clock, inLines: options.inLines },
      openSound({ logPath: data.log.path, silent: options.silent, settings: read.settings }),
    );
  } finally {
    data.close();
  }
}

interface Sitting {
  readonly data: PlayerData;
  readonly stand: Stand;
  readonly settings: Settings;
  readonly clock: Clock;
  readonly inLines: boolean;
}

async function sit({ data, stand, settings, clock, inLines }: Sitting, sound: SoundOutput): Promise<number> {
  const { click, drone } = settings.volume;
  sound.send({ ask: 'volume', click, drone });
  const volume = volumeKeeper(data);
  const desk = createDesk({
    stand,
    sound,
    keep: keeper(data),
    keepVolume: volume.keep,
    now: () => clock.monotonic() / 1000,
    today: () => stampOf(clock, settings.dayStart).day,
    everySecond: everySecond(clock),
  });
  return await runFullScreen({
    desk,
    keys: withOwnKeys(settings.keys),
    terminal: createTerminal(process.stdin, process.stdout, inLines ? IN_LINES : undefined),
    manner: inLines ? 'lines' : 'drawn',
    colour: !process.env['NO_COLOR'],
    lettering: letteringFor(settings.plainLetters, process.env, process.platform),
    isStill: settings.stillBeat,
    log: (text) => data.log.write('program', text),
    logPath: data.log.path,
    close: async () => {
      desk.close();
      await Promise.all([volume.finish(), sound.close()]);
    },
  });
}
