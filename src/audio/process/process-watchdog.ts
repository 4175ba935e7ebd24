/** Replaces a process that says nothing any more. */
import type { Milliseconds } from '../../common/units.ts';
import { type Child, type Connection, type ConnectionStep, step, wake } from './connection-state.ts';

/** How often to look. */
export const WATCH: Milliseconds = 200;
/** A process that has said nothing for so long has stalled; one that sounds speaks ten times a second. */
const STALLED: Milliseconds = 1200;
/** One that still looks for a device gets longer: a sound server that is frozen never answers it. */
const HANGING: Milliseconds = 12_000;

/** The watch itself may have been held up, and the messages with it: then it looks once more before it judges. */
const wasHeldUp = ({ watched }: Connection, now: Milliseconds): boolean => now - watched > 2 * WATCH;

const hasStalled = (connection: Connection, child: Child, now: Milliseconds): boolean =>
  !wasHeldUp(connection, now) && now - child.lastWord > (child.output === null ? HANGING : STALLED);

/** The watch looks, and will look again. */
export function onWatch(connection: Connection, now: Milliseconds): ConnectionStep {
  const watched = { ...connection, watched: now };
  const again = wake('watch', WATCH);
  const { child } = connection;
  return child && hasStalled(connection, child, now)
    ? step(watched, again, { do: 'kill', child: child.number })
    : step(watched, again);
}
