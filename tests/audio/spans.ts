/** Spans for the tests of the sound. */
import { COMMON_TIME, quarterTempo } from '../../src/music/time/meter.ts';
import { type Click, PLAIN_CLICK, type Span } from '../../src/music/sound/sound-commands.ts';

export const spanOf = (id: string, bpm: number, bars: number | null, click: Partial<Click> = {}): Span => ({
  id,
  role: 'free',
  tempo: quarterTempo(bpm),
  meter: COMMON_TIME,
  bars,
  click: { ...PLAIN_CLICK, ...click },
  gain: 1,
  model: [],
});
