/**
 * What the end of a process does, and when another is started in its place: at once after a loss, since the device may
 * be back already; later where nothing around us has changed, since a process costs a fifth of a second of work.
 */
import type { Milliseconds } from '../../common/units.ts';
import { goOnWithoutSound } from './beat-without-sound.ts';
import { type Child, type Connection, type ConnectionStep, type Restart, step, wake } from './connection-state.ts';
import type { BackEnd } from './protocol.ts';

/** How long after an end, and after a look that was in vain, to look again. */
const RETRY: Milliseconds = 1000;
/** How long to go without a try where nothing has changed. */
const PATIENCE: Milliseconds = 3000;
/** So many tries after a loss wait for no change around us. */
const HURRIED = 5;

export const FIRST_START: Restart = { hurried: 0, patience: 0, endedIn: null };

/** Starts a process, numbered from 1. */
export function start(connection: Connection, now: Milliseconds): ConnectionStep {
  const { settings, started } = connection;
  const child: Child = { number: started + 1, lastWord: now, loading: null, output: null };
  return step(
    { ...connection, child, started: child.number, attempts: [] },
    { do: 'start', child: child.number, settings },
  );
}

function restartAfter({ hurried }: Restart, hadSounded: boolean, around: string | null): Restart {
  const left = hadSounded ? HURRIED : Math.max(0, hurried - 1);
  return { hurried: left, patience: left > 0 ? 0 : PATIENCE, endedIn: around };
}

/** A library that ended its process is a way out that failed, and the package `speaker` will do so again. */
function blame(connection: Connection, loading: BackEnd | null): Connection {
  if (!loading) return connection;
  const { attempts, settings } = connection;
  const attempt = { backEnd: loading, reason: 'its library ended the process' };
  const backEnds = loading === 'speaker' ? settings.backEnds.filter((each) => each !== loading) : settings.backEnds;
  return { ...connection, attempts: [...attempts, attempt], settings: { ...settings, backEnds } };
}

/** The process has ended, for whatever reason. */
export function onEnded(connection: Connection, child: Child, around: string | null): ConnectionStep {
  const restart = restartAfter(connection.restart, child.output !== null, around);
  const alone = goOnWithoutSound(blame({ ...connection, child: null, restart }, child.loading));
  return step(alone.connection, wake('restart', RETRY), ...alone.effects);
}

const isTimeToTry = ({ patience, endedIn }: Restart, around: string | null): boolean =>
  around === null || around !== endedIn || patience <= 0;

/** A look whether to start another process. */
export function onRestart(connection: Connection, around: string | null, now: Milliseconds): ConnectionStep {
  const { restart } = connection;
  if (isTimeToTry(restart, around)) return start(connection, now);
  return step({ ...connection, restart: { ...restart, patience: restart.patience - RETRY } }, wake('restart', RETRY));
}
