import { spawn } from 'node:child_process';
import { sharedClock } from '../../../src/audio/process/protocol.ts';
import { RATE, type Server, first } from './server.ts';

export interface Recording {
  readonly samples: Float32Array;
  /** The latest moment, on the shared clock, at which a frame can have sounded: from the earliest arrivals. */
  readonly timeOf: (frame: number) => number;
}

export interface Recorder {
  /** The loudest sample so far. */
  peak(): number;
  stop(): Recording;
}

const samplesOf = (all: Buffer): Float32Array =>
  new Float32Array(all.buffer.slice(all.byteOffset, all.byteOffset + (all.length & ~3)));

/** Records the sink's monitor until stopped. */
export function record(server: Server): Recorder {
  const args = [
    '-d',
    'out.monitor',
    '--format=float32le',
    '--channels=1',
    `--rate=${RATE}`,
    '--raw',
    '--latency-msec=10',
  ];
  const child = spawn(...first('parec', args), { env: server.env, stdio: ['ignore', 'pipe', 'ignore'] });
  const chunks: Buffer[] = [];
  let bytes = 0;
  /** Least of arrival minus recorded time: what has waited least. */
  let origin = Infinity;
  child.stdout.on('data', (chunk: Buffer) => {
    chunks.push(chunk);
    bytes += chunk.length;
    origin = Math.min(origin, sharedClock() - (bytes / 4 / RATE) * 1000);
  });
  return {
    peak: () => samplesOf(Buffer.concat(chunks)).reduce((m, x) => Math.max(m, Math.abs(x)), 0),
    stop() {
      child.kill('SIGKILL');
      const samples = samplesOf(Buffer.concat(chunks));
      return { samples, timeOf: (frame) => origin + (frame / RATE) * 1000 };
    },
  };
}
