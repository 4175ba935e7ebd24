/** A line of the weeks as a band: from where it starts to its target, the same scale for all of them. */
import type { Bpm } from '../../common/units.ts';
import type { Standing } from '../../review/standing.ts';
import { type PaintedLine, type Tone, line, seg } from '../paint.ts';

interface Sign {
  readonly text: string;
  readonly tone: Tone;
}

const DONE: Sign = { text: '─', tone: 'plain' };
const TO_GO: Sign = { text: '·', tone: 'dim' };
const SURE: Sign = { text: '═', tone: 'clean' };
const NOW: Sign = { text: '●', tone: 'now' };
const BEFORE: Sign = { text: '◇', tone: 'plain' };
const WALL: Sign = { text: '▌', tone: 'missed' };

/** Equal ratios are equally far, as on the ladder; what lies outside stands at the end. */
export function columnOf(bpm: Bpm, { start, target }: Pick<Standing, 'start' | 'target'>, columns: number): number {
  const share = target > start ? Math.log(bpm / start) / Math.log(target / start) : 1;
  return Math.round(Math.min(Math.max(share, 0), 1) * (columns - 1));
}

/** Signs next to each other in one tone are one piece. */
function joined(signs: readonly Sign[]): PaintedLine {
  const pieces: Sign[] = [];
  for (const { text, tone } of signs) {
    const last = pieces.at(-1);
    if (last?.tone === tone) pieces[pieces.length - 1] = { text: last.text + text, tone };
    else pieces.push({ text, tone });
  }
  return line(...pieces.map(({ text, tone }) => seg(text, tone)));
}

/** `─` reached, `═` how sure, `●` now, `◇` eight weeks ago, `▌` the wall, `·` still to go. */
export function tempoBand(standing: Standing, columns: number): PaintedLine {
  const { now, before, wall } = standing;
  const at = (bpm: Bpm): number => columnOf(bpm, standing, columns);
  if (now.said.known === 'too little') return joined(Array.from({ length: columns }, () => TO_GO));
  const [low, here, high] = [at(now.low), at(now.bpm), at(now.high)];
  const signs = Array.from({ length: columns }, (_, k) => (k >= low && k <= high ? SURE : k < here ? DONE : TO_GO));
  if (wall) signs[at(wall.bpm)] = WALL;
  if (before && before.said.known !== 'too little') signs[at(before.bpm)] = BEFORE;
  signs[here] = NOW;
  return joined(signs);
}
