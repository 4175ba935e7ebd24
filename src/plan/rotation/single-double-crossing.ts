/**
 * The crossing: where single tonguing tires and double (or triple) has to take over. Speeds are compared in
 * notes per second, since the two lines may stand in different note values.
 */
import type { NotesPerSecond } from '../../common/units.ts';

/** What is known of a line: the speed at which it is clean nine times in ten, and the 80 % interval around it. */
export interface SpeedKnown {
  readonly speed: NotesPerSecond;
  readonly low: NotesPerSecond;
  readonly high: NotesPerSecond;
}

export interface Crossing {
  /**
   * Overlap: double goes on where single ends. Gap: speeds that neither plays clean nine times in ten, or double stops
   * short of single.
   */
  readonly kind: 'overlap' | 'gap';
  /** How far double reaches past single (overlap), or stops short of it (gap); never negative. */
  readonly by: NotesPerSecond;
  /** Where single tires. */
  readonly at: NotesPerSecond;
  /** The two intervals overlap, so that the sign could still turn. */
  readonly unsure: boolean;
  readonly sentence: string;
  readonly drill: CrossingDrill;
}

/** What to play: one line between two speeds, going up. */
export interface CrossingDrill {
  readonly play: 'double' | 'single and double in turn';
  readonly from: NotesPerSecond;
  readonly to: NotesPerSecond;
  readonly sentence: string;
}

/**
 * The two ways overlap by this share of the single speed before the crossing counts as closed: common practice, no
 * source.
 */
const MARGIN = 0.1;
/** A drill for a gap starts below where double is clean: common practice, no source. */
const BELOW = 0.9;

const say = (speed: NotesPerSecond): string => speed.toFixed(1);

function closing(single: NotesPerSecond, other: NotesPerSecond, name: string): CrossingDrill {
  const from = Math.min(other, single) * BELOW;
  const to = single * (1 + MARGIN);
  return {
    play: 'double',
    from,
    to,
    sentence: `${capital(name)} from ${say(from)} up to ${say(to)} notes a second, so that the two overlap.`,
  };
}

function crossingOver(single: NotesPerSecond, name: string): CrossingDrill {
  const [from, to] = [single * BELOW, single * (1 + MARGIN)];
  return {
    play: 'single and double in turn',
    from,
    to,
    sentence:
      `Bars of single and ${name} in turn from ${say(from)} to ${say(to)} notes a second, until the ` +
      `change is not heard.`,
  };
}

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);

/** `crossing(single, double)`; `name` is what the other line is called: 'double' or 'triple'. */
export function crossing(single: SpeedKnown, other: SpeedKnown, name: 'double' | 'triple' = 'double'): Crossing {
  const reach = other.speed - single.speed;
  const kind = reach >= 0 ? 'overlap' : 'gap';
  const by = Math.abs(reach);
  const where = `Single is clean up to ${say(single.speed)} notes a second, ${name} up to ${say(other.speed)}`;
  const closed = reach >= single.speed * MARGIN;
  return {
    kind,
    by,
    at: single.speed,
    unsure: single.low <= other.high && other.low <= single.high,
    sentence: `${where}: ${kind === 'overlap' ? `${name} goes on for ${say(by)}` : `a gap of ${say(by)}`}.`,
    drill: closed ? crossingOver(single.speed, name) : closing(single.speed, other.speed, name),
  };
}
