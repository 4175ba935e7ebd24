/** What putting a line on the stand needs besides its history, for the player's instrument. */
import { type Line } from '../../ladder/line.ts';
import { readArticulation } from '../../music/tongue/articulation.ts';
import { type Drill, drillOf } from '../../music/tongue/drill.ts';
import type { Instrument } from '../../music/pitch/instruments.ts';
import { readKey } from '../../music/pitch/keys.ts';
import { droneTonicOf } from '../../music/pattern/passage.ts';
import { midiOf } from '../../music/pitch/note-names.ts';
import type { Place } from '../../music/pitch/registers.ts';
import type { Drone } from '../../music/sound/sound-commands.ts';
import { HARD, type Syllables } from '../../music/tongue/syllables.ts';
import type { Hertz, MidiNote } from '../../common/units.ts';
import { type Passage, isPassage, writeOut } from '../../music/pattern/written-in-key.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { writtenInRound } from '../../plan/routine/one-voice-round.ts';
import { purposeOfStep } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { Prepare } from '../stand.ts';

const USUAL_DRONE: Omit<Drone, 'tonic' | 'a4'> = {
  voices: ['tonic'],
  tuning: 'just',
  timbre: 'reed',
  gain: 1,
  detune: 0,
};

/** The lowest note of the octave in which a drone without notes to go by lies. */
const DRONE_FLOOR: MidiNote = 48;

const toOctave = (midi: MidiNote, floor: MidiNote): MidiNote => floor + ((((midi - floor) % 12) + 12) % 12);

function tonicInKey(key: string, instrument: Instrument): MidiNote {
  const read = readKey(key);
  const tonic = typeof read === 'string' ? 'C' : read.tonic;
  return toOctave(midiOf(`${tonic}4`) + instrument.transposition, DRONE_FLOOR);
}

interface Written {
  readonly passage: Passage | null;
  readonly remark: string | null;
}

/** The pattern in this key; where it cannot be played as it stands, the nearest thing that can. */
function written(exercise: Exercise, line: Line, instrument: Instrument, place?: Place): Written {
  const { pattern } = exercise;
  if (pattern === null) return { passage: null, remark: null };
  const result = writeOut(writtenInRound({ ...exercise, pattern }, line.key, instrument, place));
  if (isPassage(result)) return { passage: result, remark: result.remarks[0] ?? null };
  const [offer = null] = result.offers;
  return { passage: offer, remark: result.troubles[0]?.sentence ?? null };
}

function drillIn(passage: Passage | null, articulation: string, syllables: Syllables): Drill | null {
  const read = readArticulation(articulation);
  return passage && typeof read !== 'string' ? drillOf(passage, read, syllables) : null;
}

/** The player reads written pitch; the drone and the model sound at concert pitch. */
export function prepareFor(instrument: Instrument, a4: Hertz, syllables: Syllables = HARD): Prepare {
  return (exercise, line, place) => {
    const { passage, remark } = written(exercise, line, instrument, place);
    const drill = drillIn(passage, line.articulation, syllables);
    const tonic = passage ? droneTonicOf(passage) : tonicInKey(line.key, instrument);
    return {
      drone: { ...USUAL_DRONE, ...exercise.drone, a4, tonic },
      drill,
      remark: remark ?? drill?.remarks[0] ?? purposeOfStep(exercise, line.articulation),
    };
  };
}
