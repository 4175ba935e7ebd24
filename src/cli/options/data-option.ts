import { type DataFolder, dataFolderAt, whereData } from '../../runtime/files/data-folder.ts';

/** Every command has it from the program itself. */
export interface DataOption {
  readonly data?: string;
}

/** The data folder that the command line means; it is neither made nor locked. */
export const dataFolderOf = ({ data }: DataOption): DataFolder => dataFolderAt(whereData(data));
