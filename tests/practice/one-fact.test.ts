/** Defects that could exist only because two places held one fact: what a player met, one by one. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/diary/entry.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { readSyllables } from '../../src/music/tongue/syllables.ts';
import { PLAIN_ROTATION } from '../../src/plan/rotation/key-rotation.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { drillNow, tempoNow } from '../../src/practice/line/line-state.ts';
import { messageNow } from '../../src/practice/messages.ts';
import { wallFor } from '../../src/practice/sitting/line-speed.ts';
import { putOnStand } from '../../src/practice/sitting/put-on-stand.ts';
import { type Action, type Stand, openStand, practiceOf } from '../../src/practice/stand.ts';
import { plainText } from '../../src/ui/paint.ts';
import { drawScreen } from '../../src/ui/screens/all-screens.ts';
import { dayPlus } from '../../src/common/days.ts';
import { writer } from '../journal/entries.ts';
import { type Keeping, hear, keeping, played } from './keeping.ts';
import { EXERCISE } from './rehearsal.ts';

const TODAY = '2026-11-25';
const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');
const RUNGS = rungsOf(DEFAULT_RULE);
const [WALL, BELOW] = [RUNGS[32] as number, RUNGS[31] as number];

/** Two months of falling from one rung, in C only: weeks of practice that bring nothing. */
function fallingInC(): readonly Entry[] {
  const write = writer();
  return Array.from({ length: 60 }, (_, i) => 60 - i).flatMap((ago) => {
    const day = dayPlus(TODAY, -ago);
    const one = { day, articulation: 'slurred', key: 'C', exercise: EXERCISE.id };
    return [
      ...['clean', 'clean', 'clean'].map((mark) => write.mark(mark as 'clean', BELOW, WALL, one)),
      write.mark('clean', WALL, WALL, one),
      write.mark('missed', WALL, WALL, one),
      write.mark('missed', WALL, BELOW, one),
    ];
  });
}

function standWith(exercise: Exercise, earlier: readonly Entry[], syllables = 't-k'): Stand {
  const read = readSyllables(syllables);
  if (typeof read === 'string') throw new Error(read);
  const stand = openStand({
    today: TODAY,
    routines: [],
    exercises: [exercise],
    lines: Object.fromEntries(foldAll(earlier).lines),
    records: [],
    prepare: prepareFor(cornet!, 440, read),
    notices: [],
    dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
  });
  const line = { exercise: exercise.id, articulation: exercise.articulations[0] ?? 'slurred', key: 'C' };
  return putOnStand(stand, exercise, { line, key: 'C' }, null);
}

function play(exercise: Exercise, earlier: readonly Entry[] = [], syllables?: string) {
  const journal: Keeping = keeping(TODAY, earlier);
  const program = played(standWith(exercise, earlier, syllables), journal);
  let now = 100;
  const press = (...actions: readonly Action[]): void =>
    actions.forEach((action) => program.send({ type: 'do', action, key: '', now: (now += 1) }));
  const practice = () => practiceOf(program.stand())!;
  const screen = (columns = 100): string =>
    plainText(drawScreen(program.stand(), { columns, rows: 36, lettering: 'plain', foot: [] }));
  return { ...program, program, press, practice, screen };
}

const RULE = { ...DEFAULT_RULE, target: 160 };
const ROUND: Exercise = {
  ...EXERCISE,
  ladder: RULE,
  keys: ['C', 'G'],
  rotation: { ...PLAIN_ROTATION, order: 'fifths', change: 'repetition' },
};

describe('a wall', () => {
  it('belongs to the line on the stand: when the key has changed by itself, the old key’s is gone', () => {
    const { program, press, practice, stand, screen } = play(ROUND, fallingInC());
    expect(wallFor(stand().known, practice())?.bpm).toBe(WALL);
    expect(messageNow(stand())?.kind).toBe('wall');
    press('start-pause');
    for (const role of ['count-in', 'repetition', 'breath'] as const) hear(program, role);
    press('clean');
    expect(practice().key).toBe('G');
    expect(wallFor(stand().known, practice())).toBeNull();
    press('way');
    expect(screen()).toContain('No wall is seen on this line');
    expect(screen()).not.toContain(`${WALL} is a wall`);
  });
});

