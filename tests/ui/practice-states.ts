/** The practice screen in each of its states, reached by the player's keys and the sound's reports. */
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import type { Span } from '../../src/music/sound/sound-commands.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { planned } from '../../src/practice/screens/today-keys.ts';
import { type Action, type Prepare, type Stand, openStand, practiceOf } from '../../src/practice/stand.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { PLAIN_ROTATION } from '../../src/plan/rotation/key-rotation.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { type Played, keeping, played } from '../practice/keeping.ts';
import { EXERCISE } from '../practice/rehearsal.ts';
import { readRoutineFile } from '../../src/runtime/files/routine-reader.ts';

const DAY = '2026-11-25';

const STUDY: Exercise = {
  ...EXERCISE,
  title: 'Five-note study',
  keys: ['Bb'],
  pattern: '1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1',
  articulations: ['double'],
  rotation: { ...PLAIN_ROTATION, change: 'rung' },
  ladder: { ...DEFAULT_RULE, cleanUp: 3, missedDown: 2, start: 88, target: 144 },
};

const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');
const WRITTEN: Prepare = prepareFor(cornet, 440);

/** A study on the stand, nothing played yet. */
export function onStand(exercise: Partial<Exercise> = {}, prepare: Prepare = WRITTEN): Played {
  const stand = openStand({
    today: DAY,
    routines: [],
    exercises: [{ ...STUDY, ...exercise }],
    lines: {},
    records: [],
    prepare,
    notices: [],
    dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
  });
  const all = played({ ...stand, view: { screen: 'exercises' } }, keeping(DAY));
  press(all, 'open');
  return all;
}

export const press = ({ send }: Played, ...actions: readonly Action[]): void =>
  actions.forEach((action) => send({ type: 'do', action, key: '', now: 10 }));

/** A beat of the newest span in this role is heard. */
export function beat({ stand, send }: Played, role: Span['role'], bar = 0, at = 0): void {
  const span = practiceOf(stand())?.chain.findLast((one) => one.role === role);
  if (!span) throw new Error(`no ${role} in the chain`);
  send({ type: 'sound', report: { tell: 'beat', span: span.id, bar, beat: at, beatsInBar: 4, lateBy: 0 } });
}

/** Played to the breath, and marked there. */
export function marked(all: Played, ...marks: readonly ('clean' | 'tense' | 'missed')[]): Played {
  for (const mark of marks) {
    beat(all, 'count-in');
    beat(all, 'repetition');
    beat(all, 'breath');
    press(all, mark);
  }
  return all;
}

function started(): Played {
  const all = onStand();
  press(all, 'start-pause');
  return all;
}

function after(...steps: readonly ((all: Played) => void)[]): Stand {
  const all = started();
  steps.forEach((one) => one(all));
  return all.stand();
}

const playing = (all: Played): void => beat(all, 'repetition', 1, 2);

/** Each state by its name: the stand, and the word that must be read of it. */
export const STATES: Readonly<Record<string, { readonly stand: Stand; readonly word: RegExp }>> = {
  ready: { stand: onStand().stand(), word: /READY/ },
  'count-in': { stand: after((all) => beat(all, 'count-in', 0, 2)), word: /COUNT-IN/ },
  play: { stand: after(playing), word: /PLAY/ },
  'early clean': { stand: after(playing, (all) => press(all, 'clean')), word: /AT THE END/ },
  'early tense': { stand: after(playing, (all) => press(all, 'tense')), word: /TENSE AT THE END|AT THE END/ },
  'mark due': { stand: after(playing, (all) => beat(all, 'breath', 0, 1)), word: /MARK\?|mark\?/ },
  waiting: { stand: after(playing, (all) => beat(all, 'wait', 0, 2)), word: /MARK\?/ },
  clean: { stand: after((all) => marked(all, 'clean')), word: /CLEAN/ },
  tense: { stand: after((all) => marked(all, 'clean', 'tense')), word: /TENSE|AGAIN/ },
  missed: { stand: after((all) => marked(all, 'missed')), word: /1 OF 2 TO FALL/ },
  climbed: { stand: after((all) => marked(all, 'clean', 'clean', 'clean')), word: /TO 92/ },
  fallen: { stand: after((all) => marked(all, 'missed', 'missed')), word: /TO 86/ },
  'taken back': {
    stand: after(
      (all) => marked(all, 'clean', 'clean'),
      (all) => press(all, 'undo'),
    ),
    word: /TAKEN BACK/,
  },
  paused: { stand: after(playing, (all) => press(all, 'start-pause')), word: /PAUSED/ },
};

const read = readRoutineFile(new URL('../../routines/cornet-daily.yaml', import.meta.url).pathname);
if (!('routine' in read)) throw new Error('the cornet routine cannot be read');
const { routine } = read;

/** A day of the cornet routine on the Today screen. */
export const today = (): Played =>
  played(
    planned(
      openStand({
        today: DAY,
        routines: [routine],
        exercises: routine.exercises,
        lines: {},
        records: [],
        prepare: WRITTEN,
        notices: [],
        dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
      }),
    ),
    keeping(DAY),
  );

/** A sitting in the first block of this screen, its clock run out. */
export function timeIsUp(screen: 'practice' | 'block'): Stand {
  const all = today();
  press(all, 'open');
  for (let k = 0; k < 30 && all.stand().view.screen !== screen; k += 1) press(all, 'next-block');
  press(all, screen === 'block' ? 'play-block' : 'start-pause');
  for (let now = 11; now < 2000 && all.stand().sitting?.run.phase !== 'over'; now += 1) all.send({ type: 'tick', now });
  if (all.stand().sitting?.run.phase !== 'over') throw new Error(`the time of a ${screen} never ran out`);
  return all.stand();
}
