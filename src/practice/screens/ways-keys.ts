/** The list of ways round a wall, waysToOffer with what helped before first. */
import { type WayTried, waysToOffer } from '../../ladder/wall/ways-that-helped.ts';
import { waysRound } from '../../ladder/wall/ways-round.ts';
import { beatsOfBar } from '../../music/time/meter.ts';
import { climbNow, rungsNow } from '../line/line-state.ts';
import type { Practice } from '../line/line-on-stand.ts';
import { beginWay, leaveWay } from '../line/way-being-played.ts';
import { wallFor, withKnowledge } from '../sitting/line-speed.ts';
import { type KnownSoFar, type Stand, type StandStep, type View, type Ways, type Work } from '../stand.ts';
import { type Step, step, within } from '../step.ts';

type WaysView = Extract<View, { screen: 'ways' }>;

const tried = ({ records }: KnownSoFar): readonly WayTried[] => records.filter((record) => record.kind === 'way');

function waysFor(known: KnownSoFar, { practice, wayLookedAt }: Work): Ways {
  const bpm = wallFor(known, practice)?.bpm ?? climbNow(practice).bpm;
  const { exercise, drill, line } = practice;
  const notes = drill ? drill.notes.filter(({ pitch }) => pitch).length : null;
  const beats = beatsOfBar(exercise.meter, exercise.beat).length;
  const ways = waysRound({
    wall: bpm,
    rungs: rungsNow(practice),
    tongued: line.articulation !== 'slurred',
    notes,
    beats,
  });
  const offers = waysToOffer(ways, line, tried(known), new Map(Object.entries(known.lines)));
  return {
    bpm,
    offers,
    row: Math.max(
      0,
      offers.findIndex(({ id }) => id === wayLookedAt),
    ),
  };
}

const backTo = (stand: Stand, work: Work, practice: Step<Practice>): StandStep =>
  within(practice, (state) => ({ ...stand, view: { screen: 'practice', work: { ...work, practice: state } } }));

/** Opens the list; on a way already, leaves it. */
export function askForWay(stand: Stand): StandStep {
  if (stand.view.screen !== 'practice') return step(stand);
  const { work } = stand.view;
  if (work.practice.way) return backTo(stand, work, leaveWay(work.practice));
  const known = withKnowledge(stand.known);
  return step({ ...stand, known, view: { screen: 'ways', work, ways: waysFor(known, work) } });
}

function moveTo(stand: Stand, view: WaysView, by: number): StandStep {
  const { offers, row } = view.ways;
  const ways: Ways = { ...view.ways, row: (row + by + offers.length) % offers.length };
  return step({ ...stand, view: { ...view, ways } });
}

function take(stand: Stand, { work, ways }: WaysView): StandStep {
  const offer = ways.offers[ways.row];
  return offer ? backTo(stand, work, beginWay(work.practice, offer, ways.bpm)) : step(stand);
}

/** From the list back to the line, as it was; the list opens where it was left. */
export function leaveWays(stand: Stand, { work, ways }: WaysView): Stand {
  const wayLookedAt = ways.offers[ways.row]?.id;
  const looked: Work = wayLookedAt === undefined ? work : { ...work, wayLookedAt };
  return { ...stand, view: { screen: 'practice', work: looked } };
}

export const WAYS: Readonly<Record<'up' | 'down' | 'open', (stand: Stand, view: WaysView) => StandStep>> = {
  up: (stand, view) => moveTo(stand, view, -1),
  down: (stand, view) => moveTo(stand, view, 1),
  open: take,
};
