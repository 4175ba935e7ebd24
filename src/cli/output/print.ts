/**
 * What a command says: on stdout what was asked for, on stderr what is to be said besides. The last wall: whatever a
 * text holds, no terminal obeys it. In JSON such a character is the same one, written as \\uXXXX.
 */
import { harmlessLines } from '../../common/harmless-text.ts';

/** Text with its line breaks. */
export const printText = (text: string): void => void process.stdout.write(harmlessLines(text));

export const printJson = (value: unknown): void => printText(`${JSON.stringify(value, null, 2)}\n`);

export const printLines = (lines: readonly string[]): void => printText(`${lines.join('\n')}\n`);

/** One line on stderr. */
export const complain = (line: string): void => void process.stderr.write(`${harmlessLines(line)}\n`);

/** A sentence beside what was asked for. */
export const remark = (sentence: string): void => complain(`standside: ${sentence}`);
