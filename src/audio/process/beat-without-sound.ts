/** How the beat goes on where nothing sounds, or not yet, or not any more. */
import { type Connection, type ConnectionStep, step, tell } from './connection-state.ts';
import { SENTENCES } from './sound-sentences.ts';

function sentenceFor({ hasSounded, settings }: Connection): string {
  if (hasSounded) return SENTENCES.lost;
  return settings.device === null ? SENTENCES.none : SENTENCES.noneOfThatName;
}

/** What was meant for the process takes effect on this side, and the player is told. */
export function goOnWithoutSound(connection: Connection): ConnectionStep {
  const applied = connection.pending.map(({ command }) => ({ do: 'apply', command, now: null }) as const);
  const alone = tell({ ...connection, waiting: false, pending: [] }, 'silent', sentenceFor(connection));
  return step(alone.connection, ...applied, ...alone.effects);
}

/** The wait for the first device is over. */
export const onFirstDeviceLate = (connection: Connection): ConnectionStep =>
  connection.waiting ? goOnWithoutSound(connection) : step(connection);
