import type { FrameRate, Frames, Seconds } from '../../common/units.ts';
import type { BackEnd } from '../process/protocol.ts';

/** A way out for samples. Its frames count from 0 when it was opened. */
export interface Device {
  readonly backEnd: BackEnd;
  readonly name: string;
  readonly rate: FrameRate;
  /** Estimate of the time from `position` to the ear. */
  readonly latency: Seconds;
  /** Frames that have been taken by the device; moves in steps. */
  position(): Frames;
  /** Frames beyond `position` that can no longer be changed. */
  margin(): Frames;
  /** Samples to be played from a frame on; chunks follow each other without gaps or overlaps. */
  queue(from: Frames, samples: Float32Array): void;
  /** Forgets what is queued from a frame on. */
  revoke(from: Frames): void;
}
