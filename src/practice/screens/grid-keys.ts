/** The grid of keys and ways of tonguing: a finger on one cell, and the cell put on the stand. */
import { cellsOf } from '../../plan/rotation/turn-asked.ts';
import { keysAsTheyCome } from '../../plan/rotation/turns-ahead.ts';
import { askedHere, layOnStand } from '../sitting/turn-by-key.ts';
import { type GridPlace, type Stand, type StandStep, type View, type Work } from '../stand.ts';
import { step } from '../step.ts';

export type GridView = Extract<View, { screen: 'grid' }>;

const sides = (stand: Stand, work: Work) => {
  const asked = askedHere(stand, work);
  return { keys: keysAsTheyCome(asked), articulations: cellsOf(asked).articulations };
};

/** Opens the grid with the finger on the line that lies on the stand. */
export function openGrid(stand: Stand): StandStep {
  if (stand.view.screen !== 'practice') return step(stand);
  const { work } = stand.view;
  const { keys, articulations } = sides(stand, work);
  const at: GridPlace = {
    key: Math.max(0, keys.indexOf(work.practice.key)),
    articulation: Math.max(0, articulations.indexOf(work.practice.line.articulation)),
  };
  return step({ ...stand, view: { screen: 'grid', work, at } });
}

/** From the grid back to the line, as it was. */
export const leaveGrid = (stand: Stand, { work }: GridView): Stand => ({
  ...stand,
  view: { screen: 'practice', work },
});

const round = (place: number, of: number): number => (of === 0 ? 0 : (place + of) % of);

function moved(stand: Stand, view: GridView, by: GridPlace): StandStep {
  const { keys, articulations } = sides(stand, view.work);
  const at: GridPlace = {
    key: round(view.at.key + by.key, keys.length),
    articulation: round(view.at.articulation + by.articulation, articulations.length),
  };
  return step({ ...stand, view: { ...view, at } });
}

/** Along the row, and from its end into the next one: so one pedal comes to every cell. */
function onward(stand: Stand, view: GridView): StandStep {
  const { keys } = sides(stand, view.work);
  const isEnd = view.at.key + 1 >= keys.length;
  return moved(stand, view, { key: 1, articulation: isEnd ? 1 : 0 });
}

function take(stand: Stand, view: GridView): StandStep {
  const { keys, articulations } = sides(stand, view.work);
  const key = keys[view.at.key];
  const articulation = articulations[view.at.articulation];
  const back = leaveGrid(stand, view);
  return key === undefined || articulation === undefined
    ? step(back)
    : layOnStand(back, view.work, { key, articulation, fingering: 'ordinary' });
}

export const GRID: Readonly<
  Record<'up' | 'down' | 'key-before' | 'key-after' | 'cell-after' | 'open', (s: Stand, v: GridView) => StandStep>
> = {
  up: (stand, view) => moved(stand, view, { key: 0, articulation: -1 }),
  down: (stand, view) => moved(stand, view, { key: 0, articulation: 1 }),
  'key-before': (stand, view) => moved(stand, view, { key: -1, articulation: 0 }),
  'key-after': (stand, view) => moved(stand, view, { key: 1, articulation: 0 }),
  'cell-after': onward,
  open: take,
};
