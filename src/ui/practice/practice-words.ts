/** What the practice screen shows, worked out from the state. */
import { bpmText } from '../../music/time/tempo-text.ts';
import type { LadderRule, Mark } from '../../ladder/rule/ladder-rule.ts';
import { percent } from '../../ladder/settling/settling-text.ts';
import type { LineHistory } from '../../ladder/speed/line-history.ts';
import { rungFrom } from '../../ladder/rule/rungs.ts';
import { format } from '../../music/time/ratio.ts';
import { notesPerSecond } from '../../music/time/meter.ts';
import { isSpeedUnknown } from '../../plan/routine/exercise.ts';
import { pulsesIn } from '../../music/tongue/vibrato.ts';
import type { Phase, Practice } from '../../practice/line/line-on-stand.ts';
import { climbNow, ruleOf, rungsNow, spanHeard, tempoAfter, tempoNow } from '../../practice/line/line-state.ts';
import { MARK_SIGNS } from '../components/mark-signs.ts';
import { marksToday } from './marks-by-tempo.ts';
import type { LadderView } from '../components/ladder-figure.ts';

/** What is known of a line's speed: where it keeps falling, and between which tempos the safe one lies. */
export type SpeedKnown = Pick<LadderView, 'wall' | 'safe'>;

export function ladderView(
  practice: Practice,
  history: LineHistory | null,
  today: string,
  speed: SpeedKnown,
): LadderView {
  const { bpm, best, cleanRun, missedRun } = climbNow(practice);
  const { target, cleanUp, missedDown, aim } = ruleOf(practice);
  return {
    rungs: rungsNow(practice),
    bpm,
    best,
    target,
    cleanRun,
    cleanUp,
    missedRun,
    missedDown,
    aim,
    ...speed,
    early: practice.due?.early ?? null,
    marks: marksToday(practice, history, today),
    triedBefore: new Set(history?.tallies.map((tally) => tally.bpm) ?? []),
  };
}

const NOTE_NAMES: Readonly<Record<string, string>> = {
  '1/4': 'quarter',
  '3/8': 'dotted quarter',
  '1/8': 'eighth',
  '1/2': 'half',
  '3/4': 'dotted half',
  '1': 'whole',
  '1/16': 'sixteenth',
  '3/16': 'dotted eighth',
};

/** 'quarter = 96 · 6.4 notes/s', and for vibrato 'quarter = 60 · 4.0 Hz': of the tempo that sounds. */
export function speedLine(practice: Practice, width: number): string {
  const { exercise, line } = practice;
  const bpm = tempoNow(practice);
  const beat = format(exercise.beat);
  const pulses = pulsesIn(line.articulation);
  const speed = notesPerSecond(bpm, pulses ?? exercise.notesPerBeat).toFixed(1);
  // Of own material nothing is claimed that its file does not say.
  const isKnown = !isSpeedUnknown(exercise, line.articulation);
  const rest = ` = ${bpmText(bpm)}${isKnown ? ` · ${speed} ${pulses === null ? 'notes/s' : 'Hz'}` : ''}`;
  const name = NOTE_NAMES[beat] ?? beat;
  return name.length + rest.length <= width ? name + rest : beat + rest;
}

export const PHASE_WORDS: Readonly<Record<Phase, string>> = {
  ready: 'READY',
  'count-in': 'COUNT-IN',
  slow: 'SLOWLY',
  playing: 'PLAY',
  breathing: 'BREATHE',
  waiting: 'MARK?',
  stopped: 'PAUSED',
};

/** 'PLAY · bar 1 of 2' */
export function phaseLine(practice: Practice): string {
  const { phase, heard, due, before } = practice;
  const word =
    phase === 'breathing' && due
      ? 'BREATHE · mark?'
      : phase === 'playing' && before
        ? 'PLAY · mark the last?'
        : phase === 'waiting' && !due
          ? 'MARKED'
          : PHASE_WORDS[phase];
  const span = spanHeard(practice);
  if (!span || !heard || span.bars === null || span.bars < 2) return word;
  return `${word} · bar ${heard.bar + 1} of ${span.bars}`;
}

/** '●●○ ' and '×○ ': a run towards its end; empty where that leaves no room for words. */
const runSigns = (run: number, of: number, sign: string, room: number): string =>
  of + 1 <= room ? `${sign.repeat(run)}${'○'.repeat(Math.max(0, of - run))} ` : '';

/** What the next marks would do, so that the ladder never surprises: the climb, and the fall. */
export function nextLines(practice: Practice, width: number): readonly [string, string] {
  if (practice.way) return [`the ladder waits at ${bpmText(practice.way.way.back)}`, 'v: back to it'];
  const rule = ruleOf(practice);
  return rule.aim === null ? countedLines(practice, rule, width) : aimedLines(practice, rule.aim);
}

/** A mark moves it by itself: where each would lead. */
function aimedLines(practice: Practice, aim: number): readonly [string, string] {
  const { bpm } = climbNow(practice);
  const to = (mark: Mark): string => {
    const next = tempoAfter(practice, mark);
    return next === bpm ? 'stay' : `${next > bpm ? 'up' : 'down'} to ${bpmText(next)}`;
  };
  return [`${percent(aim)} aimed at; clean: ${to('clean')}`, `missed: ${to('missed')}`];
}

function countedLines(practice: Practice, rule: LadderRule, width: number): readonly [string, string] {
  const { bpm, cleanRun, missedRun } = climbNow(practice);
  const rungs = rungsNow(practice);
  const up = rungFrom(rungs, bpm, rule.rungsUp);
  const down = rungFrom(rungs, bpm, -rule.rungsDown);
  const clean = `${rule.cleanUp - cleanRun} more clean: ${up === bpm ? 'the top is held' : `up to ${bpmText(up)}`}`;
  const more = missedRun > 0 ? ' more' : '';
  const missed = down === bpm ? '' : `${rule.missedDown - missedRun}${more} missed: down to ${bpmText(down)}`;
  return [
    runSigns(cleanRun, rule.cleanUp, MARK_SIGNS.clean, width - clean.length) + clean,
    missed && runSigns(missedRun, rule.missedDown, MARK_SIGNS.missed, width - missed.length) + missed,
  ];
}
