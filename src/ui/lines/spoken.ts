/**
 * The program without a picture: what there is to say, each thing under a name of its own. A thing is said when it
 * changes, in one short line: 'play', 'clean, 2 of 3', 'up to 92'.
 */
import { withSigns } from '../../music/pitch/note-names.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { isRest } from '../../plan/today/plan-items.ts';
import type { RunItem } from '../../plan/run/run-items.ts';
import { itemNow } from '../../practice/sitting/sitting.ts';
import type { Happened, Phase, Practice } from '../../practice/line/line-on-stand.ts';
import { climbNow } from '../../practice/line/line-state.ts';
import { happenedNow } from '../../practice/line/what-happened.ts';
import { lineChosen } from '../../practice/screens/line-choice.ts';
import { messageNow } from '../../practice/messages.ts';
import { type Stand, practiceOf } from '../../practice/stand.ts';
import { wordsToRead } from '../practice/large-words.ts';
import { gridView } from '../practice/grid-of-line.ts';
import { isOn } from '../screens/screen.ts';

export interface Saying {
  /** What it is about: of the same thing only a change is said. */
  readonly about: string;
  readonly text: string;
  /** Said again when this changes, though the words are the same. */
  readonly since?: number;
  /** Known, and not said: something else says it. */
  readonly quiet?: boolean;
}

const run = ({ run: so, of }: Happened): string => `${so} of ${of}`;

const OUTCOMES: Readonly<Record<Happened['outcome'], (happened: Happened) => string>> = {
  clean: (happened) => `clean, ${run(happened)}`,
  tense: (happened) => `tense, ${run(happened)}`,
  missed: (happened) => `missed, ${run(happened)}`,
  climbed: ({ bpm }) => `up to ${bpmText(bpm)}`,
  fallen: ({ bpm }) => `down to ${bpmText(bpm)}`,
  held: ({ bpm }) => `held at the top, ${bpmText(bpm)}`,
  'taken back': (happened) => `taken back, ${run(happened)}`,
};

const PHASES: Readonly<Record<Phase, string>> = {
  ready: 'ready',
  'count-in': 'count-in',
  slow: 'slowly',
  playing: 'play',
  breathing: 'breathe',
  waiting: 'wait',
  stopped: 'paused',
};

/** The answer to the last key, else what is to be done now. */
function stateOf(practice: Practice): string {
  const { phase, due } = practice;
  if (phase === 'playing' && due?.early) return `${due.early}, at the end`;
  const happened = happenedNow(practice);
  if (happened) return OUTCOMES[happened.outcome](happened);
  return due && phase !== 'playing' ? 'mark?' : PHASES[phase];
}

const MOVES: readonly (Happened['outcome'] | undefined)[] = ['climbed', 'fallen', 'held'];

function ofLine({ known }: Stand, practice: Practice): readonly Saying[] {
  const { exercise, key, line } = practice;
  const hasMoved = MOVES.includes(happenedNow(practice)?.outcome);
  return [
    { about: 'line', text: `${exercise.title}, ${withSigns(key)}, ${line.articulation}` },
    { about: 'tempo', text: `at ${bpmText(climbNow(practice).bpm)}`, quiet: hasMoved },
    // What the next repetition is for is said before it begins.
    { about: 'words', text: wordsToRead(known, practice).join(', ').toLowerCase() },
    { about: 'state', text: stateOf(practice) },
  ];
}

const minutes = (item: RunItem): string => `${Math.round((item.length / 60) * 2) / 2} minutes`;

const CLOCK: Readonly<Record<string, string>> = {
  ready: 'ready',
  playing: 'play',
  paused: 'stopped',
  over: 'time is up',
  'playing on': 'time is up, what you play counts',
};

function ofSitting(stand: Stand): readonly Saying[] {
  const item = itemNow(stand);
  if (!stand.sitting || !item) return [];
  const { phase, breaths } = stand.sitting.run;
  const isLine = practiceOf(stand) !== null;
  const isClockSaid = !isLine || phase === 'over' || phase === 'playing on';
  return [
    { about: 'block', text: isRest(item) ? `rest, ${minutes(item)}` : `${item.title}, ${minutes(item)}` },
    { about: 'clock', text: CLOCK[phase] ?? '', quiet: !isClockSaid },
    ...(item.breaths === null ? [] : [{ about: 'breaths', text: `${breaths} of ${item.breaths} breaths` }]),
  ];
}

/** What is under the finger in a list. */
function ofList(stand: Stand): readonly Saying[] {
  const { view, day, known, choice } = stand;
  if (view.screen === 'today') {
    const item = day.plan?.items[day.row];
    const head = { about: 'screen', text: `Today, ${day.minutes} minutes` };
    return item ? [head, { about: 'row', text: `${item.title}, ${item.minutes} minutes: ${item.reason}` }] : [head];
  }
  if (view.screen === 'ways')
    return [
      { about: 'screen', text: `Ways round ${bpmText(view.ways.bpm)}` },
      { about: 'row', text: view.ways.offers[view.ways.row]?.title ?? '' },
    ];
  if (isOn(stand, 'grid')) {
    const { finger } = gridView(stand, stand.view.work, stand.view.at);
    const cell = finger ? `${withSigns(finger.key)}, ${finger.articulation}` : '';
    return [
      { about: 'screen', text: 'Which key and way of tonguing?' },
      { about: 'row', text: cell },
    ];
  }
  const exercise = view.screen === 'exercises' ? known.exercises[choice.row] : undefined;
  if (!exercise) return [{ about: 'row', text: '' }];
  const { key, articulation } = lineChosen(choice, exercise);
  return [
    { about: 'screen', text: 'Exercises' },
    { about: 'row', text: `${exercise.title}, ${withSigns(key)}, ${articulation}` },
  ];
}

function ofMessage(stand: Stand): readonly Saying[] {
  const message = messageNow(stand);
  // What the clock says is said above.
  if (!message || message.kind === 'clock') return [{ about: 'message', text: '' }];
  const since = message.kind === 'answer' ? (stand.answer?.since ?? 0) : 0;
  return [{ about: 'message', text: message.sentence, since }];
}

const NAMES: Readonly<Record<string, string>> = { weeks: 'Weeks', settings: 'Settings', end: 'The sitting is over' };

/** A list with its row, the name of another screen; a line or a block speaks for itself. */
function ofScreen(stand: Stand): readonly Saying[] {
  const list = ofList(stand);
  const isNamed = list.some(({ about }) => about === 'screen');
  return isNamed ? list : [{ about: 'screen', text: NAMES[stand.view.screen] ?? '' }, ...list];
}

/** All there is to say now, in the order in which it is said. Page-long screens are read by their painter's lines. */
export function sayings(stand: Stand): readonly Saying[] {
  const practice = stand.view.screen === 'practice' ? practiceOf(stand) : null;
  return [...ofScreen(stand), ...ofSitting(stand), ...(practice ? ofLine(stand, practice) : []), ...ofMessage(stand)];
}

/** What was last said of each thing. */
export type Said = ReadonlyMap<string, Saying>;

export const withSaid = (said: Said, now: readonly Saying[]): Said =>
  new Map([...said, ...now.map((one) => [one.about, one] as const)]);

/** What has changed since, to be said. */
export function changed(was: Said, now: readonly Saying[]): readonly string[] {
  return now.flatMap(({ about, text, since, quiet }) => {
    const old = was.get(about);
    const isSame = old?.text === text && old.since === since;
    return isSame || quiet || text === '' ? [] : [text];
  });
}
