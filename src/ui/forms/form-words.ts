/** What a form says of itself: what each field is called, and what it is where nothing is typed. */
import { noteValueName } from '../../music/time/note-values.ts';
import { exerciseOfForm } from '../../plan/own/form-written.ts';
import { withoutMistakes } from '../../plan/own/form-mistakes.ts';
import { CHOICES, type Field, type OwnForm } from '../../plan/own/own-form.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';

export const LABELS: Readonly<Record<Field, string>> = {
  title: 'Title',
  from: 'Tempo from',
  to: 'up to',
  material: 'On the stand',
  spot: 'Hard spot',
  pattern: 'Pattern',
  scale: 'Scale',
  keys: 'Keys',
  articulations: 'Articulations',
  meter: 'Meter',
  beat: 'Beat',
  bars: 'Bars',
  notes: 'Notes a beat',
  kind: 'Kind',
  work: 'Goes by',
  breaths: 'Breaths',
  minutes: 'Minutes',
  cues: 'Cues',
};

/** Rows as they stand on the screen; short fields share one. */
export const ROWS: readonly (readonly Field[])[] = [
  ['title'],
  ['from', 'to'],
  ['material'],
  ['spot'],
  ['pattern'],
  ['scale', 'keys'],
  ['articulations'],
  ['meter', 'beat'],
  ['bars', 'notes'],
  ['kind', 'work'],
  ['breaths', 'minutes'],
  ['cues'],
];

/** A line on what may be typed in the field that one is at. */
export const HINTS: Readonly<Record<Field, string>> = {
  title: 'Title and tempo are enough; everything else is as it stands there.',
  from: 'Beats per minute to begin with.',
  to: 'The tempo you are working towards; without one the ladder is open.',
  material: 'What to get: blue folder, p. 12.',
  spot: 'In your own words: bars 9 to 12, low C sharp.',
  pattern: "Degrees of the scale, | for a bar line: 1 2 3 4 5 4 3 2 | 1. 1' is an octave up, 7, one down, r a rest.",
  scale: 'major, harmonic minor, chromatic, dorian, whole-tone, major arpeggio ...',
  keys: 'C, F, Bb, F#, A minor; or all major, all minor, all.',
  articulations: 'slurred, single, double, triple, slur 2 tongue 2; more than one with commas between.',
  meter: '4/4, 6/8, 7/8 (2+2+3).',
  beat: 'Note value that the tempo counts: quarter, dotted quarter, 3/8.',
  bars: 'Bars of one time through.',
  notes: 'Notes on each beat in the fast passages, if you know them.',
  kind: 'Left and right choose.',
  work: 'A ladder of tempos and marks, breaths that are counted, or the clock alone. Left and right choose.',
  breaths: 'How many breaths, where it goes by breaths.',
  minutes: 'What a list by hand gives it.',
  cues: 'Short reminders about ease, with ; between them.',
};

/** What is asked before a form is left, and which key answers what. */
export const LEAVE = 'Leave this exercise?';
export const ANSWERS = [
  ['Enter', 'keep it'],
  ['l', 'leave it for later'],
  ['d', 'drop what you typed'],
  ['Esc', 'go on writing'],
] as const;

const tempoWords = ({ from }: OwnForm, { ladder }: Exercise): Pick<OwnForm, 'from' | 'to'> => ({
  from: `${ladder.start}`,
  to: from.trim() === '' ? `${ladder.target}` : 'open',
});

/** What each field is where it is left empty, as far as the rest of the form says it. */
export function usualWords(form: OwnForm): OwnForm {
  const exercise = exerciseOfForm(withoutMistakes(form));
  return {
    title: 'needed',
    ...tempoWords(form, exercise),
    material: 'nothing',
    spot: 'none',
    pattern: 'none: you have the notes',
    scale: 'major',
    keys: 'C',
    articulations: exercise.kind === 'articulation' ? 'single' : 'slurred',
    meter: '4/4',
    beat: noteValueName(exercise.beat).replace(/^an? /, ''),
    bars: `${exercise.bars}`,
    notes: exercise.pattern === null ? 'not known' : `${exercise.notesPerBeat}`,
    kind: CHOICES.kind?.[0] ?? '',
    work: CHOICES.work?.[0] ?? '',
    breaths: 'not counted',
    minutes: '5',
    cues: 'none',
  };
}
