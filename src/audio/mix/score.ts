/**
 * All that is to sound, as a value: the chains of spans, the drones, the levels. The child process
 * mixes from it, the parent counts beats from it, and both change it by the same pure functions,
 * so neither has to trust the other to be alive.
 */
import { type Exact, compareMoments, seconds } from '../../music/time/exact-seconds.ts';
import type { Drone, SoundCommand, Span } from '../../music/sound/sound-commands.ts';
import { droneTonicFrequency } from '../../music/pitch/tuning.ts';
import { type ChainedSpan, barLineFrom, beatsBetween, spanEnd, chainSpans } from '../../music/sound/timeline.ts';
import type { Gain, Seconds } from '../../common/units.ts';
import { type Glide, glidesFrom, isSameSound, withGlide } from './drone-glide.ts';

export interface Track {
  readonly chain: readonly ChainedSpan[];
  /** Clicks before this moment are not sounded: a device that comes back enters at a bar line. */
  readonly audibleFrom: Seconds;
  /** Silenced from here on, or null. */
  readonly until: Seconds | null;
}

export interface DroneLayer {
  readonly drone: Drone;
  readonly from: Seconds;
  readonly until: Seconds | null;
  /** How its pitch came to be the drone's, oldest first; none where it has never moved. */
  readonly glides?: readonly Glide[];
}

/** A level that moves from one value to another without a jump. */
interface Ramp {
  readonly at: Seconds;
  readonly from: Gain;
  readonly to: Gain;
}

export interface Score {
  readonly tracks: readonly Track[];
  readonly drones: readonly DroneLayer[];
  readonly chimes: readonly Seconds[];
  readonly click: Ramp;
  readonly drone: Ramp;
}

/** Where the player's ear is, and the first moment that can still be changed. */
export interface Now {
  readonly heard: Seconds;
  readonly earliest: Exact;
}

/** Levels at the start: well below full scale, since nobody knows how far the headphones are turned up. */
const START_CLICK: Gain = 0.5;
const START_DRONE: Gain = 0.3;
export const RAMP: Seconds = 0.06;
export const STOP_FADE: Seconds = 0.006;
export const DRONE_IN: Seconds = 0.09;
/** Long enough to make no click, short enough that a key silences at once. */
export const DRONE_OUT: Seconds = 0.025;
/** What ended longer ago than this is forgotten. */
const MEMORY: Seconds = 8;

export const EMPTY_SCORE: Score = {
  tracks: [],
  drones: [],
  chimes: [],
  click: { at: 0, from: START_CLICK, to: START_CLICK },
  drone: { at: 0, from: START_DRONE, to: START_DRONE },
};

/** The level of a ramp at a moment. */
export const levelAt = (ramp: Ramp, at: Seconds): Gain =>
  ramp.from + (ramp.to - ramp.from) * Math.min(1, Math.max(0, (at - ramp.at) / RAMP));

const clampGain = (gain: Gain): Gain => Math.min(1, Math.max(0, gain));
const rampTo = (ramp: Ramp, to: Gain, at: Seconds): Ramp => ({ at, from: levelAt(ramp, at), to: clampGain(to) });

/** Levels move without a jump where something sounds; in silence they are there at once, for the very first stroke. */
function levelsFrom(score: Score, to: { readonly click: Gain; readonly drone: Gain }, at: Seconds) {
  const isSilent = score.tracks.length === 0 && score.drones.length === 0;
  const from = isSilent ? at - RAMP : at;
  return { click: rampTo(score.click, to.click, from), drone: rampTo(score.drone, to.drone, from) };
}

const endInSeconds = (placed: ChainedSpan): Seconds => {
  const end = spanEnd(placed);
  return end ? seconds(end) : Infinity;
};

const chainEnd = ({ chain }: Track): Seconds => {
  const last = chain.at(-1);
  return last ? endInSeconds(last) : -Infinity;
};

/** The track that plays at a moment, if any. */
export const playing = (score: Score, heard: Seconds): Track | undefined =>
  score.tracks.findLast((track) => track.until === null && chainEnd(track) > heard);

const silence = (track: Track, at: Seconds): Track => (track.until === null ? { ...track, until: at } : track);

function play(score: Score, spans: readonly Span[], now: Now): Score {
  const at = seconds(now.earliest);
  const track: Track = { chain: chainSpans(spans, now.earliest), audibleFrom: -Infinity, until: null };
  return { ...score, tracks: [...score.tracks.map((t) => silence(t, at)), track] };
}

interface Cut {
  readonly kept: readonly ChainedSpan[];
  readonly at: Exact;
}

const cutAt = (chain: readonly ChainedSpan[], index: number, bar: number, at: Exact): Cut => ({
  kept: chain.slice(0, index + 1).map((placed, i) => (i === index ? { ...placed, bars: bar } : placed)),
  at,
});

