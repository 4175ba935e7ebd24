/**
 * What a teacher's overview needs of one player, small enough to travel inside a report: days, minutes, lines. Nothing
 * of notes and tension is in it. Pure.
 */
import { daysBetween } from '../../common/days.ts';
import type { Bpm } from '../../common/units.ts';
import { repetitions } from '../../ladder/speed/line-history.ts';
import type { Minutes } from '../../plan/routine/routine.ts';
import type { PracticeReport } from './practice-report.ts';

export interface LineSummary {
  readonly title: string;
  readonly articulation: string;
  readonly key: string;
  readonly marks: number;
  /** Share of clean repetitions, 0 to 1. */
  readonly clean: number;
  readonly best: Bpm | null;
  readonly target: Bpm | null;
}

export interface StudentSummary {
  readonly v: 1;
  readonly from: string;
  readonly to: string;
  /** On how many days something was played or marked, and the last of them. */
  readonly days: number;
  readonly lastDay: string | null;
  readonly minutes: Minutes;
  readonly marks: number;
  readonly lines: readonly LineSummary[];
}

const MOST_LINES = 200;

export function summaryOf({ asked, days, lines }: PracticeReport): StudentSummary {
  const marks = days.reduce((sum, { counts }) => sum + repetitions(counts), 0);
  return {
    v: 1,
    from: asked.from,
    to: asked.to,
    days: days.length,
    lastDay: days.at(-1)?.day ?? null,
    minutes: Math.round(days.reduce((sum, { minutes }) => sum + minutes, 0)),
    marks,
    lines: lines.slice(0, MOST_LINES).map(({ title, articulation, key, counts, clean, best, target }) => ({
      title,
      articulation,
      key,
      best,
      target,
      marks: repetitions(counts),
      clean: Math.round((clean ?? 0) * 100) / 100,
    })),
  };
}

/** Marks from which a share says something, and the share below which practice is mostly mistakes. */
const ENOUGH = 12;
const TOO_FEW_CLEAN = 0.6;
/** Days without playing that a teacher would ask about. */
const LONG = 7;

export interface Need {
  /** The greater, the sooner somebody should look. */
  readonly weight: number;
  readonly said: string;
}

const lineTitle = ({ title, articulation, key }: LineSummary): string => `${title}, ${articulation}, ${key}`;
const percent = (share: number): string => `${Math.round(share * 100)} %`;

function away({ lastDay, to }: StudentSummary, today: string): readonly Need[] {
  if (lastDay === null) return [{ weight: 100, said: `nothing played up to ${to}` }];
  const days = daysBetween(lastDay, today);
  return days < LONG ? [] : [{ weight: 20 + Math.min(days, 60), said: `has not played for ${days} days` }];
}

const mostlyMissed = ({ lines }: StudentSummary): readonly Need[] =>
  lines
    .filter(({ marks, clean }) => marks >= ENOUGH && clean < TOO_FEW_CLEAN)
    .sort((a, b) => a.clean - b.clean)
    .map((line) => ({
      weight: 10 + (TOO_FEW_CLEAN - line.clean) * 50,
      said: `${percent(line.clean)} clean in ${line.marks} marks: ${lineTitle(line)}`,
    }));

/** What somebody needs, the most pressing first; nothing where all goes well. */
export const needsOf = (summary: StudentSummary, today: string): readonly Need[] =>
  [...away(summary, today), ...mostlyMissed(summary)].sort((a, b) => b.weight - a.weight);
