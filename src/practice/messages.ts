/** The one thing there is to say now. Each has its place in the order, and its end. */
import { bpmText } from '../music/time/tempo-text.ts';
import type { Seconds } from '../common/units.ts';
import { passageNow } from './line/line-state.ts';
import type { Practice } from './line/line-on-stand.ts';
import { easeNow } from './sitting/ease-remarks.ts';
import { wallFor } from './sitting/line-speed.ts';
import { runViewNow } from './sitting/run-now.ts';
import { type Answer, type Stand, practiceOf } from './stand.ts';

type MessageKind = 'answer' | 'question' | 'ease' | 'way' | 'wall' | 'opening' | 'cue' | 'clock' | 'sound';

interface Message {
  readonly kind: MessageKind;
  readonly sentence: string;
}

/** An answer to a key is read in a moment; what it hid comes back then. */
const ANSWER_LASTS: Seconds = 8;

export const isAnswerOver = ({ since }: Answer, now: Seconds): boolean => now - since >= ANSWER_LASTS;

/** Where on the way round a wall. */
function onWay(practice: Practice): string | null {
  const passage = passageNow(practice);
  if (!practice.way || !passage) return null;
  const { way, at, done } = practice.way;
  const step = `${way.title}, ${at + 1} of ${way.passages.length}: ${passage.say} at ${bpmText(passage.bpm)}`;
  return `${step} (${done + 1} of ${passage.repetitions})`;
}

/** Said before the first mark: later the wall is on the screen in its own way. */
function wallAhead({ known }: Stand, practice: Practice): string | null {
  if (practice.way || practice.kept.length > 0) return null;
  const wall = wallFor(known, practice);
  return wall ? `${wall.sentence} v shows ways round it.` : null;
}

const ofLine = (stand: Stand, practice: Practice): readonly (readonly [MessageKind, string | null])[] => [
  ['wall', wallAhead(stand, practice)],
  ['opening', practice.remark],
  ['cue', practice.cueing.cue],
];

/**
 * The answer to the last key, then what is to be played on a way round a wall (nothing else on the screen says it),
 * then the question of the sitting, then the body, then the work, then the clock.
 */
export function messageNow(stand: Stand): Message | null {
  const run = runViewNow(stand);
  const practice = practiceOf(stand);
  const { output, answer } = stand;
  const all: readonly (readonly [MessageKind, string | null | undefined])[] = [
    ['answer', answer?.sentence],
    ['way', practice && onWay(practice)],
    ['question', run?.question],
    ['ease', easeNow(stand)],
    ...(practice ? ofLine(stand, practice) : []),
    ['clock', run?.remark],
    ['sound', output?.state === 'silent' ? output.sentence : null],
  ];
  const found = all.find(([, sentence]) => sentence);
  return found ? { kind: found[0], sentence: found[1] as string } : null;
}
