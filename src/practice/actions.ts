/** What a key may come to, screen by screen. */
import type { PracticeAction } from './line/line-on-stand.ts';
import type { HandAction, OwnAction } from './screens/own-asked.ts';
import type { WeeksAction } from './weeks/weeks-place.ts';

export type DialAction = 'click-softer' | 'click-louder' | 'drone-softer' | 'drone-louder';
export type ListAction = 'up' | 'down' | 'open';
export type ExercisesAction = 'key-before' | 'key-after' | 'articulation' | 'others';
/** Another turn in place of the one on the stand, without losing the block's clock. */
export type TurnAction = 'key-before' | 'key-after' | 'articulation' | 'another-draw';
export type TodayAction =
  'part' | 'list' | 'more-time' | 'less-time' | 'type-time' | 'order' | 'routine' | 'exercises' | 'go-on';
export type SittingAction =
  | 'play-block'
  | 'pause-block'
  | 'next-block'
  | 'longer'
  | 'skip-block'
  | 'swap-block'
  | 'block-before'
  | 'add'
  | 'breath'
  | 'tension'
  | 'note';
export type SettingsAction = 'up' | 'down' | 'open' | 'setting-less' | 'setting-more';
export type Action =
  | SettingsAction
  | DialAction
  | PracticeAction
  | SittingAction
  | ListAction
  | ExercisesAction
  | TodayAction
  | 'pedal-forward'
  | 'pedal-back'
  | TurnAction
  | 'grid'
  | 'cell-after'
  | OwnAction
  | HandAction
  /** A key of a text that is being written, as it is. */
  | 'type'
  | 'way'
  | WeeksAction
  | 'weeks'
  | 'settings'
  | 'back'
  | 'help'
  | 'leave'
  | 'suspend';
