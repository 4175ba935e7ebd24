/** Opens everything the full-screen program needs, in the order in which it can fail. */
import { putOnStand } from '../practice/put.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS, type Instrument, instrumentNamed } from '../music/instruments.ts';
import type { SoundOutput } from '../music/sound.ts';
import { choiceOf, lineChosen } from '../practice/choice.ts';
import { troubleLine } from '../plan/file-trouble.ts';
import { harmless } from '../plan/harmless.ts';
import type { DayRecord } from '../plan/records.ts';
import { type Stand, openStand } from '../practice/stand.ts';
import { prepareFor } from '../practice/prepare.ts';
import { planned } from '../practice/today.ts';
import { withOwnKeys } from '../ui/keys.ts';
import { stampOf, systemClock } from './clock.ts';
import { type Keep, type KeepRecord, createDesk } from './desk.ts';
import { runFullScreen } from './full-screen.tsx';
import { type AskedLine, lineAsked } from './asked-line.ts';
import { type KeptSettings, keepSettings } from './keep-settings.ts';
import { happeningOf, keptLine, knownLines } from './known-lines.ts';
import { whereData } from './data-folder.ts';
import { type Happening, type PlayerData, openPlayerData } from './player-data.ts';
import { routinesOf } from './routine-cache.ts';
import { type LoadedRoutines, exercisesOf, findExercise, orderedFor } from './routine-find.ts';
import { type ReadSettings, type Settings, readSettings } from './settings.ts';
import { createTerminal } from './terminal.ts';
import { Trouble } from './trouble.ts';

export interface ProgramOptions {
  /** The value of `--data`. */
  readonly data?: string | undefined;
  readonly silent: boolean;
  /** A line to put on the stand at once; null opens Today. */
  readonly line: AskedLine | null;
}

export interface SoundNeeds {
  readonly logPath: string;
  readonly silent: boolean;
  readonly settings: Settings;
}

const keeper = ({ stamp, store }: PlayerData): Keep => (draft) => {
  const entry = stamp(happeningOf(draft));
  const mishap = store.append(entry);
  if (mishap) return { sentence: mishap.sentence };
  return { id: entry.id, line: keptLine(draft.line, store.fold()) };
};

const recorder = ({ stamp, store }: PlayerData): KeepRecord => (record) => {
  const entry = stamp(record as Happening);
  const mishap = store.append(entry);
  return mishap ? { sentence: mishap.sentence } : { record: entry as DayRecord };
};

/** Turning a dial is many small steps: only the last one is written. */
function volumeKeeper({ folder, log }: PlayerData): (volume: KeptSettings['volume']) => void {
  let timer: NodeJS.Timeout | undefined;
  return (volume) => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      void keepSettings(folder.path, { volume }).then((trouble) => trouble && log.write('settings', trouble));
    }, 300);
  };
}

function everySecond(call: () => void): () => void {
  const timer = setInterval(call, 1000);
  return () => clearInterval(timer);
}

/** Throws Trouble (exit code 2) where there is no terminal to draw on. */
export function needTerminal(): void {
  if (process.stdin.isTTY && process.stdout.isTTY) return;
  throw new Trouble('This screen needs a terminal, and here input or output is not one.', 2);
}

const playersInstrument = (name: string): Instrument =>
  instrumentNamed(name) ?? instrumentNamed(DEFAULT_INSTRUMENT) ?? (INSTRUMENTS[0] as Instrument);

function firstStand(data: PlayerData, loaded: LoadedRoutines, { settings, troubles }: ReadSettings): Stand {
  const instrument = playersInstrument(settings.instrument ?? loaded.routines[0]?.routine.instrument ?? DEFAULT_INSTRUMENT);
  const stand = openStand({
    today: stampOf(systemClock, settings.dayStart).day,
    level: settings.level,
    routines: loaded.routines.map(({ routine }) => routine),
    records: data.store.fold().others,
    dials: { ...settings.volume, tapOffset: settings.tapOffset },
    exercises: [...exercisesOf(loaded).values()].map(({ exercise }) => exercise),
    lines: knownLines(data.store.fold()),
    prepare: prepareFor(instrument, settings.a4, settings.syllables),
    notices: [...data.store.notices, ...troubles, ...loaded.troubles.map(troubleLine)].map((notice) => harmless(notice, 300)),
  });
  return planned(stand);
}

function withAskedLine(stand: Stand, loaded: LoadedRoutines, asked: AskedLine | null): Stand {
  if (!asked) return stand;
  const { exercise } = findExercise(loaded, asked.exercise);
  const { line, tempo } = lineAsked(exercise, asked, lineChosen(stand.choice, exercise));
  return putOnStand({ ...stand, choice: choiceOf(line, stand.exercises) }, exercise, { line, key: line.key }, tempo);
}

/** Runs until the player leaves; gives the exit code. */
export async function runProgram(options: ProgramOptions, openSound: (needs: SoundNeeds) => SoundOutput): Promise<number> {
  needTerminal();
  const read = await readSettings(whereData(options.data));
  const data = openPlayerData(options.data, systemClock, read.settings.dayStart);
  try {
    const loaded = orderedFor(await routinesOf(data.folder.path), read.settings.instrument ?? DEFAULT_INSTRUMENT);
    const stand = withAskedLine(firstStand(data, loaded, read), loaded, options.line);
    return await sit(data, stand, read.settings, openSound({ logPath: data.log.path, silent: options.silent, settings: read.settings }));
  } finally {
    data.close();
  }
}

async function sit(data: PlayerData, stand: Stand, settings: Settings, sound: SoundOutput): Promise<number> {
  const { click, drone } = settings.volume;
  sound.send({ ask: 'volume', click, drone });
  const desk = createDesk({
    stand,
    sound,
    keep: keeper(data),
    record: recorder(data),
    keepVolume: volumeKeeper(data),
    now: () => systemClock.monotonic() / 1000,
    everySecond,
  });
  return await runFullScreen({
    desk,
    keys: withOwnKeys(settings.keys),
    terminal: createTerminal(process.stdin, process.stdout),
    colour: !process.env['NO_COLOR'],
    lettering: settings.plainLetters ? 'plain' : 'signs',
    log: (text) => data.log.write('program', text),
    logPath: data.log.path,
    close: async () => {
      desk.close();
      await sound.close();
    },
  });
}
