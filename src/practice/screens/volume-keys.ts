/** What the player turns while playing: how loud the click and the drone are, and how far the picture waits. */
import type { Gain } from '../../common/units.ts';
import type { Effect } from '../line/line-on-stand.ts';
import type { DialAction, Dials, Stand, StandStep } from '../stand.ts';
import { sound } from '../line/line-steps.ts';

/** A twentieth of full scale is about the smallest change that is noticed. */
const STEP: Gain = 0.05;

const TURNS: Readonly<Record<DialAction, { readonly dial: 'click' | 'drone'; readonly by: Gain }>> = {
  'click-softer': { dial: 'click', by: -STEP },
  'click-louder': { dial: 'click', by: STEP },
  'drone-softer': { dial: 'drone', by: -STEP },
  'drone-louder': { dial: 'drone', by: STEP },
};

export const isDial = (action: string): action is DialAction => action in TURNS;

const turned = (level: Gain, by: Gain): Gain => Math.round(Math.min(1, Math.max(0, level + by)) * 100) / 100;

const percent = (level: Gain): string => `${Math.round(level * 100)} %`;

/** The new level sounds at once and is kept in the settings file. */
export function turnDial(stand: Stand, action: DialAction): StandStep {
  const { dial, by } = TURNS[action];
  const dials: Dials = { ...stand.dials, [dial]: turned(stand.dials[dial], by) };
  const effects: readonly Effect[] = [
    sound({ ask: 'volume', click: dials.click, drone: dials.drone }),
    { type: 'set', volume: { click: dials.click, drone: dials.drone } },
  ];
  const hint = `Click ${percent(dials.click)}, drone ${percent(dials.drone)}.`;
  const practice = stand.practice && { ...stand.practice, hint };
  return { state: { ...stand, dials, practice }, effects };
}
