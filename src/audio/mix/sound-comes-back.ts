/** Where click and drone come in again when a device has come back in the middle. */
import type { Seconds } from '../../common/units.ts';
import { seconds } from '../../music/time/exact-seconds.ts';
import { beatsBetween } from '../../music/sound/timeline.ts';
import { type Score, type Track, nextBarLine } from './score.ts';

/** Longest wait for a bar line before a device that is back enters at the next beat instead. */
const PATIENCE: Seconds = 1.5;

function entrance(track: Track, from: Seconds): Seconds {
  const line = nextBarLine(track, from);
  if (line - from <= PATIENCE) return line;
  for (const beat of beatsBetween(track.chain, from, line)) return beat.at;
  return line;
}

/** The score for a device that opens in the middle: the click enters at a bar line, the drone fades in. */
export function enter(score: Score, from: Seconds): Score {
  return {
    ...score,
    tracks: score.tracks.map((t) => (chainStart(t) >= from ? t : { ...t, audibleFrom: entrance(t, from) })),
    drones: score.drones.map((d) => ({ ...d, from: Math.max(d.from, from) })),
  };
}

const chainStart = (track: Track): Seconds => (track.chain[0] ? seconds(track.chain[0].start) : -Infinity);
