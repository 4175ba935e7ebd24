import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { type Segment, type Tone, seg } from '../paint.ts';

/** A full note head, a wavering line, a cross: the shape alone tells them apart. */
export const MARK_SIGNS: Readonly<Record<Mark, string>> = { clean: '●', tense: '≈', missed: '×' };

const TONES: Readonly<Record<Mark, Tone>> = { clean: 'clean', tense: 'tense', missed: 'missed' };

export const markSign = (mark: Mark): Segment => seg(MARK_SIGNS[mark], TONES[mark]);

/** The last few marks, oldest first, in so many columns. */
export const markSigns = (marks: readonly Mark[], columns: number): readonly Segment[] =>
  columns <= 0 ? [] : marks.slice(-columns).map(markSign);
