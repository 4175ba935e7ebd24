/** What follows from the state of a line on the stand: worked out, never kept beside it. */
import { soundedNotes } from '../../music/tongue/model-notes.ts';
import type { LadderEntry } from '../../diary/entry.ts';
import type { Outlook } from '../../ladder/rule/aim.ts';
import { type Climb, type MarkedRepetition, markedAt, startAt, withMarked } from '../../ladder/rule/climb.ts';
import type { LadderRule, Mark } from '../../ladder/rule/ladder-rule.ts';
import { type Rungs, rungsOf } from '../../ladder/rule/rungs.ts';
import { type PlayedSince, outlookAfter } from '../../ladder/speed/clean-expected.ts';
import type { Passage } from '../../ladder/wall/ways-round.ts';
import { remembered } from '../../common/remembered.ts';
import type { Bpm } from '../../common/units.ts';
import { type Drill } from '../../music/tongue/drill.ts';
import type { SoundedNote, Span } from '../../music/sound/sound-commands.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { Practice } from './line-on-stand.ts';
import { wayDrill } from './way-notes.ts';

/** Whether sound is running. */
export const isRunning = ({ phase }: Practice): boolean => phase !== 'ready' && phase !== 'stopped';

export const ruleOf = ({ exercise, line }: Pick<Practice, 'exercise' | 'line'>): LadderRule =>
  lineRule(exercise, line.articulation);

const withEntry = (climb: Climb, entry: LadderEntry): Climb =>
  entry.kind === 'mark' ? withMarked(climb, entry) : startAt(entry.next, climb.best);

/** Where the ladder stands: what was kept in this sitting, on top of where the line was opened. */
export const climbNow: (practice: Practice) => Climb = remembered(({ opened, kept }) => kept.reduce(withEntry, opened));

/** The ladder's tempos; where the line was opened and its best are rungs too. */
export const rungsNow: (practice: Practice) => Rungs = remembered((practice) => {
  const { opened, exercise, line } = practice;
  return rungsOf(ruleOf({ exercise, line }), [opened.bpm, ...(opened.best === null ? [] : [opened.best])]);
});

/** What a rule that aims goes by once this repetition is marked; null where marks in a row are counted. */
function outlookWith({ expectation, kept }: Practice, marked: PlayedSince): Outlook | null {
  const marks = kept.flatMap((entry) => (entry.kind === 'mark' ? [entry] : []));
  return expectation ? outlookAfter(expectation, [...marks, marked]) : null;
}

/** A repetition at this tempo with its verdict, as the line's rule has it kept. */
export const markedNow = (practice: Practice, bpm: Bpm, mark: Mark): MarkedRepetition =>
  markedAt(climbNow(practice), bpm, mark, ruleOf(practice), rungsNow(practice), outlookWith(practice, { bpm, mark }));

const tempos = remembered((_kept: Practice['kept']) => new Map<Mark, Bpm>());

/** Where a mark at the ladder's tempo would lead. Remembered: it is drawn at every beat. */
export function tempoAfter(practice: Practice, mark: Mark): Bpm {
  const known = tempos(practice.kept);
  const next = known.get(mark) ?? markedNow(practice, climbNow(practice).bpm, mark).next;
  known.set(mark, next);
  return next;
}

/** This sitting's marks, oldest first. */
export const marksNow = ({ kept }: Practice): readonly Mark[] =>
  kept.flatMap((entry) => (entry.kind === 'mark' ? [entry.mark] : []));

/** The passage of a way round a wall that is at hand; null on the ladder. */
export const passageNow = ({ way }: Practice): Passage | null => way?.way.passages[way.at] ?? null;

const passageDrills = remembered((_drill: Drill) => new Map<Passage, Drill>());

function onPassage(drill: Drill, passage: Passage): Drill {
  const known = passageDrills(drill);
  const made = known.get(passage) ?? wayDrill(drill, passage);
  known.set(passage, made);
  return made;
}

/** What is to be played now: the line's own notes, or the passage's. */
export function drillNow(practice: Practice): Drill | null {
  const passage = passageNow(practice);
  return practice.drill && passage ? onPassage(practice.drill, passage) : practice.drill;
}

const notesOf: (drill: Drill) => readonly SoundedNote[] = remembered(soundedNotes);

/** The notes of the model. */
export function modelNotes(practice: Practice): readonly SoundedNote[] {
  const drill = drillNow(practice);
  return drill ? notesOf(drill) : [];
}

/** The span that is heard; null in silence. */
export const spanHeard = ({ chain, heard }: Practice): Span | null =>
  (heard && chain.find(({ id }) => id === heard.span)) ?? null;

const WHILE_PLAYING: readonly Practice['phase'][] = ['count-in', 'slow', 'playing'];

/** The tempo of the next cycle: the passage's on a way round a wall, else the ladder's. */
export const tempoNext = (practice: Practice): Bpm => passageNow(practice)?.bpm ?? climbNow(practice).bpm;

/** The tempo to show: the one that sounds while the player counts and plays, else the one that comes next. */
export function tempoNow(practice: Practice): Bpm {
  const span = WHILE_PLAYING.includes(practice.phase) ? spanHeard(practice) : null;
  return span?.tempo.bpm ?? tempoNext(practice);
}