/** Where the chain may be cut: the end of what is being heard, or the first bar line that can still be changed. */
function findCut(chain: readonly ChainedSpan[], cut: boolean, now: Now): Cut {
  const earliest = seconds(now.earliest);
  const current = Math.max(
    0,
    chain.findLastIndex((p) => seconds(p.start) <= now.heard),
  );
  for (const [i, placed] of chain.entries()) {
    // What is heard goes on to its end, unless it has none or may be cut.
    if (i < current || (i === current && !cut && placed.bars !== null)) continue;
    const line = barLineFrom(placed, earliest);
    if (placed.bars === null || line.bar <= placed.bars) return cutAt(chain, i, line.bar, line.at);
  }
  const last = chain.at(-1);
  const end = last && spanEnd(last);
  return { kept: chain, at: end && compareMoments(end, now.earliest) > 0 ? end : now.earliest };
}

function then(score: Score, spans: readonly Span[], cut: boolean, now: Now): Score {
  const track = playing(score, now.heard);
  if (!track) return play(score, spans, now);
  const found = findCut(track.chain, cut, now);
  const next: Track = { ...track, chain: [...found.kept, ...chainSpans(spans, found.at)] };
  return { ...score, tracks: score.tracks.map((t) => (t === track ? next : t)) };
}

/** Where nothing but the pitch is another, the sound goes on and glides there: no gap, and no louder. */
function moveDrone(layer: DroneLayer, drone: Drone, at: Seconds): DroneLayer {
  if (droneTonicFrequency(layer.drone) === droneTonicFrequency(drone)) return { ...layer, drone };
  return { ...layer, drone, glides: withGlide(layer.drone, layer.glides ?? [], drone, at) };
}

function changeDrone(score: Score, drone: Drone | null, at: Seconds): Score {
  const sounding = score.drones.find(({ until }) => until === null);
  if (drone && sounding && isSameSound(sounding.drone, drone)) {
    const moved = moveDrone(sounding, drone, at);
    return { ...score, drones: score.drones.map((layer) => (layer === sounding ? moved : layer)) };
  }
  const ended = score.drones.map((layer) => (layer.until === null ? { ...layer, until: at } : layer));
  return { ...score, drones: drone ? [...ended, { drone, from: at, until: null }] : ended };
}

/** The first bar line from a moment on, or the moment itself where nothing plays. */
export function nextBarLine(track: Track | undefined, from: Seconds): Seconds {
  for (const placed of track?.chain ?? []) {
    const line = barLineFrom(placed, from);
    if (placed.bars === null || line.bar <= placed.bars) return seconds(line.at);
  }
  return from;
}

const withoutOldGlides = (layer: DroneLayer, before: Seconds): DroneLayer =>
  layer.glides ? { ...layer, glides: glidesFrom(layer.glides, before) } : layer;

function forget(score: Score, before: Seconds): Score {
  const recent = (until: Seconds | null): boolean => until === null || until > before;
  return {
    ...score,
    tracks: score.tracks
      .filter((t) => recent(t.until) && chainEnd(t) > before)
      .map((t) => ({ ...t, chain: t.chain.filter((placed) => endInSeconds(placed) > before) })),
    drones: score.drones.filter((d) => recent(d.until)).map((d) => withoutOldGlides(d, before)),
    chimes: score.chimes.filter((at) => at > before),
  };
}

function change(score: Score, command: SoundCommand, now: Now): Score {
  const at = seconds(now.earliest);
  switch (command.ask) {
    case 'play':
      return play(score, command.spans, now);
    case 'then':
      return then(score, command.spans, command.cut, now);
    case 'stop':
      return { ...score, tracks: score.tracks.map((t) => silence(t, at)) };
    case 'drone':
      return changeDrone(score, command.drone, at);
    case 'volume':
      return { ...score, ...levelsFrom(score, command, at) };
    case 'chime':
      return { ...score, chimes: [...score.chimes, nextBarLine(playing(score, now.heard), at)] };
  }
}

/** The score after a command. Nothing before `now.earliest` is touched. */
export const applyCommand = (score: Score, command: SoundCommand, now: Now): Score =>
  forget(change(score, command, now), now.heard - MEMORY);

export type Event =
  | {
      readonly at: Seconds;
      readonly tell: 'beat';
      readonly span: string;
      readonly bar: number;
      readonly beat: number;
      readonly beatsInBar: number;
    }
  | { readonly at: Seconds; readonly tell: 'end'; readonly span: string };

function* eventsOfTrack(track: Track, from: Seconds, to: Seconds): Generator<Event> {
  const until = Math.min(to, track.until ?? Infinity);
  for (const { at, span, bar, beat, beatsInBar } of beatsBetween(track.chain, from, until)) {
    yield { at, tell: 'beat', span: span.id, bar, beat, beatsInBar };
  }
  const end = chainEnd(track);
  const last = track.chain.at(-1);
  if (last && track.until === null && end >= from && end < to) yield { at: end, tell: 'end', span: last.span.id };
}

/** What the player hears begin in [from, to) seconds, in order: a track begins where the one before it is silenced. */
export const eventsBetween = (score: Score, from: Seconds, to: Seconds): readonly Event[] =>
  score.tracks.flatMap((track) => [...eventsOfTrack(track, from, to)]);

/** Whether there is, or may yet be, anything to report from a moment on. */
export const isBusy = (score: Score, from: Seconds): boolean =>
  score.tracks.some((track) => (track.until ?? chainEnd(track)) >= from);
