import { harmless } from '../../common/harmless-text.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { type Settings, readSettings } from '../../runtime/files/settings.ts';
import { remark } from '../output/print.ts';

/** The player's settings. Each mistake in their file is said on stderr; what it is about keeps its default. */
export async function playersSettings({ path }: DataFolder): Promise<Settings> {
  const { settings, troubles } = await readSettings(path);
  for (const sentence of troubles) remark(harmless(sentence, 300));
  return settings;
}
