/** Ten years of an invented player's marks, the same each time. */
import { writeFileSync } from 'node:fs';
import type { Entry, MarkEntry } from '../../src/diary/entry.ts';
import { entryIds } from '../../src/journal/entry-ids.ts';
import { seeded } from '../../src/common/chance.ts';
import { atOf, dayOf } from '../../src/runtime/clock.ts';

const KEYS = ['C', 'F', 'Bb', 'Eb', 'Ab', 'Db', 'F#', 'B', 'E', 'A', 'D', 'G'] as const;
const ARTICULATIONS = ['slurred', 'single', 'double'] as const;
const EXERCISES = ['five-notes', 'thirds', 'chromatic-octave', 'triple-run', 'one-note-tongue', 'drone-slurs'] as const;
const DAY = 86_400_000;

const pick = <T>(from: readonly T[], random: number): T => from[Math.floor(random * from.length)] as T;

/** So many marks over ten years, in stretches of fifteen on one line. */
export function tenYears(marks: number): readonly Entry[] {
  const random = seeded(20_261_125);
  let wall = Date.parse('2016-11-25T17:00:00Z');
  const nextId = entryIds(null, () => wall);
  const perDay = Math.ceil(marks / 3652);
  const line = () => ({
    exercise: pick(EXERCISES, random()),
    articulation: pick(ARTICULATIONS, random()),
    key: pick(KEYS, random()),
  });
  let on = line();
  let bpm = 60;
  return Array.from({ length: marks }, (_, index): MarkEntry => {
    wall += index % perDay === 0 ? DAY - perDay * 20_000 : 20_000;
    if (index % 15 === 0) {
      on = line();
      bpm = 60 + Math.floor(random() * 60);
    }
    const mark = pick(['clean', 'clean', 'clean', 'tense', 'missed'] as const, random());
    const next = mark === 'clean' && random() < 0.3 ? bpm + 2 : bpm;
    const entry = {
      v: 1,
      id: nextId(),
      at: atOf(wall, 60),
      day: dayOf(wall, 60),
      kind: 'mark',
      ...on,
      mark,
      bpm,
      next,
    } as const;
    bpm = next;
    return { ...entry, beat: '1/4', notesPerBeat: 4, cleanUp: 3, missedDown: 2, by: 'player' };
  });
}

export const writeJournal = (path: string, entries: readonly Entry[]): void =>
  writeFileSync(path, entries.map((entry) => `${JSON.stringify(entry)}\n`).join(''));
