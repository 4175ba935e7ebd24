import { DEFAULT_INSTRUMENT } from '../../music/pitch/instruments.ts';
import { tendencyMap } from '../../review/tendencies.ts';
import { instrumentAsked } from '../../runtime/asked/drill-asked.ts';
import { stampOf, systemClock } from '../../runtime/clock.ts';
import { journalSoFar } from '../files/journal-so-far.ts';
import { playersSettings } from '../files/players-settings.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { numberOption, wholeNumber } from '../options/number-option.ts';
import { printJson } from '../output/print.ts';
import { tendencyText } from '../output/tendency-listing.ts';

export interface TendenciesOptions extends DataOption {
  readonly instrument?: string;
  readonly weeks: string;
  readonly json?: boolean;
}

/** What the journal keeps of other entries goes back 400 days. */
const MOST_WEEKS = 57;

export async function tendencies(options: TendenciesOptions): Promise<void> {
  const weeks = numberOption(options.weeks, { option: 'weeks', ...wholeNumber(1, MOST_WEEKS) });
  const folder = dataFolderOf(options);
  const { others } = journalSoFar(folder);
  const { dayStart, instrument: usual } = await playersSettings(folder);
  const instrument = instrumentAsked(options.instrument ?? usual ?? DEFAULT_INSTRUMENT);
  const { day } = stampOf(systemClock, dayStart);
  const notes = tendencyMap(others, instrument.id, day, weeks);
  if (options.json) printJson({ instrument: instrument.id, weeks, triedOnPlayers: false, notes });
  else process.stdout.write(tendencyText(instrument.name, notes));
}
