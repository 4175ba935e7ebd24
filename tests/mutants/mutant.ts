/** One small deliberate error in the source, as StrykerJS describes it. */
export interface Mutant {
  /** From the project's folder: 'src/ladder/wall/wall.ts'. */
  readonly fileName: string;
  readonly mutatorName: string;
  readonly replacement: string;
  readonly location: { readonly start: Position; readonly end: Position };
}

/** Both count from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

const at = ({ line, column }: Position): string => `${line}:${column}`;

/** No two mutants have the same. */
export const nameOf = ({ fileName, mutatorName, replacement, location }: Mutant): string =>
  [fileName, at(location.start), at(location.end), mutatorName, replacement].join(' ');

/** `folderOf('src/ladder/wall/wall.ts')` is 'src/ladder'. */
export const folderOf = (fileName: string): string => fileName.split('/').slice(0, 2).join('/');
