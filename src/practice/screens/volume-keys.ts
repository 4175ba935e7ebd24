/** What the player turns while playing: how loud the click and the drone are. */
import type { Gain } from '../../common/units.ts';
import type { DialAction, Dials, Stand, StandStep } from '../stand.ts';
import { say, sound, step } from '../step.ts';

/** A twentieth of full scale is about the smallest change that is noticed. */
const TURN: Gain = 0.05;

const TURNS: Readonly<Record<DialAction, { readonly dial: 'click' | 'drone'; readonly by: Gain }>> = {
  'click-softer': { dial: 'click', by: -TURN },
  'click-louder': { dial: 'click', by: TURN },
  'drone-softer': { dial: 'drone', by: -TURN },
  'drone-louder': { dial: 'drone', by: TURN },
};

export const isDial = (action: string): action is DialAction => Object.hasOwn(TURNS, action);

const turned = (level: Gain, by: Gain): Gain => Math.round(Math.min(1, Math.max(0, level + by)) * 100) / 100;

const percent = (level: Gain): string => `${Math.round(level * 100)} %`;

/** The new level sounds at once and is kept in the settings file. */
export function turnDial(stand: Stand, action: DialAction): StandStep {
  const { dial, by } = TURNS[action];
  const dials: Dials = { ...stand.dials, [dial]: turned(stand.dials[dial], by) };
  const volume = { click: dials.click, drone: dials.drone };
  return step(
    { ...stand, dials, settings: { ...stand.settings, volume } },
    sound({ ask: 'volume', ...volume }),
    { type: 'set', settings: { volume } },
    say(`Click ${percent(dials.click)}, drone ${percent(dials.drone)}.`),
  );
}
