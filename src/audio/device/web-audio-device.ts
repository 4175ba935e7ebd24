/** The sound card through node-web-audio-api. Loaded in the child process only: its native library prints. */
import type { Frames } from '../../common/units.ts';
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

/** Opens the device whose id is `sinkId` ('' is the default). Throws where the library does. */
export async function openWebAudio(settings: DeviceSettings, name: string, sinkId: string): Promise<Device> {
  const library = await loadWebAudio();
  const context = openContext(library, settings, sinkId);
  const rate = context.sampleRate;
  const expected = LATENCY[settings.latency];
  let queue: Queued[] = [];
  let block = Math.round((expected.block * rate) / RATE);
  let last = 0;

  /** The library's times are in seconds; it throws at one below zero, and a hair above a frame starts a frame late. */
  const time = (frame: Frames): number => Math.max(0, frame) / rate;

  function position(): Frames {
    const now = Math.round(context.currentTime * rate);
    if (now > last && last > 0 && now - last < 4 * block) block = Math.max(block, now - last);
    last = now;
    return now;
  }

  return {
    backEnd: 'web-audio',
    name,
    rate,
    latency: expected.toEar,
    position,
    margin: () => Math.min(block, rate / 8) + Math.round(HAND_OVER * rate),
    queue(from, samples) {
      const buffer = context.createBuffer(1, samples.length, rate);
      buffer.copyToChannel(samples, 0);
      const source = context.createBufferSource();
      source.buffer = buffer;
      source.connect(context.destination);
      source.start(time(from));
      const done = position();
      queue = [...queue.filter((q) => q.to >= done), { source, from, to: from + samples.length }];
    },
    revoke(from) {
      for (const q of queue.filter((each) => each.to > from)) {
        q.source.stop(time(Math.max(from, q.from)));
        if (q.from >= from) q.source.disconnect();
      }
      // A source may be stopped once only: it now ends where it was cut.
      queue = queue.filter((q) => q.from < from).map((q) => ({ ...q, to: Math.min(q.to, from) }));
    },
    close() {
      void context.close();
    },
  };
}
