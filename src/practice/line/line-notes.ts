/** What putting a line on the stand needs besides its history, for the player's instrument. */
import { type Line } from '../../ladder/line.ts';
import { readArticulation } from '../../music/tongue/articulation.ts';
import { type Drill, drillOf } from '../../music/tongue/drill.ts';
import type { Instrument } from '../../music/pitch/instruments.ts';
import { readKey, tonalityOf } from '../../music/pitch/keys.ts';
import {
  type DroneLiked,
  type Played,
  USUAL_DRONE,
  concertTonic,
  dronePlace,
  voicesIn,
} from '../../music/pitch/drone-place.ts';
import { midiOf } from '../../music/pitch/note-names.ts';
import { type Place, registerOf } from '../../music/pitch/registers.ts';
import { type Range, easyRange, fullRange } from '../../music/pitch/range.ts';
import { SCALES, type Scale, scaleNamed } from '../../music/pitch/scales.ts';
import type { Drone } from '../../music/sound/sound-commands.ts';
import { HARD, type Syllables } from '../../music/tongue/syllables.ts';
import type { Hertz } from '../../common/units.ts';
import { type Passage, isPassage, writeOut } from '../../music/pattern/written-in-key.ts';
import type { BlockDrone, DroneWanted, Exercise } from '../../plan/routine/exercise.ts';
import { writtenInRound } from '../../plan/routine/one-voice-round.ts';
import { purposeOfStep } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { Prepare } from '../stand.ts';

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

/** Written: the register it is played in, or all from a note on; where the player is at ease when none is said. */
function rangeAt(instrument: Instrument, place: Place | undefined): Range {
  if (!place) return easyRange(instrument);
  return 'register' in place
    ? registerOf(instrument, place.register)
    : { low: midiOf(place.from), high: fullRange(instrument).high };
}

/** What is played: the notes, or where there are none the range in which they will lie. */
function playedIn(passage: Passage | null, instrument: Instrument, place: Place | undefined): Played {
  const notes = passage?.notes.flatMap(({ pitch }) => (pitch ? [pitch.concert] : [])) ?? [];
  if (notes.length > 0) return { lowest: Math.min(...notes), highest: Math.max(...notes) };
  const { low, high } = rangeAt(instrument, place);
  return { lowest: low + instrument.transposition, highest: high + instrument.transposition };
}

/** What a drone has to know of a key; of one that cannot be read, C major. */
interface KeyOfDrone {
  readonly tonic: string;
  /** The scale that the key names by itself. */
  readonly own: Scale | null;
  readonly scale: Scale;
}

const known = (scale: string): Scale | null => {
  const found = scaleNamed(scale);
  return typeof found === 'string' ? null : found;
};

const MAJOR = SCALES[0] as Scale;

function keyOfDrone(key: string, scale: string): KeyOfDrone {
  const read = readKey(key);
  if (typeof read === 'string') return { tonic: 'C', own: null, scale: MAJOR };
  const own = read.scale === null ? null : known(read.scale);
  const tonality = tonalityOf(read, scale);
  if (typeof tonality === 'string') return { tonic: read.tonic, own, scale: known(scale) ?? MAJOR };
  return { tonic: tonality.tonic, own, scale: tonality.scale };
}

/** What the block says goes before what the exercise says, and that before the player's own liking. */
function droneIn(passage: Passage | null, wanted: DroneWanted, liked: DroneLiked, given: Given): Drone {
  const { exercise, key, instrument, a4, place = exercise.place } = given;
  const { tonic, own, scale } = keyOfDrone(key, exercise.scale);
  const { octave = liked.octave, timbre = liked.timbre, tuning = 'just', voices = ['tonic'] } = wanted;
  return {
    tonic: dronePlace(concertTonic(tonic, instrument.transposition), playedIn(passage, instrument, place), octave),
    voices: voicesIn(own, scale, voices),
    tuning,
    timbre,
    a4,
    gain: 1,
    detune: 0,
  };
}

interface Given {
  readonly exercise: Exercise;
  readonly key: string;
  readonly instrument: Instrument;
  readonly a4: Hertz;
  /** Where the block has it played. */
  readonly place: Place | undefined;
}

const wantedOf = ({ drone }: Exercise, blockDrone: BlockDrone): DroneWanted => ({
  ...drone,
  ...(blockDrone === 'no' ? {} : blockDrone),
});

/** The player reads written pitch; the drone and the model sound at concert pitch. */
export function prepareFor(
  instrument: Instrument,
  a4: Hertz,
  syllables: Syllables = HARD,
  liked: DroneLiked = USUAL_DRONE,
): Prepare {
  return (exercise, line, place, blockDrone) => {
    const { passage, remark } = written(exercise, line, instrument, place);
    const drill = drillIn(passage, line.articulation, syllables);
    const given = { exercise, key: line.key, instrument, a4, place };
    return {
      drone: droneIn(passage, wantedOf(exercise, blockDrone), liked, given),
      drill,
      remark: remark ?? drill?.remarks[0] ?? purposeOfStep(exercise, line.articulation),
    };
  };
}
