/** A sitting without a clock: a sound that plays one bar when told to, and a store that always or never keeps. */
import { type Happening, ofLadder } from '../../src/diary/entry.ts';
import { type Climb, startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import type { Rungs } from '../../src/ladder/rule/rungs.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';
import { type Drone, PLAIN_CLICK, type SoundCommand, type Span } from '../../src/music/sound/sound-commands.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { decide } from '../../src/practice/line/line-events.ts';
import { climbNow, rungsNow } from '../../src/practice/line/line-state.ts';
import {
  type Opening,
  type Practice,
  type PracticeAction,
  type PracticeEvent,
  openPractice,
} from '../../src/practice/line/line-on-stand.ts';
import type { Step } from '../../src/practice/step.ts';
import { keeping } from './keeping.ts';

export const EXERCISE: Exercise = {
  id: 'five-notes',
  name: 'five-notes',
  file: 'own',
  title: 'Five notes',
  kind: 'technique',
  material: null,
  pattern: null,
  scale: 'major',
  meter: COMMON_TIME,
  beat: QUARTER,
  notesPerBeat: 4,
  bars: 2,
  breathBars: 1,
  countInBars: 1,
  noMark: 'wait',
  keys: ['C'],
  articulations: ['slurred'],
  ladder: DEFAULT_RULE,
  click: PLAIN_CLICK,
  cues: [],
};

export const DRONE: Drone = {
  tonic: 58,
  voices: ['tonic'],
  tuning: 'just',
  a4: 440,
  timbre: 'reed',
  gain: 1,
  detune: 0,
};

export interface Rehearsal {
  state(): Practice;
  climb(): Climb;
  rungs(): Rungs;
  /** The answer to the last key. */
  answer(): string | null;
  /** The player's key. */
  press(...actions: readonly PracticeAction[]): void;
  /** One bar sounds: its first beat is heard. */
  bar(): { readonly span: Span; readonly bar: number } | null;
  /** Bars sound until this role begins. */
  until(role: Span['role']): Span;
  /** Marks, tempos and undos that were kept, and everything else. */
  readonly drafts: readonly Happening[];
  readonly records: readonly Happening[];
  /** Anything else that changes the line on the stand. */
  apply(change: (practice: Practice) => Step<Practice>): void;
  readonly commands: readonly SoundCommand[];
}

interface Options {
  readonly exercise?: Partial<Exercise>;
  readonly rule?: Partial<LadderRule>;
  readonly opening?: Partial<Opening>;
  readonly diskFull?: boolean;
}

const OF_LINE: readonly Happening['kind'][] = ['mark', 'tempo', 'undo'];

function opened({ exercise, rule, opening }: Options): Practice {
  const played: Exercise = { ...EXERCISE, ...exercise, ladder: { ...DEFAULT_RULE, ...rule } };
  return openPractice({
    exercise: played,
    line: { exercise: played.id, articulation: 'slurred', key: 'C' },
    key: 'C',
    fingering: 'ordinary',
    climb: startAt(played.ladder.start),
    drone: DRONE,
    drill: null,
    remark: null,
    ...opening,
  });
}

export function rehearse(options: Options = {}): Rehearsal {
  let state = opened(options);
  let answer: string | null = null;
  const journal = keeping('2026-11-25');
  const drafts: Happening[] = [];
  const records: Happening[] = [];
  const commands: SoundCommand[] = [];
  let queue: Span[] = [];
  let bar = -1;

  function take(command: SoundCommand): void {
    commands.push(command);
    if (command.ask === 'stop') queue = [];
    if (command.ask === 'play') [queue, bar] = [[...command.spans], -1];
    if (command.ask !== 'then') return;
    const [now] = queue;
    // A cut span ends after the bar that sounds.
    const current = now && (command.cut ? { ...now, bars: bar + 1 } : now);
    queue = [...(current ? [current] : []), ...command.spans];
  }

  function keep(happening: Happening): void {
    if (options.diskFull) return send({ type: 'not-kept' });
    (OF_LINE.includes(happening.kind) ? drafts : records).push(happening);
    const { entry } = journal.keep(happening);
    if (entry.kind === 'undo') send({ type: 'taken back', of: entry.of });
    else if (ofLadder(entry)) send({ type: 'marked', entry });
  }

  const send = (event: PracticeEvent): void => carryOut(decide(state, event));

  function carryOut(step: Step<Practice>): void {
    state = step.state;
    for (const effect of step.effects) {
      if (effect.type === 'sound') take(effect.command);
      if (effect.type === 'say') answer = effect.sentence;
      if (effect.type === 'keep') keep(effect.happening);
    }
  }

  function next(): { span: Span; bar: number } | null {
    bar += 1;
    while (queue[0] && queue[0].bars !== null && bar >= queue[0].bars) {
      queue.shift();
      bar = 0;
    }
    const span = queue[0];
    if (!span) return null;
    const sounded = { span, bar };
    send({ type: 'sound', report: { tell: 'beat', span: span.id, bar, beat: 0, beatsInBar: 4, lateBy: 0 } });
    return sounded;
  }

  return {
    state: () => state,
    climb: () => climbNow(state),
    rungs: () => rungsNow(state),
    answer: () => answer,
    press: (...actions) => actions.forEach((action) => send({ type: 'do', action })),
    bar: next,
    until: (role) => {
      for (let k = 0; k < 50; k += 1) {
        const sounded = next();
        if (sounded?.span.role === role && sounded.bar === 0) return sounded.span;
      }
      throw new Error(`no ${role} within fifty bars`);
    },
    drafts,
    records,
    apply: (change) => carryOut(change(state)),
    commands,
  };
}
