/** The drone of what lies on the stand: off, sounding or waiting, on the key's tonic or moved from it. */
import { steppedName } from '../../music/pitch/drone-place.ts';
import { readKey } from '../../music/pitch/keys.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import type { Drone } from '../../music/sound/sound-commands.ts';
import type { Semitones } from '../../common/units.ts';
import type { BlockDrone, Exercise } from '../../plan/routine/exercise.ts';
import { type Effect, type Step, say, sound, step } from '../step.ts';

/** A drone sounds, waits for the click or the clock to start again, or is off. */
export type DroneState = 'on' | 'waits' | 'off';

export interface DroneOnStand {
  /** What the drone sounds like in this key, on or off. */
  readonly drone: Drone;
  readonly droneState: DroneState;
  /** How far the player has moved it from the key's tonic. */
  readonly droneStep: Semitones;
}

export type DroneAction = 'drone' | 'drone-up' | 'drone-down' | 'drone-home';

/** Whether it is there from the start: as the block says, else the exercise. */
export function droneAtFirst({ drone }: Exercise, blockDrone: BlockDrone): DroneState {
  const wanted = blockDrone === undefined ? drone !== undefined : blockDrone !== 'no';
  return wanted ? 'waits' : 'off';
}

/** The drone as it sounds now, moved as the player has moved it. */
const moved = ({ drone, droneStep }: DroneOnStand): Drone =>
  droneStep === 0 ? drone : { ...drone, tonic: drone.tonic + droneStep };

export const droneEffect = (of: DroneOnStand): Effect =>
  sound({ ask: 'drone', drone: of.droneState === 'on' ? moved(of) : null });

/** A drone that waited sounds again. */
export const woken = <Of extends DroneOnStand>(of: Of): Of =>
  of.droneState === 'waits' ? { ...of, droneState: 'on' } : of;

/** A drone that sounded waits. */
export const waiting = <Of extends DroneOnStand>(of: Of): Of =>
  of.droneState === 'on' ? { ...of, droneState: 'waits' } : of;

function tonicOf(key: string): string {
  const read = readKey(key);
  return typeof read === 'string' ? 'C' : read.tonic;
}

/** 'on', or the written note to which it was moved: 'on E♭'. */
export const droneWord = (key: string, { droneState, droneStep }: DroneOnStand): string =>
  droneState === 'off' ? 'off' : droneStep === 0 ? 'on' : `on ${withSigns(steppedName(tonicOf(key), droneStep))}`;

/** An octave up or down is as far as it may be moved. */
const FARTHEST: Semitones = 12;

const STEPS: Readonly<Record<Exclude<DroneAction, 'drone'>, (from: Semitones) => Semitones>> = {
  'drone-up': (from) => Math.min(FARTHEST, from + 1),
  'drone-down': (from) => Math.max(-FARTHEST, from - 1),
  'drone-home': () => 0,
};

/** 'Drone on the tonic, C.', 'Drone on D♭.' */
function noteSaid(key: string, { droneStep }: DroneOnStand): string {
  const note = withSigns(steppedName(tonicOf(key), droneStep));
  return droneStep === 0 ? `Drone on the tonic, ${note}.` : `Drone on ${note}.`;
}

const toggled = <Of extends DroneOnStand>(of: Of, key: string): Step<Of> => {
  const next: Of = { ...of, droneState: of.droneState === 'on' ? 'off' : 'on' };
  return step(next, droneEffect(next), say(next.droneState === 'on' ? noteSaid(key, next) : 'Drone off.'));
};

/** What a key does to the drone; one that is off is not moved. */
export function onDroneKey<Of extends DroneOnStand>(of: Of, key: string, action: DroneAction): Step<Of> {
  if (action === 'drone') return toggled(of, key);
  if (of.droneState === 'off') return step(of, say('The drone is off: d starts it.'));
  const next: Of = { ...of, droneStep: STEPS[action](of.droneStep) };
  const said = say(noteSaid(key, next));
  return next.droneState === 'on' ? step(next, droneEffect(next), said) : step(next, said);
}
