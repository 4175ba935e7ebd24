import { Trouble } from '../../../common/trouble.ts';
import type { Routine } from '../../../plan/routine/routine.ts';
import { dayOverview } from '../../../plan/today/day-overview.ts';
import { playedBefore } from '../../../plan/today/played-before.ts';
import { todaysPlan } from '../../../plan/today/todays-plan.ts';
import { stampOf, systemClock } from '../../../runtime/clock.ts';
import { journalSoFar } from '../../files/journal-so-far.ts';
import { playersSettings } from '../../files/players-settings.ts';
import { routineNamed } from '../../files/routine-by-name.ts';
import { type DataOption, dataFolderOf } from '../../options/data-option.ts';
import { planLines } from '../../output/plan-listing.ts';
import { printJson, printLines } from '../../output/print.ts';
import { type FitWords, minutesOf, orderOf, partsOf, seedOf } from './fit-options.ts';

export interface FitOptions extends FitWords, DataOption {
  readonly json?: boolean;
}

/** @throws Trouble for a file of exercises alone. */
async function routineWithParts(name: string, options: FitOptions): Promise<Routine> {
  const routine = await routineNamed(dataFolderOf(options), name);
  if (routine.parts.length > 0) return routine;
  throw new Trouble(`The routine '${routine.id}' has no parts; there is nothing to fit.`);
}

export async function fitRoutine(name: string, options: FitOptions): Promise<void> {
  const [minutes, order] = [minutesOf(options), orderOf(options)];
  const routine = await routineWithParts(name, options);
  const parts = partsOf(options, routine);
  const folder = dataFolderOf(options);
  const { dayStart } = await playersSettings(folder);
  const { day } = stampOf(systemClock, dayStart);
  const { others, lines } = journalSoFar(folder);
  const before = playedBefore(day, others, [...lines.values()]);
  const seed = seedOf(options, day + routine.id);
  const plan = todaysPlan(routine, { minutes, before, seed, ...order, ...parts });
  const view = dayOverview(routine, plan, before, others);
  if (options.json) printJson({ ...plan, day: view });
  else printLines(planLines(plan, view));
}
