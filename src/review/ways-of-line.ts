/** Which ways round its wall were tried on a line, and which of them helped. */
import type { DayEntry } from '../diary/entry.ts';
import { lineName } from '../ladder/line.ts';
import { rungsOf } from '../ladder/rule/rungs.ts';
import { type OfferedWay, waysToOffer } from '../ladder/wall/ways-that-helped.ts';
import { waysRound } from '../ladder/wall/ways-round.ts';
import { beatsOfBar } from '../music/time/meter.ts';
import { lineRule } from '../plan/rotation/multiple-tonguing-steps.ts';
import type { Lines, Standing } from './standing.ts';

const helpedFirst = (a: OfferedWay, b: OfferedWay): number => b.helpedOn.length - a.helpedOn.length;

/** The ways that were tried on this line, those that helped first. */
export function waysTried(
  { lines }: Pick<Lines, 'lines'>,
  { line, exercise, wall, now }: Standing,
  records: readonly DayEntry[],
): readonly OfferedWay[] {
  if (!exercise) return [];
  const tried = records.filter((record) => record.kind === 'way');
  const ways = waysRound({
    wall: wall?.bpm ?? now.bpm,
    rungs: rungsOf(lineRule(exercise, line.articulation)),
    tongued: line.articulation !== 'slurred',
    notes: null,
    beats: beatsOfBar(exercise.meter, exercise.beat).length,
  });
  const histories = new Map(Object.entries(lines));
  return waysToOffer(
    ways,
    line,
    tried.filter((one) => lineName(one) === lineName(line)),
    histories,
  )
    .filter((way) => way.tried > 0)
    .toSorted(helpedFirst);
}

/** 'Short bursts helped on 2026-11-12. Tried without help yet: Off-beats.'; empty where none was tried. */
export function waysSentence(ways: readonly OfferedWay[]): string {
  const helped = ways.filter(({ helpedOn }) => helpedOn.length > 0);
  const others = ways.filter(({ helpedOn }) => helpedOn.length === 0);
  return [
    ...helped.map(({ title, helpedOn }) => `${title} helped on ${helpedOn.at(-1)}.`),
    ...(others.length === 0 ? [] : [`Tried without help yet: ${others.map(({ title }) => title).join(', ')}.`]),
  ].join(' ');
}
