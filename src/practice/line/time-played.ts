/** How long repetitions were heard: by it rests and reminders come due. */
import type { Seconds } from '../../common/units.ts';
import { barLength, secondsOf } from '../../music/time/meter.ts';
import { multiply, ratio } from '../../music/time/ratio.ts';
import type { Span } from '../../music/sound/sound-commands.ts';
import type { Heard, Practice } from './line-on-stand.ts';
import { spanHeard } from './line-state.ts';

/** How long the bars lasted that were heard of a span. */
const lastedOf = ({ meter, tempo }: Span, { bar }: Heard): Seconds =>
  secondsOf(multiply(barLength(meter), ratio(bar + 1)), tempo);

/**
 * Every repetition that is left counts as played, as far as it was heard, a slow one of the alternating order too;
 * `before` is the line while it was still heard.
 */
export function withPlayed(state: Practice, before: Practice): Practice {
  const left = spanHeard(before);
  if (left?.role !== 'repetition' || !before.heard) return state;
  return { ...state, played: state.played + lastedOf(left, before.heard) };
}
