/** What a command says: on stdout what was asked for, on stderr what is to be said besides. */

export const printJson = (value: unknown): void => void process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);

export const printLines = (lines: readonly string[]): void => void process.stdout.write(`${lines.join('\n')}\n`);

/** A sentence beside what was asked for. */
export const remark = (sentence: string): void => void process.stderr.write(`standside: ${sentence}\n`);
