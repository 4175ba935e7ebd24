import { describe, expect, it } from 'vitest';
import { startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';
import { PLAIN_CLICK, type Click } from '../../src/music/sound/sound-commands.ts';
import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { cycle } from '../../src/practice/line/repetition-cycle.ts';
import { openPractice } from '../../src/practice/line/line-on-stand.ts';

const WAVE: Exercise = {
  id: 'wave',
  name: 'wave',
  file: 'own',
  title: 'Wave',
  kind: 'sound',
  material: null,
  pattern: '1 | 2',
  scale: 'major',
  meter: COMMON_TIME,
  beat: QUARTER,
  notesPerBeat: 0.25,
  bars: 2,
  breathBars: 1,
  countInBars: 1,
  noMark: 'wait',
  keys: ['C'],
  articulations: ['pulses 4', 'slurred'],
  ladder: DEFAULT_RULE,
  click: PLAIN_CLICK,
  cues: [],
};

function clickOf(articulation: string, click: Click): Click | undefined {
  const line = { exercise: 'wave', articulation, key: 'C' };
  const practice = openPractice({
    exercise: { ...WAVE, click },
    line,
    key: 'C',
    fingering: 'ordinary',
    climb: startAt(60),
    drone: PLAIN_DRONE,
    drill: null,
    remark: null,
  });
  return cycle(practice, 60).spans.find(({ role }) => role === 'repetition')?.click;
}

describe('pulses of vibrato', () => {
  it('are struck softly between the beats, unless the exercise has a subdivision of its own', () => {
    expect(clickOf('pulses 4', PLAIN_CLICK)?.subdivision).toBe(4);
    expect(clickOf('slurred', PLAIN_CLICK)?.subdivision).toBe(1);
    expect(clickOf('pulses 4', { ...PLAIN_CLICK, subdivision: 2 })?.subdivision).toBe(2);
    expect(clickOf('pulses 9', PLAIN_CLICK)?.subdivision).toBe(1);
  });
});
