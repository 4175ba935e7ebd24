/** A sitting without a clock: a sound that plays one bar when told to, and a store that always or never keeps. */
import type { Unstamped, DayEntry, UndoEntry } from '../../src/diary/entry.ts';
import { startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';
import { type Drone, PLAIN_CLICK, type SoundCommand, type Span } from '../../src/music/sound/sound-commands.ts';
import { decide } from '../../src/practice/line/line-events.ts';
import {
  type Draft,
  type Opening,
  type Practice,
  type PracticeAction,
  type PracticeEvent,
  type Step,
  openPractice,
} from '../../src/practice/line/line-on-stand.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';

export const EXERCISE: Exercise = {
  id: 'five-notes',
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
  /** The player's key. */
  press(...actions: readonly PracticeAction[]): void;
  /** One bar sounds: its first beat is heard. */
  bar(): { readonly span: Span; readonly bar: number } | null;
  /** Bars sound until this role begins. */
  until(role: Span['role']): Span;
  readonly drafts: readonly Draft[];
  readonly records: readonly Unstamped<DayEntry | UndoEntry>[];
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

export function rehearse({ exercise, rule, opening, diskFull }: Options = {}): Rehearsal {
  const played: Exercise = { ...EXERCISE, ...exercise, ladder: { ...DEFAULT_RULE, ...rule } };
  const line = { exercise: played.id, articulation: 'slurred', key: 'C' };
  let state = openPractice({
    exercise: played,
    line,
    key: 'C',
    fingering: 'ordinary',
    climb: startAt(played.ladder.start),
    drone: DRONE,
    notes: [],
    drill: null,
    remark: null,
    ...opening,
  });
  const drafts: Draft[] = [];
  const records: Unstamped<DayEntry | UndoEntry>[] = [];
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

  const send = (event: PracticeEvent): void => carryOut(decide(state, event));

  function carryOut(step: Step<Practice>): void {
    state = step.state;
    for (const effect of step.effects) {
      if (effect.type === 'sound') take(effect.command);
      else if (effect.type === 'record') records.push(effect.record);
      else if (effect.type === 'store') {
        if (!diskFull) drafts.push(effect.draft);
        send(
          diskFull ? { type: 'not-stored', sentence: 'The disk is full.' } : { type: 'stored', id: `${drafts.length}` },
        );
      }
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
