/**
 * What the program does about the process that sounds, as (connection, event) to connection and effects: which
 * commands it is sent, when it is given up for another, what the player is told. Pure: `client.ts` owns process and
 * timers and carries the effects out. The beat and its score are counted on this side all the while, so a process that
 * is lost costs no beat.
 */
import type { SoundCommand } from '../../music/sound/sound-commands.ts';
import type { Milliseconds } from '../../common/units.ts';
import type { Now } from '../mix/score.ts';
import { onFirstDeviceLate } from './beat-without-sound.ts';
import {
  type Child,
  type Connection,
  type ConnectionEvent,
  type ConnectionStep,
  step,
  tell,
  wake,
} from './connection-state.ts';
import { FIRST_START, onEnded, onRestart, start } from './process-restart.ts';
import { WATCH, onWatch } from './process-watchdog.ts';
import type { DeviceSettings, FromChild, OutputInfo } from './protocol.ts';
import { SENTENCES } from './sound-sentences.ts';

/** Commands wait so long for the first device before the beat starts without it. */
const FIRST_WAIT: Milliseconds = 1500;

const unopened = (settings: DeviceSettings, now: Milliseconds): Connection => ({
  settings,
  child: null,
  started: 0,
  waiting: true,
  hasSounded: false,
  pending: [],
  nextId: 0,
  restart: FIRST_START,
  watched: now,
  attempts: [],
  devices: [],
  told: null,
  closed: false,
});

/** A new connection; its first process is started at once. */
export function openConnection(settings: DeviceSettings, now: Milliseconds): ConnectionStep {
  const { connection, effects } = start(unopened(settings, now), now);
  return step(connection, ...effects, wake('watch', WATCH), wake('first-device', FIRST_WAIT));
}

/** Where it sounds at present; null while silent. */
export const outputOf = ({ child }: Connection): OutputInfo | null => child?.output ?? null;

function onOpened(connection: Connection, child: Child, output: OutputInfo): ConnectionStep {
  const sent = connection.pending.map((pending) => ({ do: 'send', ...pending }) as const);
  const opened = { ...connection, child: { ...child, loading: null, output }, waiting: false, hasSounded: true };
  const told = tell(opened, 'sounding', connection.hasSounded ? SENTENCES.back : SENTENCES.sounding);
  return step(told.connection, { do: 'hand-over' }, ...sent, ...told.effects);
}

/** A command has taken effect: on this side as of the same moment. */
function onDone(connection: Connection, id: number, now: Now): ConnectionStep {
  const done = connection.pending.find((each) => each.id === id);
  if (!done) return step(connection);
  const pending = connection.pending.filter((each) => each !== done);
  return step({ ...connection, pending }, { do: 'apply', command: done.command, now });
}

function onMessage(connection: Connection, child: Child, message: FromChild): ConnectionStep {
  switch (message.from) {
    case 'trying':
      return step({ ...connection, child: { ...child, loading: message.backEnd } });
    case 'refused': {
      const attempts = [...connection.attempts, message.attempt];
      return step({ ...connection, child: { ...child, loading: null }, attempts });
    }
    case 'devices':
      return step({ ...connection, devices: message.names });
    case 'opened':
      return onOpened(connection, child, message.output);
    case 'done':
      return onDone(connection, message.id, message.now);
    case 'position':
      return step(connection, { do: 'anchor', heard: message.heard, at: message.at });
    case 'failed':
    case 'lost':
      return step(connection, { do: 'kill', child: child.number });
  }
}

function onCommand(connection: Connection, command: SoundCommand): ConnectionStep {
  const sounds = outputOf(connection) !== null;
  if (!sounds && !connection.waiting) return step(connection, { do: 'apply', command, now: null });
  const id = connection.nextId;
  const kept = { ...connection, nextId: id + 1, pending: [...connection.pending, { id, command }] };
  return sounds ? step(kept, { do: 'send', id, command }) : step(kept);
}

/** What the process does or says; what an earlier one still has to say is of no interest. */
function onProcess(
  connection: Connection,
  event: Extract<ConnectionEvent, { readonly child: number }>,
  now: Milliseconds,
): ConnectionStep {
  const { child } = connection;
  if (child?.number !== event.child) return step(connection);
  if (event.type === 'ended') return onEnded(connection, child, event.around);
  const heard = { ...child, lastWord: now };
  return onMessage({ ...connection, child: heard }, heard, event.message);
}

/** What happens on an event at `now`, on the clock that all processes share. */
export function onConnectionEvent(connection: Connection, event: ConnectionEvent, now: Milliseconds): ConnectionStep {
  if (connection.closed) return step(connection);
  switch (event.type) {
    case 'command':
      return onCommand(connection, event.command);
    case 'message':
    case 'ended':
      return onProcess(connection, event, now);
    case 'watch':
      return onWatch(connection, now);
    case 'first-device':
      return onFirstDeviceLate(connection);
    case 'restart':
      return onRestart(connection, event.around, now);
    case 'close':
      return step({ ...connection, child: null, closed: true }, { do: 'stop' });
  }
}
