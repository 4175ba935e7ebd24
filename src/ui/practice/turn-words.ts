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
const moreWords = ({ more, why }: Pick<Following, 'more' | 'why'>): string =>
  more > 0 ? `${why ? `${why}: ` : ''}${more} more, ` : '';

/** What follows with so many others named, and which keys are this week's. */
function wordsWith({ rotation, week, ...following }: Following, now: Turn, many: number): string {
  const others = following.others.slice(0, many);
  const words = others.map((turn, k) => `then ${changeTo(turn, others[k - 1] ?? now)}`).join(', ');
  const isLater = rotation.change === 'block' && rotation.articulations !== 'in turn';
  const ahead = isLater ? words.replace('then', 'next time') : moreWords(following) + words;
  return week.length === 0 ? ahead : `${ahead}; this week ${week.map(keyLetters).join(' ')}`;
}

/**
 * '2 more, then D, then A'; after a block 'next time D, then A'; and which keys are this week's. Empty where nothing
 * comes round; where there is no room for all, those that come later are left out.
 */
export function aheadWords(following: Following, now: Turn, room = Infinity): string {
  const { others } = following;
  const texts = others.map((_, k) => wordsWith(following, now, others.length - k));
  return texts.find((text) => text.length <= room) ?? texts.at(-1) ?? '';
}

/** Of the line on the stand. */
export function aheadNow(stand: Stand, work: Work, room = Infinity): string {
  const { key, fingering, line } = work.practice;
  return aheadWords(followingNow(stand, work), { key, fingering, articulation: line.articulation }, room);
}

/** Of the key of a block without a ladder. */
export function aheadOfTone(stand: Stand, exercise: Exercise, tone: Tone): string {
  const { key, articulation } = tone.line;
  return aheadWords(followingTone(stand, exercise, tone), { key, articulation, fingering: 'ordinary' });
}
