/** A breath as a shape: down as the lungs empty, along the ground while waiting, up as it comes back. */
import type { Seconds } from '../../common/units.ts';
import type { EachBreath } from '../../plan/routine/exercise.ts';
import { type BreathNow, breathNow, fullness, lengthOfBreath } from '../../plan/run/breaths.ts';
import { type PaintedLine, line, seg } from '../paint.ts';

const WIDEST = 72;

const NAMES: readonly (readonly ['out' | 'wait' | 'back', string])[] = [
  ['out', 'empty out'],
  ['wait', 'wait'],
  ['back', 'let it come back'],
];

const rounded = (seconds: Seconds): string => `${Math.round(seconds * 10) / 10}`;

/** 'wait 1 of 2 s' of what is under way, 'wait 2 s' of the others. */
function stageWords(each: EachBreath, now: BreathNow): PaintedLine {
  const said = NAMES.filter(([stage]) => each[stage] > 0).flatMap(([stage, name], i) => {
    const isNow = stage === now.stage;
    const words = `${name} ${isNow ? `${Math.floor(now.seconds)} of ` : ''}${rounded(each[stage])} s`;
    return [seg(i > 0 ? '  ·  ' : '', 'dim'), seg(words, isNow ? 'now' : 'plain')];
  });
  return line(...said);
}

/** One row of the shape: what is over is solid, what is to come is not. */
function rowOf(each: EachBreath, over: number, width: number, from: number): PaintedLine {
  const signs = Array.from({ length: width }, (_, x) => {
    const isFull = fullness(each, ((x + 0.5) / width) * lengthOfBreath(each)) > from;
    return isFull ? (x < over ? '█' : '░') : ' ';
  });
  return line(seg(signs.slice(0, over).join(''), 'now'), seg(signs.slice(over).join(''), 'dim'));
}

/** `height` rows of shape, the ground, and the words; all of one width. */
export function breathShape(
  each: EachBreath,
  seconds: Seconds,
  columns: number,
  height: number,
): readonly PaintedLine[] {
  const width = Math.min(WIDEST, columns - 4);
  const over = Math.min(width, Math.round((seconds / lengthOfBreath(each)) * width));
  const rows = Array.from({ length: height }, (_, row) => rowOf(each, over, width, (height - row - 0.5) / height));
  const ground = line(seg('━'.repeat(over), 'now'), seg('─'.repeat(width - over), 'dim'));
  return [...rows, ground, stageWords(each, breathNow(each, seconds))];
}
