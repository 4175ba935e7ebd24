import { harmless } from '../../common/harmless-text.ts';

const WIDTH = 34;

/** The title of a block, cut or filled to the width of its column. */
export const titleColumn = (title: string): string => harmless(title, WIDTH).padEnd(WIDTH);
