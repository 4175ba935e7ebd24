/** The picture for those whom movement disturbs: as it is, without the beat. */
import { type Stand, practiceOf, withPractice } from '../practice/stand.ts';

/** No beat of the bar is the one being heard. */
export const NO_BEAT = -1;

/** Bars still go by; within one nothing moves. */
export function withoutBeat(stand: Stand): Stand {
  const practice = practiceOf(stand);
  if (!practice?.heard) return stand;
  return withPractice(stand, { ...practice, heard: { ...practice.heard, beat: NO_BEAT } });
}
