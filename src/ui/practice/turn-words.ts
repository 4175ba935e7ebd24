/** What the rotation has ahead, in words: 'then D, then A'. */
import { keyLetters } from '../../music/pitch/key-letters.ts';
import type { Turn } from '../../plan/rotation/turn.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { Stand, Tone, Work } from '../../practice/stand.ts';
import { type Following, followingNow, followingTone } from '../../practice/sitting/what-follows.ts';

/** What changes with the next turn: 'D', 'D double', 'double', 'alternate' (fingering), 'F ordinary'. */
function changeTo(turn: Turn, before: Turn): string {
  const tongue = turn.articulation === before.articulation ? [] : [turn.articulation];
  const fingers = turn.fingering === before.fingering ? [] : [turn.fingering];
  const isSameKey = turn.key === before.key && tongue.length + fingers.length > 0;
  return [...(isSameKey ? [] : [keyLetters(turn.key)]), ...tongue, ...fingers].join(' ');
}

/** How often the present one comes again: 'an end: 2 more, '. */
const moreWords = ({ more, why }: Following): string => (more > 0 ? `${why ? `${why}: ` : ''}${more} more, ` : '');

/**
 * '2 more, then D, then A'; after a block 'next time D, then A'; and which keys are this week's. Empty where nothing
 * comes round.
 */
export function aheadWords(following: Following, now: Turn): string {
  const { others, rotation, week } = following;
  if (others.length === 0) return '';
  const words = others.map((turn, k) => `then ${changeTo(turn, others[k - 1] ?? now)}`).join(', ');
  const isLater = rotation.change === 'block' && rotation.articulations !== 'in turn';
  const ahead = isLater ? words.replace('then', 'next time') : moreWords(following) + words;
  return week.length === 0 ? ahead : `${ahead}; this week ${week.map(keyLetters).join(' ')}`;
}

/** Of the line on the stand. */
export function aheadNow(stand: Stand, work: Work): string {
  const { key, fingering, line } = work.practice;
  return aheadWords(followingNow(stand, work), { key, fingering, articulation: line.articulation });
}

/** Of the key of a block without a ladder. */
export function aheadOfTone(stand: Stand, exercise: Exercise, tone: Tone): string {
  const { key, articulation } = tone.line;
  return aheadWords(followingTone(stand, exercise, tone), { key, articulation, fingering: 'ordinary' });
}
