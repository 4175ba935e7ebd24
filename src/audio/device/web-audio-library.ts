/**
 * The few parts of node-web-audio-api that are used. Its own types pull the whole DOM into the
 * program, which has none; these are the same calls of the W3C Web Audio API.
 */
interface AudioBuffer {
  copyToChannel(samples: Float32Array, channel: number): void;
}

interface AudioNode {
  connect(to: AudioNode): unknown;
  disconnect(): void;
}

export interface BufferSource extends AudioNode {
  buffer: AudioBuffer | null;
  /** Seconds of the context's clock. */
  start(when: number): void;
  stop(when: number): void;
}

export interface AudioContext {
  readonly sampleRate: number;
  readonly currentTime: number;
  readonly destination: AudioNode;
  createBuffer(channels: number, frames: number, rate: number): AudioBuffer;
  createBufferSource(): BufferSource;
}

interface ContextOptions {
  readonly latencyHint: number | 'playback';
  readonly sampleRate?: number;
  /** '' is the system's default. */
  readonly sinkId: string;
}

interface MediaDevice {
  readonly kind: string;
  readonly label: string;
  readonly deviceId: string;
}

export interface WebAudioLibrary {
  readonly AudioContext: new (options: ContextOptions) => AudioContext;
  readonly mediaDevices: { enumerateDevices(): Promise<readonly MediaDevice[]> };
}

/**
 * Loads the library. Only for the child process: its native part prints to both outputs. Rejects where it is not
 * installed for this machine.
 */
export const loadWebAudio = async (): Promise<WebAudioLibrary> => {
  const name: string = 'node-web-audio-api';
  return (await import(name)) as WebAudioLibrary;
};
