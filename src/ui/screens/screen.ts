/** What every screen is given, and what it gives: one shape for all of them. */
import type { Lettering } from '../../music/page/strip.ts';
import type { Action, Screen, Stand, View } from '../../practice/stand.ts';
import type { PaintedLine } from '../paint.ts';
import { keySign } from '../components/foot-line.ts';
import { KEYS, type KeyRow, type Place } from '../keys.ts';
import type { KeyOf } from '../practice/practice-state.ts';

/** The room there is, how accidentals are written, and the line of keys at the foot. */
export interface Canvas {
  readonly columns: number;
  readonly rows: number;
  readonly lettering: Lettering;
  readonly foot: PaintedLine;
  /** The player's own; the program's where none are given. */
  readonly keys?: readonly KeyRow[];
}

/** What a key is called on this player's keyboard. */
export const keyOfCanvas =
  ({ keys = KEYS }: Canvas): KeyOf =>
  (action) =>
    keySign(keys.find((row) => row.action === action)?.keys[0] ?? '');

/** The sign of an action's key on one screen, on this player's keyboard. */
export const keyOn = ({ keys = KEYS }: Canvas, place: Place, action: Action): string =>
  keySign(keys.find((row) => row.action === action && row.places.includes(place))?.keys[0] ?? '');

/** The stand while this screen shows. */
export type On<S extends Screen> = Stand & { readonly view: Extract<View, { readonly screen: S }> };

export const isOn = <S extends Screen>(stand: Stand, screen: S): stand is On<S> => stand.view.screen === screen;

/** Exactly `rows` lines of at most `columns`. */
export type DrawScreen<S extends Screen> = (stand: On<S>, canvas: Canvas) => readonly PaintedLine[];
