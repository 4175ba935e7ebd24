/** How far the reading of a long journal has come, on the line where the program was called. */

/** The part of a terminal that is written to. */
export interface ProgressLine {
  readonly isTTY?: boolean;
  readonly write: (text: string) => unknown;
}

/** So long nothing is said: most journals are read by then. */
const PATIENCE = 400;

const EMPTIED = '\r\u001b[K';

/** Says nothing where nobody looks on; the line is empty again at the end. */
export function readingProgress(out: ProgressLine, monotonic: () => number): (share: number) => void {
  const begun = monotonic();
  let said = '';
  return (share) => {
    if (!out.isTTY || monotonic() - begun < PATIENCE) return;
    const text = `Reading the journal: ${Math.floor(share * 100)} %`;
    if (share < 1 && text === said) return;
    if (share === 1 && said === '') return;
    said = text;
    out.write(share < 1 ? `\r${text}` : EMPTIED);
  };
}
