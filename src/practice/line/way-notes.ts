/** A line's drill as one passage of a way round a wall has it played. */
import type { Passage } from '../../ladder/wall/ways-round.ts';
import { readArticulation } from '../../music/tongue/articulation.ts';
import { type Drill, type DrillNote, drillOf } from '../../music/tongue/drill.ts';
import { unevenly } from '../../music/tongue/uneven-rhythm.ts';
import { type Ratio, divide, toNumber } from '../../music/time/ratio.ts';

const asRest = (note: DrillNote): DrillNote => ({
  ...note,
  pitch: null,
  stroke: 'rest',
  syllable: '',
  tiedFrom: false,
  tiedTo: false,
});

/** After a rest no slur goes on: the note is begun anew. */
function begun(note: DrillNote, before: DrillNote | undefined, syllable: string): DrillNote {
  const freshly = note.pitch !== null && before?.pitch === null && note.stroke === 'under';
  return freshly ? { ...note, stroke: 'front', syllable } : note;
}

/** Only these of the sounding notes; the others become rests. */
function only(drill: Drill, keep: (index: number, of: number, note: DrillNote) => boolean): Drill {
  const of = drill.notes.filter(({ pitch }) => pitch).length;
  const first = drill.notes.find(({ pitch }) => pitch);
  let index = -1;
  const notes = drill.notes.map((note) => {
    if (!note.pitch) return note;
    index += 1;
    return keep(index, of, note) ? note : asRest(note);
  });
  return { ...drill, notes: notes.map((note, i) => begun(note, notes[i - 1], first?.syllable ?? '')) };
}

/** Beats since the passage's start at which a note begins. */
const beatOf = (drill: Drill, at: Ratio): number => Math.floor(toNumber(divide(at, drill.beat)) + 1e-9);

function inBursts(drill: Drill, { beats, rest }: NonNullable<Passage['burst']>): Drill {
  return only(drill, (_index, _of, note) => beatOf(drill, note.at) % (beats + rest) < beats);
}

function onOneNote(drill: Drill): Drill {
  const first = drill.notes.find(({ pitch }) => pitch)?.pitch ?? null;
  return { ...drill, notes: drill.notes.map((note) => (note.pitch ? { ...note, pitch: first } : note)) };
}

/** The passage under the drill, for another articulation or rhythm. */
function retongued(drill: Drill, name: string): Drill {
  const read = readArticulation(name);
  return typeof read === 'string' ? drill : drillOf(drill, read, drill.syllables);
}

function uneven(drill: Drill, rhythm: NonNullable<Passage['rhythm']>): Drill {
  const { notes } = unevenly(drill, rhythm);
  return {
    ...drill,
    notes: drill.notes.map((note, i) => {
      const moved = notes[i];
      return moved ? { ...note, at: moved.at, length: moved.length, beat: moved.beat, inBeat: moved.inBeat } : note;
    }),
  };
}

/** `wayDrill(drill, { bpm, repetitions, say, notes: { from: 'front', count: 4 } })` rests after the fourth note. */
export function wayDrill(drill: Drill, passage: Passage): Drill {
  const { playing, rhythm, notes, burst } = passage;
  const tongued =
    playing === 'slurred' ? retongued(drill, 'slurred') : playing === 'one-note' ? onOneNote(drill) : drill;
  const turned = rhythm ? uneven(tongued, rhythm) : tongued;
  const cut = notes
    ? only(turned, (index, of) => (notes.from === 'front' ? index < notes.count : index >= of - notes.count))
    : turned;
  return burst ? inBursts(cut, burst) : cut;
}
