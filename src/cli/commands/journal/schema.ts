import { journalSchema } from '../../../journal/entry-schema.ts';
import { printJson } from '../../output/print.ts';

export const printSchema = (): void => printJson(journalSchema());
