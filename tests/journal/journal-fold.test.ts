import { lineName } from '../../src/ladder/line.ts';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Climb, afterMark, startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import type { Entry } from '../../src/diary/entry.ts';
import { EMPTY_FOLD, type Fold, absorb, foldAll } from '../../src/journal/journal-fold.ts';
import { climbOf } from '../../src/ladder/speed/line-history.ts';
import { LINE, sitting, writer } from './entries.ts';
import { marksIn } from './in-folder.ts';

const only = (fold: Fold) => {
  const state = fold.lines.get(lineName(LINE));
  if (!state) throw new Error('no such line');
  return state;
};

/** What a fold knows, without what it remembers for the sitting. */
const knowledge = ({ lines, others, lastId, lastDay }: Fold) => ({ lines, others, lastId, lastDay });

/** Folds everything again where it must, as the store does. */
const oneByOne = (entries: readonly Entry[]): Fold =>
  entries.reduce<Fold>((fold, entry, index) => absorb(fold, entry) ?? foldAll(entries.slice(0, index + 1)), EMPTY_FOLD);

describe('folding a journal', () => {
  it('leaves a line where its ladder stood, whatever was marked', () => {
    const rule = { ...DEFAULT_RULE, floor: 60, top: 66 };
    const rungs = rungsOf(rule);
    const marks = fc.array(fc.constantFrom<Mark>('clean', 'clean', 'clean', 'tense', 'missed'), {
      minLength: 1,
      maxLength: 80,
    });
    fc.assert(
      fc.property(marks, (played) => {
        const write = writer();
        let climb: Climb = startAt(60);
        const entries = played.map((mark) => {
          const { bpm } = climb;
          climb = afterMark(climb, mark, rule, rungs);
          return { ...write.mark(mark, bpm, climb.bpm), cleanUp: 3, missedDown: 1, tenseDown: 2 };
        });
        expect(climbOf(only(foldAll(entries)))).toEqual(climb);
      }),
    );
  });

  it('makes a best of three clean in a row at one tempo, on the day they were played', () => {
    const write = writer();
    const two = [write.mark('clean', 88), write.mark('clean', 88)];
    expect(only(foldAll(two)).best).toBeNull();
    const third = write.mark('clean', 88, 91);
    const state = only(foldAll([...two, third]));
    expect(state).toMatchObject({ bpm: 91, cleanRun: 0, best: { bpm: 88, day: '2026-11-25', notesPerBeat: 4 } });
  });

  it('does not make a best of three clean at different tempos, nor of three with a tense one between', () => {
    const write = writer();
    expect(only(foldAll([write.mark('clean', 88), write.mark('clean', 90), write.mark('clean', 91)])).best).toBeNull();
    const tense = [write.mark('clean', 88), write.mark('tense', 88), write.mark('clean', 88), write.mark('clean', 88)];
    expect(only(foldAll(tense))).toMatchObject({ best: null, cleanRun: 2 });
  });

  it('takes back an undone mark with all that came of it', () => {
    const write = writer();
    const before = [write.mark('clean', 88), write.mark('clean', 88)];
    const third = write.mark('clean', 88, 91);
    const after = foldAll([...before, third, write.undo(third.id)]);
    expect(after.lines).toEqual(foldAll(before).lines);
    expect(marksIn(after)).toBe(2);
  });

  it('says the same of any order of the entries', () => {
    const shuffled = sitting.chain((entries) =>
      fc.tuple(fc.constant(entries), fc.shuffledSubarray([...entries], { minLength: entries.length })),
    );
    fc.assert(
      fc.property(shuffled, ([entries, other]) => {
        expect(foldAll(other)).toEqual(foldAll(entries));
      }),
    );
  });

  it('says the same entry by entry as all at once, undos included', () => {
    fc.assert(
      fc.property(sitting, (entries) => {
        expect(knowledge(oneByOne(entries))).toEqual(knowledge(foldAll(entries)));
      }),
    );
  });

  it('keeps of a block’s reports only the newest of each day, and forgets other entries after 400 days', () => {
    const write = writer();
    const reports = [write.block('tone', 60), write.block('scales', 30), write.block('tone', 120)];
    const [, scales, tone] = reports;
    expect(foldAll(reports).others).toEqual([scales, tone]);
    write.sleep(399 * 86_400_000);
    const note = write.note('new mouthpiece');
    expect(foldAll([...reports, note]).others).toHaveLength(3);
    write.sleep(3 * 86_400_000);
    const later = write.note('back to the old one');
    expect(foldAll([...reports, note, later]).others).toEqual([note, later]);
  });

  it('asks for everything again when something from before the sitting is undone, or comes late', () => {
    const write = writer();
    const early = write.mark('clean', 80);
    const late = write.mark('clean', 80);
    const fold = foldAll([late]);
    expect(absorb(fold, early)).toBeNull();
    expect(absorb(fold, write.undo(late.id))).toBeNull();
  });
});
