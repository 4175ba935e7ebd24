/**
 * What the note strip shows: the notes of each bar by beats, with their syllables, before anything is measured in
 * columns.
 */
import type { Drill, DrillNote } from '../tongue/drill.ts';
import { barLength, beatsOfBar } from '../time/meter.ts';
import { withSigns, withoutOctave } from '../pitch/note-names.ts';
import { type Ratio, add, divide, multiply, ratio, subtract, toNumber } from '../time/ratio.ts';

export interface StripNote {
  /**
   * 'E♭'; a leap of more than a fourth has its arrow, '↑C'; the first note of a bar its octave, 'C4'. '·' is a rest,
   * '' a held note.
   */
  readonly label: string;
  readonly syllable: string;
  /** Where it begins and ends in its bar, 0 to 1. */
  readonly from: number;
  readonly to: number;
  /** Begun, held over from the note before, or silent. */
  readonly kind: 'note' | 'held' | 'rest';
  /** Under a slur from the note before. */
  readonly slurred: boolean;
  /** Counts from 0. */
  readonly beat: number;
}

export interface StripBeat {
  /** Where it begins in its bar, 0 to 1. */
  readonly from: number;
  readonly to: number;
  /** A bar line or a group's start is drawn before it. */
  readonly divided: boolean;
}

export interface Strip {
  readonly beats: readonly StripBeat[];
  readonly bars: readonly (readonly StripNote[])[];
}

/** A fourth: what lies farther apart is not read right from its letter alone. */
const FOURTH = 5;
const DOUBLE_SHARP = /##/u;

/** How names are written: with signs, or with plain letters for terminals that lack them. */
export type Lettering = 'signs' | 'plain';

function arrow(note: DrillNote, before: DrillNote | undefined, lettering: Lettering): string {
  if (!note.pitch || !before?.pitch) return '';
  const leap = note.pitch.written - before.pitch.written;
  if (Math.abs(leap) <= FOURTH) return '';
  if (lettering === 'plain') return leap > 0 ? '^' : 'v';
  return leap > 0 ? '↑' : '↓';
}

/** '4' as it stands after the first letter of a bar. */
const octaveOf = (name: string): string => name.replace(/^\D+/u, '');

function labelOf(note: DrillNote, before: DrillNote | undefined, firstInBar: boolean, lettering: Lettering): string {
  if (!note.pitch) return lettering === 'plain' ? '.' : '·';
  if (note.tiedFrom) return '';
  const letters = withoutOctave(note.pitch.name);
  const name = lettering === 'plain' ? letters.replace(DOUBLE_SHARP, 'x') : withSigns(letters);
  return firstInBar ? `${name}${octaveOf(note.pitch.name)}` : `${arrow(note, before, lettering)}${name}`;
}

const share = (part: Ratio, whole: Ratio): number => toNumber(divide(part, whole));

/** A separator at each beat; where a beat is one of several in a group, at the groups. */
function beatsIn(drill: Drill): readonly StripBeat[] {
  const whole = barLength(drill.meter);
  const beats = beatsOfBar(drill.meter, drill.beat);
  const byGroup = drill.meter.groups.length > 1;
  return beats.map(({ at, length, startsGroup }) => ({
    from: share(at, whole),
    to: share(add(at, length), whole),
    divided: byGroup ? startsGroup : true,
  }));
}

/** The strip of a drill; made once for a line, not at each beat. */
export function stripOf(drill: Drill, lettering: Lettering = 'signs'): Strip {
  const whole = barLength(drill.meter);
  const bars: StripNote[][] = Array.from({ length: drill.bars }, () => []);
  let before: DrillNote | undefined;
  let named = -1;
  for (const note of drill.notes) {
    const start = subtract(note.at, multiply(whole, ratio(note.bar)));
    const begun = note.pitch !== null && !note.tiedFrom;
    bars[note.bar]?.push({
      label: labelOf(note, before, begun && named !== note.bar, lettering),
      syllable: note.syllable,
      from: share(start, whole),
      to: share(add(start, note.length), whole),
      kind: note.pitch === null ? 'rest' : note.tiedFrom ? 'held' : 'note',
      slurred: note.stroke === 'under',
      beat: note.beat,
    });
    if (begun) [before, named] = [note, note.bar];
  }
  return { beats: beatsIn(drill), bars };
}

/** Whether a note lasts longer than the shortest of its bar: its line is drawn out. */
export const isLonger = (note: StripNote, bar: readonly StripNote[]): boolean =>
  note.to - note.from > Math.min(...bar.map((one) => one.to - one.from)) * 1.01;
