/**
 * The crossing: where single tonguing tires and double (or triple) has to take over. Speeds are compared in
 * notes per second, since the two lines may stand in different note values.
 */
import type { NotesPerSecond } from '../../common/units.ts';

export interface Crossing {
  /** Where single tires, and how far double goes on or stops short. */
  readonly sentence: string;
  /** What to play: one line between two speeds, going up. */
  readonly drill: string;
}

/**
 * The two ways overlap by this share of the single speed before the crossing counts as closed: common practice, no
 * source.
 */
const MARGIN = 0.1;
/** A drill begins below where the slower one is clean: common practice, no source. */
const BELOW = 0.9;

const inFigures = (speed: NotesPerSecond): string => speed.toFixed(1);
const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);

function drillFor(single: NotesPerSecond, other: NotesPerSecond, name: string): string {
  const to = `${inFigures(single * (1 + MARGIN))} notes a second`;
  if (other - single >= single * MARGIN)
    return (
      `Bars of single and ${name} in turn from ${inFigures(single * BELOW)} to ${to}, ` +
      'until the change is not heard.'
    );
  return `${capital(name)} from ${inFigures(Math.min(other, single) * BELOW)} up to ${to}, so that the two overlap.`;
}

/**
 * The speeds at which each of two lines is clean nine times in ten: `crossing(8.4, 7)` is a gap of 1.4, a speed
 * that neither plays; `name` is what the other line is called.
 */
export function crossing(
  single: NotesPerSecond,
  other: NotesPerSecond,
  name: 'double' | 'triple' = 'double',
): Crossing {
  const reach = other - single;
  const by = inFigures(Math.abs(reach));
  const ends = `Single is clean up to ${inFigures(single)} notes a second, ${name} up to ${inFigures(other)}`;
  return {
    sentence: `${ends}: ${reach >= 0 ? `${name} goes on for ${by}` : `a gap of ${by}`}.`,
    drill: drillFor(single, other, name),
  };
}
