/** The list of ways round a wall, offered with what helped before first. */
import { type WayTried, waysToOffer } from '../../ladder/wall/ways-that-helped.ts';
import { waysRound } from '../../ladder/wall/ways-round.ts';
import { beatsOfBar } from '../../music/time/meter.ts';
import type { Practice, Step } from '../line/line-on-stand.ts';
import { withKnowledge } from '../sitting/line-speed.ts';
import { type Stand, type StandStep, type Ways, still } from '../stand.ts';
import { beginWay, leaveWay } from '../line/way-being-played.ts';

const tried = ({ records }: Stand): readonly WayTried[] => records.filter((record) => record.kind === 'way');

function waysFor(stand: Stand, practice: Practice): Ways {
  const { wall } = stand;
  const bpm = wall?.bpm ?? practice.climb.bpm;
  const { exercise, rungs, drill, line } = practice;
  const notes = drill ? drill.notes.filter(({ pitch }) => pitch).length : null;
  const beats = beatsOfBar(exercise.meter, exercise.beat).length;
  const ways = waysRound({ wall: bpm, rungs, tongued: line.articulation !== 'slurred', notes, beats });
  return { wall, bpm, offers: waysToOffer(ways, line, tried(stand), new Map(Object.entries(stand.lines))), row: 0 };
}

const withPractice = (stand: Stand, { state, effects }: Step<Practice>): StandStep => ({
  state: { ...stand, practice: state, screen: 'practice', ways: null },
  effects,
});

/** Opens the list; on a way already, leaves it. */
export function askForWay(stand: Stand): StandStep {
  const { practice } = stand;
  if (!practice) return still(stand);
  if (practice.way) return withPractice(stand, leaveWay(practice));
  const known = withKnowledge(stand);
  return still({ ...known, screen: 'ways', ways: waysFor(known, practice) });
}

function moveTo(stand: Stand, by: number): StandStep {
  const { ways } = stand;
  if (!ways) return still(stand);
  const { offers, row } = ways;
  return still({ ...stand, ways: { ...ways, row: (row + by + offers.length) % offers.length } });
}

function take(stand: Stand): StandStep {
  const { ways, practice } = stand;
  const offer = ways?.offers[ways.row];
  return ways && practice && offer ? withPractice(stand, beginWay(practice, offer, ways.bpm)) : still(stand);
}

export const backToPractice = (stand: Stand): StandStep => still({ ...stand, screen: 'practice', ways: null });

export const WAYS: Readonly<Record<'up' | 'down' | 'open', (stand: Stand) => StandStep>> = {
  up: (stand) => moveTo(stand, -1),
  down: (stand) => moveTo(stand, 1),
  open: take,
};
