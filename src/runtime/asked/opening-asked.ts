/** A line as practice would put it on the stand now: its notes, and the tempo where it was left. */
import type { Bpm } from '../../common/units.ts';
import { type Line, lineName } from '../../ladder/line.ts';
import { type Climb, startAt } from '../../ladder/rule/climb.ts';
import { climbOf } from '../../ladder/speed/line-history.ts';
import type { PlayedLine } from '../../ladder/speed/speed-knowledge.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS, type Instrument, instrumentNamed } from '../../music/pitch/instruments.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { prepareFor } from '../../practice/line/line-notes.ts';
import type { Opening } from '../../practice/line/line-on-stand.ts';
import type { FoundExercise } from '../files/routine-finder.ts';
import type { Settings } from '../files/settings.ts';
import { lineAsked } from './line-asked.ts';

/** Words from the command line; what is left out is the exercise's first, and the tempo where the line was left. */
export interface LineWords {
  readonly tempo?: string;
  readonly key?: string;
  readonly articulation?: string;
}

const usualLine = ({ id, keys, articulations }: Exercise): Line => ({
  exercise: id,
  key: keys[0] ?? 'C',
  articulation: articulations[0] ?? 'slurred',
});

function instrumentFor(name: string): Instrument {
  const found = instrumentNamed(name) ?? INSTRUMENTS[0];
  if (!found) throw new Error('the table of instruments is empty');
  return found;
}

/** The ladder goes on where it was left, unless another tempo is asked for. */
function climbAt(exercise: Exercise, line: Line, tempo: Bpm | null, known: PlayedLine | undefined): Climb {
  const bpm = tempo ?? known?.bpm ?? lineRule(exercise, line.articulation).start;
  return known?.bpm === bpm ? climbOf(known) : startAt(bpm, known?.best?.bpm ?? null);
}

/** `lines` is what the journal knows of each, by name. @throws Trouble for every word that is wrong. */
export function openingAsked(
  { exercise, routine }: FoundExercise,
  words: LineWords,
  settings: Settings,
  lines: Readonly<Record<string, PlayedLine>>,
): Opening {
  const { key = null, articulation = null, tempo: wanted = null } = words;
  const asked = { exercise: exercise.id, key, articulation, tempo: wanted };
  const { line, tempo } = lineAsked(exercise, asked, usualLine(exercise));
  const instrument = instrumentFor(settings.instrument ?? routine.instrument ?? DEFAULT_INSTRUMENT);
  const prepared = prepareFor(instrument, settings.a4, settings.syllables, settings.drone)(exercise, line);
  const climb = climbAt(exercise, line, tempo, lines[lineName(line)]);
  return { exercise, line, key: line.key, fingering: 'ordinary', climb, ...prepared };
}
