/** A plain table for the terminal. */
import { harmless } from '../../common/harmless-text.ts';

export interface Column {
  readonly head: string;
  /** Numbers stand under each other's last digit. */
  readonly right?: boolean;
}

const width = (text: string): number => [...text].length;
const padded = (text: string, to: number, right: boolean): string =>
  right ? ' '.repeat(to - width(text)) + text : text + ' '.repeat(to - width(text));

/** Columns as wide as they need to be, two spaces apart; cells are made harmless. */
export function textTable(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const cells = [columns.map(({ head }) => head), ...rows.map((row) => row.map((cell) => harmless(cell, 40)))];
  const widths = columns.map((_, index) => Math.max(...cells.map((row) => width(row[index] ?? ''))));
  const line = (row: readonly string[]): string =>
    columns
      .map(({ right = false }, index) => padded(row[index] ?? '', widths[index] ?? 0, right))
      .join('  ')
      .trimEnd();
  return `${cells.map(line).join('\n')}\n`;
}
