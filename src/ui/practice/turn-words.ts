/** What the rotation has ahead, in words: 'then D, then A'. */
import { keyLetters } from '../../music/pitch/key-letters.ts';
import type { Turn } from '../../plan/rotation/turn.ts';
import type { Work, Stand } from '../../practice/stand.ts';
import { type Following, followingNow } from '../../practice/sitting/what-follows.ts';

/** The next key, and what else changes with it: 'D', 'D double', 'double', 'D alternate fingering'. */
function changeTo(turn: Turn, before: Turn): string {
  const key = turn.key === before.key && turn.articulation !== before.articulation ? [] : [keyLetters(turn.key)];
  const tongue = turn.articulation === before.articulation ? [] : [turn.articulation];
  const fingers = turn.fingering === 'alternate' ? ['alternate fingering'] : [];
  return [...key, ...tongue, ...fingers].join(' ');
}

/** '2 more, then D, then A'; after a block 'next time D, then A'. Empty where nothing comes round. */
export function aheadWords({ more, others, rotation }: Following, now: Turn): string {
  if (others.length === 0) return '';
  const words = others.map((turn, k) => `then ${changeTo(turn, others[k - 1] ?? now)}`);
  const isLater = rotation.change === 'block' && rotation.articulations !== 'in turn';
  const first = isLater ? words.join(', ').replace('then', 'next time') : words.join(', ');
  return more > 0 && !isLater ? `${more} more, ${first}` : first;
}

/** Of the line on the stand. */
export function aheadNow(stand: Stand, work: Work): string {
  const { key, fingering, line } = work.practice;
  return aheadWords(followingNow(stand, work), { key, fingering, articulation: line.articulation });
}
