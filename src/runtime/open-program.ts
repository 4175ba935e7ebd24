/** Opens everything the full-screen program needs, in the order in which it can fail. */
import { putOnStand } from '../practice/sitting/put-on-stand.ts';
import type { SoundOutput } from '../music/sound/sound-commands.ts';
import { choiceOf, lineChosen } from '../practice/screens/line-choice.ts';
import { hasLadder, withoutLadder } from '../plan/routine/exercise.ts';
import { harmless } from '../common/harmless-text.ts';
import { type ReadAnew, type Stand, openStand } from '../practice/stand.ts';
import { FIRST_VIEW } from '../practice/screens/first-start-keys.ts';
import { planned, withLastRoutine } from '../practice/screens/today-keys.ts';
import { withOwnKeys } from '../ui/keys.ts';
import { type Clock, stampOf } from './clock.ts';
import { createDesk } from './desk.ts';
import { runFullScreen } from './screen/full-screen.tsx';
import { type AskedLine, lineAsked } from './asked/line-asked.ts';
import { keeper, knownLines } from './keepers.ts';
import { reopenedSound } from './reopened-sound.ts';
import { type SettingsAtWork, settingsAtWork } from './settings-at-work.ts';
import { remembered } from '../common/remembered.ts';
import type { Look } from '../ui/app.tsx';
import { whereData } from './files/data-folder.ts';
import { type PlayerData, openPlayerData } from './files/player-data.ts';
import { type LoadedRoutines, findExercise } from './files/routine-finder.ts';
import { type ReadSettings, type Settings, readSettings } from './files/settings.ts';
import { readDraft } from './own/draft-file.ts';
import { type OwnFiles, openOwnFiles } from './own/own-files.ts';
import { knownOf, loadedFor } from './own/routines-known.ts';
import { readingProgress } from './screen/reading-progress.ts';
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

/** Nothing was ever played, written or chosen. */
function isFirstStart({ store }: PlayerData, { own }: ReadAnew, { instrument, minutes, routine }: Settings): boolean {
  const { lines, others } = store.fold();
  const isUnasked = instrument === null && minutes === null && routine === null;
  return isUnasked && own.length === 0 && lines.size === 0 && others.length === 0;
}

function firstStand(data: PlayerData, known: ReadAnew, { settings, troubles }: ReadSettings, clock: Clock): Stand {
  const stand = openStand({
    today: stampOf(clock, settings.dayStart).day,
    clockRate: clock.rate ?? 1,
    level: settings.level,
    ...known,
    draft: readDraft(data.folder.path),
    settings,
    records: data.store.fold().others,
    dials: { ...settings.volume, tapOffset: settings.tapOffset },
    lines: knownLines(data.store.fold()),
    notices: [...[...data.store.notices, ...troubles].map((notice) => harmless(notice, 300)), ...known.troubles],
  });
  const today = planned(withLastRoutine(stand));
  return isFirstStart(data, known, settings) ? { ...today, view: FIRST_VIEW } : today;
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
  const progress = readingProgress(process.stderr, () => performance.now());
  // The player's day may begin at another hour while the program runs.
  let dayStart = (): number => read.settings.dayStart;
  const data = openPlayerData(options.data, options.clock, () => dayStart(), progress);
  try {
    const loaded = await loadedFor(data.folder.path, read.settings);
    const known = knownOf(loaded, data.folder.path, read.settings);
    const stand = withAskedLine(firstStand(data, known, read, options.clock), loaded, options.line);
    const open = (settings: Settings): SoundOutput =>
      openSound({ logPath: data.log.path, silent: options.silent, settings });
    const sound = reopenedSound(open(read.settings));
    const settings = settingsAtWork({
      folder: data.folder.path,
      first: read.settings,
      log: (text) => data.log.write('settings', text),
      read: async (now) => knownOf(await loadedFor(data.folder.path, now), data.folder.path, now),
      reopen: (now) => sound.reopen(() => open(now)),
    });
    dayStart = () => settings.now().dayStart;
    return await sit({ data, stand, settings, clock: options.clock, inLines: options.inLines }, sound);
  } finally {
    data.close();
  }
}

interface Sitting {
  readonly data: PlayerData;
  readonly stand: Stand;
  readonly settings: SettingsAtWork;
  readonly clock: Clock;
  readonly inLines: boolean;
}

/** Names of everything that marks are kept under, be it in a file or in the journal alone. */
const takenNames = ({ exercises }: ReadAnew, { store }: PlayerData): ReadonlySet<string> =>
  new Set([
    ...exercises.flatMap(({ id, name }) => [id, name]),
    ...[...store.fold().lines.values()].map(({ line }) => line.exercise),
  ]);

function ownFilesOf(data: PlayerData, { now }: SettingsAtWork): OwnFiles {
  const { path } = data.folder;
  const read = async (): Promise<ReadAnew> => knownOf(await loadedFor(path, now()), path, now());
  const log = (text: string): void => data.log.write('own files', text);
  return openOwnFiles({ dataFolder: path, read, taken: async () => takenNames(await read(), data), log });
}

/** How the settings have it drawn, and which keys there are. */
const lookOf = remembered((settings: Settings): Look => ({
  keys: withOwnKeys(settings.keys),
  lettering: letteringFor(settings.plainLetters, process.env, process.platform),
  isStill: settings.stillBeat,
}));

async function sit({ data, stand, settings, clock, inLines }: Sitting, sound: SoundOutput): Promise<number> {
  const { click, drone } = settings.now().volume;
  sound.send({ ask: 'volume', click, drone });
  const own = ownFilesOf(data, settings);
  const desk = createDesk({
    stand,
    sound,
    keep: keeper(data),
    settings,
    own,
    now: () => clock.monotonic() / 1000,
    today: () => stampOf(clock, settings.now().dayStart).day,
    everySecond: everySecond(clock),
  });
  return await runFullScreen({
    desk,
    look: lookOf,
    terminal: createTerminal(process.stdin, process.stdout, inLines ? IN_LINES : undefined),
    manner: inLines ? 'lines' : 'drawn',
    colour: !process.env['NO_COLOR'],
    log: (text) => data.log.write('program', text),
    logPath: data.log.path,
    close: async () => {
      desk.close();
      own.finish();
      await Promise.all([settings.finish(), sound.close()]);
    },
  });
}
