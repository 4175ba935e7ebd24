/** The sound card through node-web-audio-api. Loaded in the child process only: its native library prints. */
import type { Frames, Seconds } from '../../common/units.ts';
import type { Device } from './device.ts';
import type { DeviceSettings } from '../process/protocol.ts';
import { type AudioContext, type BufferSource, type WebAudioLibrary, loadWebAudio } from './web-audio-library.ts';

interface Queued {
  readonly source: BufferSource;
  readonly from: Frames;
  readonly to: Frames;
}

const RATE = 48_000;
/**
 * What each setting asks of the library, the block that came of it where it was measured, and the delay that was
 * heard.
 */
const LATENCY = {
  low: { hint: 'playback', block: 1200, toEar: 0.06 },
  safe: { hint: 0.1, block: 4800, toEar: 0.17 },
} as const;

/** A pause is no block: more than this was never seen as one. */
const LARGEST_BLOCK: Seconds = 0.125;

/** Time for this process to mix and hand over, beyond the device's own block. */
const HAND_OVER = 0.01;

function openContext(library: WebAudioLibrary, settings: DeviceSettings, sinkId: string): AudioContext {
  const hint = LATENCY[settings.latency].hint;
  try {
    return new library.AudioContext({ latencyHint: hint, sampleRate: RATE, sinkId });
  } catch {
    // A device may insist on its own rate.
    return new library.AudioContext({ latencyHint: hint, sinkId });
  }
}

/** A context that is open, and what is queued in it. */
interface Output {
  readonly context: AudioContext;
  queue: readonly Queued[];
  /** Frames that the device takes at once: as measured before, or more where more was seen. */
  block: Frames;
  /** Position when last asked. */
  last: Frames;
}

const framesIn = ({ context }: Output, time: Seconds): Frames => Math.round(time * context.sampleRate);

/** The library's times are in seconds: exactly frame / rate, since what starts a hair after a frame is a frame late. */
const timeOf = ({ context }: Output, frame: Frames): Seconds => frame / context.sampleRate;

function position(output: Output): Frames {
  const now = framesIn(output, output.context.currentTime);
  const step = now - output.last;
  if (output.last > 0 && step < 4 * output.block) output.block = Math.max(output.block, step);
  output.last = now;
  return now;
}

const margin = (output: Output): Frames =>
  Math.min(output.block, framesIn(output, LARGEST_BLOCK)) + framesIn(output, HAND_OVER);

function sourceOf({ context }: Output, samples: Float32Array): BufferSource {
  const buffer = context.createBuffer(1, samples.length, context.sampleRate);
  buffer.copyToChannel(samples, 0);
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.connect(context.destination);
  return source;
}

function queue(output: Output, from: Frames, samples: Float32Array): void {
  const source = sourceOf(output, samples);
  source.start(timeOf(output, from));
  const done = position(output);
  output.queue = [...output.queue.filter((q) => q.to >= done), { source, from, to: from + samples.length }];
}

function revoke(output: Output, from: Frames): void {
  for (const queued of output.queue.filter((each) => each.to > from)) {
    queued.source.stop(timeOf(output, Math.max(from, queued.from)));
    if (queued.from >= from) queued.source.disconnect();
  }
  // A source may be stopped once only: it now ends where it was cut.
  output.queue = output.queue.filter((q) => q.from < from).map((q) => ({ ...q, to: Math.min(q.to, from) }));
}

/** A context as a way out for samples. */
export function deviceOn(context: AudioContext, name: string, latency: DeviceSettings['latency']): Device {
  const { block, toEar } = LATENCY[latency];
  const rate = context.sampleRate;
  const output: Output = { context, queue: [], block: Math.round((block * rate) / RATE), last: 0 };
  return {
    backEnd: 'web-audio',
    name,
    rate,
    latency: toEar,
    position: () => position(output),
    margin: () => margin(output),
    queue: (from, samples) => queue(output, from, samples),
    revoke: (from) => revoke(output, from),
  };
}

/** Opens the device whose id is `sinkId` ('' is the default). Throws where the library does. */
export async function openWebAudio(settings: DeviceSettings, name: string, sinkId: string): Promise<Device> {
  const library = await loadWebAudio();
  return deviceOn(openContext(library, settings, sinkId), name, settings.latency);
}
