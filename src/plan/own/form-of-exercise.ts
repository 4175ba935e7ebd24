/** The form of an exercise: what it has by itself is left empty. */
import { DEFAULT_RULE } from '../../ladder/rule/ladder-rule.ts';
import { notesPerBeatOf } from '../../music/pattern/pattern.ts';
import { ALL_MAJOR, ALL_MINOR } from '../../music/pitch/keys.ts';
import { type Meter, parseMeter } from '../../music/time/meter.ts';
import { type Ratio, compare } from '../../music/time/ratio.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { readNoteValue, usualBeat } from '../file/value-words.ts';
import type { Exercise } from '../routine/exercise.ts';
import type { OwnForm } from './own-form.ts';

const isSame = (a: readonly unknown[], b: readonly unknown[]): boolean => a.join('\n') === b.join('\n');

/** `meterText(4/4)` is '4/4'; groups that are not the usual ones stand behind it. */
function meterText({ count, unit, groups }: Meter): string {
  const plain = `${count}/${unit}`;
  const usual = parseMeter(plain);
  return typeof usual !== 'string' && isSame(usual.groups, groups) ? plain : `${plain} (${groups.join('+')})`;
}

const VALUES = ['whole', 'half', 'quarter', 'eighth', 'sixteenth'].flatMap((name) => [name, `dotted ${name}`]);

const beatText = (beat: Ratio): string =>
  VALUES.find((name) => compare(readNoteValue(name), beat) === 0) ?? `${beat.n}/${beat.d}`;

function keysText(keys: readonly string[]): string {
  const many = [
    ['all major', ALL_MAJOR],
    ['all minor', ALL_MINOR],
    ['all', [...ALL_MAJOR, ...ALL_MINOR]],
  ] as const;
  return many.find(([, all]) => isSame(all, keys))?.[0] ?? keys.join(', ');
}

const unless = (usual: string, text: string): string => (text === usual ? '' : text);

const usualNotes = ({ pattern, meter, beat }: Exercise): number =>
  pattern === null ? 1 : notesPerBeatOf(pattern, meter, beat);

function tempos({ ladder: { start, target } }: Exercise): Pick<OwnForm, 'from' | 'to'> {
  if (start === DEFAULT_RULE.start && target === DEFAULT_RULE.target) return { from: '', to: '' };
  return { from: bpmText(start), to: target === start ? '' : bpmText(target) };
}

export function formOf(exercise: Exercise): OwnForm {
  const { kind, pattern, meter, beat, articulations, work = 'ladder', breaths, minutes } = exercise;
  return {
    title: exercise.title,
    ...tempos(exercise),
    material: exercise.material ?? '',
    spot: exercise.spot ?? '',
    pattern: (pattern ?? '').replace(/\s+/g, ' ').trim(),
    scale: unless('major', exercise.scale),
    keys: unless('C', keysText(exercise.keys)),
    articulations: unless(kind === 'articulation' ? 'single' : 'slurred', articulations.join(', ')),
    meter: unless('4/4', meterText(meter)),
    beat: compare(beat, usualBeat(meter)) === 0 ? '' : beatText(beat),
    bars: pattern === null ? unless('1', `${exercise.bars}`) : '',
    notes: unless(`${usualNotes(exercise)}`, `${exercise.notesPerBeat}`),
    kind: unless('technique', kind),
    work: unless('ladder', work),
    breaths: breaths === undefined ? '' : `${breaths}`,
    minutes: minutes === undefined ? '' : `${minutes}`,
    cues: exercise.cues.join('; '),
  };
}
