/** Rotations made by hand, and what is due in them. */
import type { Narrowing } from '../../src/plan/rotation/block-narrowing.ts';
import type { LineHistory } from '../../src/ladder/speed/line-history.ts';
import { PLAIN_ROTATION, type Rotation } from '../../src/plan/rotation/key-rotation.ts';
import { type DueTurn, type TurnAsked, nextTurn } from '../../src/plan/rotation/next-turn.ts';
import { turnName } from '../../src/plan/rotation/turn.ts';
import { ON_LADDER } from '../diary/kept.ts';

export interface Setup {
  readonly keys?: readonly string[];
  readonly articulations?: readonly string[];
  /** Null: the file says nothing. */
  readonly rotation?: Partial<Rotation> | null;
  readonly narrowed?: Partial<Narrowing>;
  readonly came?: readonly string[];
  readonly histories?: readonly LineHistory[];
  readonly edges?: readonly string[];
  readonly seed?: number;
  readonly laid?: string;
  readonly today?: string;
  readonly work?: 'breaths' | 'clock';
}

export const asked = (setup: Setup = {}): TurnAsked => ({
  exercise: {
    id: 'five-notes',
    keys: setup.keys ?? ['C', 'F', 'Bb'],
    articulations: setup.articulations ?? ['slurred', 'single', 'double'],
    ...(setup.work ? { work: setup.work } : {}),
    ...(setup.rotation === null ? {} : { rotation: { ...PLAIN_ROTATION, ...setup.rotation } }),
  },
  narrowed: { keys: null, articulations: null, once: false, ...setup.narrowed },
  came: setup.came ?? [],
  histories: setup.histories ?? [],
  isEdge: (key) => setup.edges?.includes(key) ?? false,
  seed: setup.seed ?? 7,
  laid: setup.laid ?? null,
  today: setup.today ?? '2026-11-25',
});

export const next = (setup: Setup): DueTurn => {
  const turn = nextTurn(asked(setup));
  if (turn === null) throw new Error('nothing is due');
  return turn;
};

/** Names of so many turns, one after the other, each kept as it is played. */
export function playOn(many: number, setup: Setup): readonly string[] {
  const came = [...(setup.came ?? [])];
  for (let i = 0; i < many; i += 1) came.push(turnName(next({ ...setup, came })));
  return came.slice(-many);
}

export const history = (articulation: string, key: string, change: Partial<LineHistory> = {}): LineHistory => ({
  line: { exercise: 'five-notes', articulation, key },
  ...ON_LADDER,
  best: null,
  lastDay: '2026-11-25',
  tallies: [],
  ...change,
});

export const withBest = (articulation: string, key: string, bpm: number): LineHistory =>
  history(articulation, key, { best: { bpm, day: '2026-11-25' } });

export const marked = (articulation: string, key: string, clean: number): LineHistory =>
  history(articulation, key, { tallies: [{ day: '2026-11-25', bpm: 60, clean, tense: 0, missed: 0 }] });

export const crossed = (keys: readonly string[], articulations: readonly string[]): readonly string[] =>
  articulations.flatMap((articulation) => keys.map((key) => `${key} · ${articulation}`));
