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

/** A stream that takes blocks in order, and what waits to be written to it. */
interface Output {
  readonly speaker: Writable;
  waiting: readonly Waiting[];
  written: Frames;
  open: boolean;
}

/** Each block is written when the one before it has been taken: the stream keeps the time. */
function writeNext(output: Output): void {
  if (!output.open) return;
  const block = takeBlock(output.waiting, output.written);
  output.written += BLOCK;
  output.waiting = output.waiting.filter((w) => w.from + w.samples.length > output.written);
  output.speaker.write(encodeSamples(block, '16'), () => writeNext(output));
}

const cutAt = ({ from, samples }: Waiting, end: Frames): Waiting => ({
  from,
  samples: samples.subarray(0, end - from),
});

/** A stream of 16-bit samples at the rate RATE as a way out. */
export function deviceOn(speaker: Writable): Device {
  const output: Output = { speaker, waiting: [], written: 0, open: true };
  speaker.on('error', () => (output.open = false));
  writeNext(output);
  return {
    backEnd: 'speaker',
    name: 'default',
    rate: RATE,
    latency: LATENCY,
    position: () => output.written,
    margin: () => BLOCK,
    queue(from, samples) {
      output.waiting = [...output.waiting, { from, samples }];
    },
    revoke(from) {
      output.waiting = output.waiting.filter((w) => w.from < from).map((w) => cutAt(w, from));
    },
  };
}

/** Opens the default device. Where there is none, the package may end the process. */
export async function openSpeaker(): Promise<Device> {
  // The library's own buffer is half a second: with the short delay asked for the other way out it starves.
  delete process.env['PULSE_LATENCY_MSEC'];
  const name: string = 'speaker';
  const { default: Speaker } = (await import(name)) as SpeakerModule;
  return deviceOn(new Speaker({ channels: 1, bitDepth: 16, sampleRate: RATE, samplesPerFrame: BLOCK }));
}
