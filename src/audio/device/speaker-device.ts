/**
 * The second way out, through the package `speaker` where it is installed: it plays what is written to it, in order.
 */
import type { Writable } from 'node:stream';
import type { Frames } from '../../common/units.ts';
import type { Device } from './device.ts';
import { encodeSamples } from '../file/wav.ts';

const RATE = 48_000;
/** Frames handed over at once. */
const BLOCK = 960;
/**
 * What lies between a write that has returned and the ear: the library keeps half a second, measured as 0.6 s through
 * PulseAudio.
 */
const LATENCY = 0.6;

interface SpeakerModule {
  readonly default: new (options: {
    channels: number;
    bitDepth: number;
    sampleRate: number;
    samplesPerFrame: number;
  }) => Writable;
}

/** Sounds waiting to be written, on the device's frames. */
interface Waiting {
  readonly from: Frames;
  readonly samples: Float32Array;
}

/** The next block from what is waiting; silence where nothing is. */
function takeBlock(waiting: readonly Waiting[], from: Frames): Float32Array {
  const block = new Float32Array(BLOCK);
  for (const w of waiting) {
    for (let i = Math.max(0, w.from - from); i < Math.min(BLOCK, w.from + w.samples.length - from); i++) {
      block[i] = w.samples[i + from - w.from] ?? 0;
    }
  }
  return block;
}

/** Opens the default device. Where there is none, the package may end the process. */
export async function openSpeaker(): Promise<Device> {
  // The library's own buffer is half a second: with the short delay asked for the other way out it starves.
  delete process.env['PULSE_LATENCY_MSEC'];
  const name: string = 'speaker';
  const { default: Speaker } = (await import(name)) as SpeakerModule;
  const speaker = new Speaker({ channels: 1, bitDepth: 16, sampleRate: RATE, samplesPerFrame: BLOCK });
  let waiting: Waiting[] = [];
  let written: Frames = 0;
  let open = true;

  const writeNext = (): void => {
    if (!open) return;
    const block = takeBlock(waiting, written);
    written += BLOCK;
    waiting = waiting.filter((w) => w.from + w.samples.length > written);
    speaker.write(encodeSamples(block, '16'), () => writeNext());
  };
  speaker.on('error', () => (open = false));
  writeNext();

  return {
    backEnd: 'speaker',
    name: 'default',
    rate: RATE,
    latency: LATENCY,
    position: () => written,
    margin: () => BLOCK,
    queue: (from, samples) => void waiting.push({ from, samples }),
    revoke(from) {
      waiting = waiting
        .filter((w) => w.from < from)
        .map((w) => ({ from: w.from, samples: w.samples.subarray(0, Math.min(w.samples.length, from - w.from)) }));
    },
    close() {
      open = false;
      speaker.destroy();
    },
  };
}