describe('alternation, slowly and then at tempo', () => {
  const alternate = { ...EXERCISE, ladder: { ...RULE, start: 100, order: 'alternate' as const, slowShare: 0.5 } };

  it('shows the tempo that sounds, in the tall figures and beside the note', () => {
    const { program, press, practice, screen } = play(alternate);
    press('start-pause');
    hear(program, 'count-in');
    hear(program, 'repetition', 0);
    expect(tempoNow(practice())).toBe(50);
    expect(screen()).toContain('quarter = 50');
    hear(program, 'repetition', 1);
    expect(tempoNow(practice())).toBe(100);
    expect(screen()).toContain('quarter = 100');
    expect(screen()).not.toContain('quarter = 50');
  });

  // Two bars of four quarters: 9.6 s at 50, 4.8 s at 100; arithmetic.
  it('counts both repetitions as played, so that rests and cues come when they are due', () => {
    const { program, press, practice } = play(alternate);
    press('start-pause');
    for (const [role, n, bar] of [
      ['count-in', 0, 0],
      ['repetition', 0, 0],
      ['repetition', 0, 1],
      ['count-in', 1, 0],
      ['repetition', 1, 0],
      ['repetition', 1, 1],
      ['breath', 0, 0],
    ] as const)
      hear(program, role, n, bar);
    expect(practice().played).toBeCloseTo(9.6 + 4.8, 6);
  });
});

describe('a way round a wall', () => {
  const TONGUED: Exercise = {
    ...EXERCISE,
    ladder: RULE,
    notesPerBeat: 2,
    pattern: '1 2 3 4 5 4 3 2 | 1',
    articulations: ['double'],
  };

  const takeWay = ({ press, screen }: ReturnType<typeof play>, title: RegExp): void => {
    press('way');
    for (let k = 0; k < 12 && !title.test(screen(160)); k += 1) press('down');
    press('open');
  };

  it('shows the tempo of the passage that sounds, not the ladder’s', () => {
    const sitting = play(TONGUED);
    const { program, press, practice, screen } = sitting;
    takeWay(sitting, /▶ .*[Hh]alf/);
    press('start-pause');
    hear(program, 'count-in');
    const { tempo } = hear(program, 'repetition');
    expect(tempo.bpm).not.toBe(practice().opened.bpm);
    expect(screen()).toContain(`quarter = ${tempo.bpm}`);
  });

  it('is spoken with the player’s own syllables', () => {
    const sitting = play(TONGUED, [], 'd-g');
    takeWay(sitting, /▶ .*[Ss]lur/);
    const spoken = drillNow(sitting.practice())?.notes.map(({ syllable }) => syllable) ?? [];
    expect(sitting.practice().way?.way.id).toBe('slurred');
    expect(spoken).toContain('D');
    expect(spoken).not.toContain('T');
  });
});

describe('an exercise whose keys share a ladder', () => {
  it('stands in the list as it was played, not as never', () => {
    const shared = { ...ROUND, rotation: { ...PLAIN_ROTATION, ladder: 'shared' as const } };
    const write = writer();
    const earlier = [write.mark('clean', 88, 91, { exercise: shared.id, articulation: 'slurred', key: 'all keys' })];
    const stand: Stand = { ...standWith(shared, earlier), view: { screen: 'exercises' } };
    const list = plainText(drawScreen(stand, { columns: 100, rows: 24, lettering: 'plain', foot: [] }));
    expect(list).toMatch(/Five notes .* 91 /);
    expect(list).not.toContain('never');
  });
});

describe('what is said', () => {
  it('answers the last key first, whatever else there is to say, and has an end', () => {
    const { press, send, stand } = play(ROUND, fallingInC());
    expect(messageNow(stand())?.kind).toBe('wall');
    press('clean');
    expect(messageNow(stand())).toEqual({
      kind: 'answer',
      sentence: 'Nothing to mark yet: space starts a repetition.',
    });
    send({ type: 'tick', now: 105 });
    expect(messageNow(stand())?.kind).toBe('answer');
    send({ type: 'tick', now: 120 });
    expect(messageNow(stand())?.kind).toBe('wall');
  });

  it('says that nothing was kept, and the ladder stays where it was', () => {
    const { program, press, stand, practice } = play({ ...EXERCISE, ladder: { ...RULE, cleanUp: 1 } });
    press('start-pause');
    for (const role of ['count-in', 'repetition'] as const) hear(program, role);
    program.send({ type: 'not-kept', sentence: 'The disk is full.' });
    expect(messageNow(stand())).toEqual({ kind: 'answer', sentence: 'The disk is full.' });
    expect(practice().kept).toEqual([]);
    expect(stand().notices).toContain('The disk is full.');
  });
});
