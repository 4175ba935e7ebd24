/** Drills for tests, in the words of a player. */
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { type Passage, isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { parseMeter } from '../../src/music/time/meter.ts';
import { QUARTER, type Ratio } from '../../src/music/time/ratio.ts';
import { readArticulation } from '../../src/music/tongue/articulation.ts';
import { type Drill, drillOf } from '../../src/music/tongue/drill.ts';

export interface Asked {
  readonly pattern: string;
  /** Notes on each beat. */
  readonly notes?: number;
  readonly key?: string;
  readonly scale?: string;
  readonly way?: string;
  readonly meter?: string;
  readonly beat?: Ratio;
  readonly instrument?: string;
}

export function passageIn({
  pattern,
  notes = 2,
  key = 'C',
  scale = 'major',
  meter = '4/4',
  beat = QUARTER,
  instrument = 'c-trumpet',
}: Omit<Asked, 'way'>): Passage {
  const [read, played] = [parseMeter(meter), instrumentNamed(instrument)];
  if (typeof read === 'string' || !played) throw new Error(`${meter} ${instrument}`);
  const passage = writeOut({ pattern, scale, key, meter: read, beat, notesPerBeat: notes, instrument: played });
  if (!isPassage(passage)) throw new Error(passage.troubles[0]?.sentence);
  return passage;
}

export function drillIn({ way = 'single', ...asked }: Asked): Drill {
  const articulation = readArticulation(way);
  if (typeof articulation === 'string') throw new Error(articulation);
  return drillOf(passageIn(asked), articulation);
}
