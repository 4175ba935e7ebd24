/** A running routine as the screen needs it: words and numbers, nothing left to decide. */
import { minutesAndSeconds, minutesInWords } from '../../common/time-words.ts';
import type { Routine } from '../routine/routine.ts';
import { type RunItem } from './run-items.ts';
import { isRest } from '../today/plan-items.ts';
import { nextItem } from './block-end.ts';
import { breathWords } from './breaths.ts';
import { type Asked, type Phase, type Run, current, secondsLeft } from './run.ts';

export interface RunView {
  readonly phase: Phase;
  readonly part: string;
  readonly title: string;
  readonly kind: RunItem['kind'];
  /** '2:40', and of how much: '6:00'. */
  readonly left: string;
  readonly of: string;
  /** Share of the block that is over, 0 to 1. */
  readonly share: number;
  /** 'turn 2 of 3', '3 of 12 breaths'; empty without. */
  readonly count: string;
  /** 'next: Thirds, 5 min'; empty after the last. */
  readonly next: string;
  /** The next block's material, when it is not on the stand yet; empty without. */
  readonly nextMaterial: string;
  /** What the keys do now, one sentence; or what there is to say. */
  readonly remark: string;
  /** Asked once after a block: 'How tense? 0 none ... 4 very (Long tones)'; empty when nothing is asked. */
  readonly question: string;
  /** The whole sitting, for a row of marks. */
  readonly blocks: readonly {
    readonly title: string;
    readonly state: RunItem['state'] | 'now';
    readonly minutes: number;
    readonly isRest: boolean;
  }[];
  /** Of the whole sitting, '12:30' of '25:00'; rests are no playing. */
  readonly played: string;
  readonly total: string;
}

function countOf(run: Run, item: RunItem): string {
  const turn = item.turn === null ? [] : [`turn ${item.turn.n} of ${item.turn.of}`];
  return [...turn, ...breathWords(run, item)].join(', ');
}

const REMARKS: Readonly<Record<Phase, string>> = {
  ready: 'Ready when you are.',
  playing: '',
  paused: 'The clock waits.',
  over: 'Time is up: go on when you like, or stay.',
  'playing on': 'The time is up; what you play counts.',
  left: '',
  finished: 'That was all.',
};

const worked = ({ items }: Run, of: 'played' | 'length'): number =>
  items.reduce((sum, item) => (isRest(item) ? sum : sum + item[of]), 0);

const stripOf = (run: Run): RunView['blocks'] =>
  run.items.map((item, i) => ({
    title: item.title,
    state: i === run.at && run.phase !== 'finished' ? 'now' : item.state,
    minutes: item.length / 60,
    isRest: isRest(item),
  }));

/** 'How tense? 2: the pedal keeps it (Long tones)' once the pedal has chosen an answer. */
const questionOf = ({ title, level }: Asked): string =>
  `How tense? ${level === undefined ? '0 none ... 4 very' : `${level} of 4: forward keeps it`} (${title})`;

export function runView(run: Run, routine: Routine): RunView {
  const item = current(run);
  const next = nextItem(run);
  return {
    phase: run.phase,
    part: routine.parts.find(({ id }) => id === item?.part)?.title ?? '',
    title: item?.title ?? routine.title,
    kind: item?.kind ?? 'rest',
    left: item === null ? '' : minutesAndSeconds(secondsLeft(item)),
    of: item === null ? '' : minutesAndSeconds(item.length),
    share: item === null || item.length === 0 ? 1 : Math.min(1, item.played / item.length),
    count: item === null ? '' : countOf(run, item),
    next:
      next === null
        ? ''
        : `next: ${next.title}, ${minutesInWords(Math.max(0.5, Math.round(secondsLeft(next) / 30) / 2))}`,
    nextMaterial: next?.material !== null && next?.material !== item?.material ? (next?.material ?? '') : '',
    remark: run.remark || REMARKS[run.phase],
    question: run.asked === null ? '' : questionOf(run.asked),
    blocks: stripOf(run),
    played: minutesAndSeconds(worked(run, 'played')),
    total: minutesAndSeconds(worked(run, 'length')),
  };
}
