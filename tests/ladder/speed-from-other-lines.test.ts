import { describe, expect, it } from 'vitest';
import type { Line } from '../../src/ladder/line.ts';
import {
  type Reading,
  predictEachFromOthers,
  pooled,
  predictLine,
} from '../../src/ladder/speed/speed-from-other-lines.ts';

const name = (key: string, exercise = 'a'): Line => ({ exercise, articulation: 'slurred', key });

describe('what other lines say', () => {
  const readings: readonly Reading[] = [
    { line: name('C'), speed: 1.5, sd: 0.05 },
    { line: name('F'), speed: 1.6, sd: 0.1 },
    { line: name('C', 'b'), speed: 1.9, sd: 0.08 },
    { line: name('G', 'b'), speed: 2, sd: 0.2 },
  ];

  it(
    'leaves one out by the closed form as by doing it (Rasmussen and Williams, Gaussian Processes, 5.4.2; from ' +
      'memory)',
    () => {
      const pool = pooled(readings);
      const closed = predictEachFromOthers(pool);
      readings.forEach((reading, i) => {
        const rest = readings.filter((_, j) => j !== i);
        // The scale must be the same for both; these few readings choose the usual one either way.
        const again = predictLine(pooled(rest), reading.line);
        expect(pooled(rest).scale).toBe(pool.scale);
        expect(closed[i]!.mean).toBeCloseTo(again.mean, 9);
        expect(closed[i]!.sd).toBeCloseTo(again.sd, 9);
      });
    },
  );
});
