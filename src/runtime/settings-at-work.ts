/** The settings while the program runs: what a screen changes takes effect at once and is kept in the file. */
import type { ChangedSettings, Settings } from '../practice/settings.ts';
import type { ReadAnew, StandEvent } from '../practice/stand.ts';
import { keepSettings } from './files/settings-writer.ts';

export interface SettingsAtWork {
  readonly now: () => Settings;
  readonly set: (changed: ChangedSettings) => void;
  readonly listen: (call: (event: StandEvent) => void) => () => void;
  /** What still waits is written now: what was shown is kept. */
  readonly finish: () => Promise<void>;
}

export interface SettingsParts {
  readonly folder: string;
  readonly first: Settings;
  readonly log: (text: string) => void;
  /** The material for these settings. */
  readonly read: (settings: Settings) => Promise<ReadAnew>;
  /** The way out of the sound has to be opened anew. */
  readonly reopen: (settings: Settings) => void;
}

/** Turning a dial is many small steps: only the last one is written. */
const SOON = 300;

const MATERIAL: readonly (keyof Settings)[] = ['instrument', 'a4', 'drone', 'syllables', 'rule', 'routine'];
const WAY_OUT: readonly (keyof Settings)[] = ['device', 'latency', 'tapOffset'];

const has = (changed: ChangedSettings, fields: readonly (keyof Settings)[]): boolean =>
  fields.some((field) => Object.hasOwn(changed, field));

/** What the next start would say of it; null where it would be read as it was meant. */
async function trouble(changed: ChangedSettings): Promise<string | null> {
  const [{ SETTINGS, writtenAs }, { checkSettings }] = await Promise.all([
    import('./files/settings-table.ts'),
    import('./files/settings-check.ts'),
  ]);
  const fields = (Object.keys(changed) as (keyof Settings)[]).filter((field) => changed[field] !== null);
  const file = Object.fromEntries(
    fields.map((field) => [
      SETTINGS[field].name,
      // Keys stand in the file as they are; one that clashes cannot be encoded, and is to be named.
      field === 'keys' ? changed.keys : writtenAs(field, changed[field] as never),
    ]),
  );
  return checkSettings(file).mistakes[0]?.sentence ?? null;
}

class AtWork implements SettingsAtWork {
  private settings: Settings;
  private waiting: ChangedSettings = {};
  /** As it was before what waits. */
  private before: ChangedSettings = {};
  private timer: NodeJS.Timeout | undefined;
  private writing: Promise<void> = Promise.resolve();
  private readonly parts: SettingsParts;
  private readonly listeners = new Set<(event: StandEvent) => void>();

  constructor(parts: SettingsParts) {
    this.parts = parts;
    this.settings = parts.first;
  }

  readonly now = (): Settings => this.settings;

  readonly listen = (call: (event: StandEvent) => void): (() => void) => {
    this.listeners.add(call);
    return () => void this.listeners.delete(call);
  };

  readonly set = (changed: ChangedSettings): void => {
    for (const field of Object.keys(changed) as (keyof Settings)[])
      if (!Object.hasOwn(this.before, field)) this.before = { ...this.before, [field]: this.settings[field] };
    this.waiting = { ...this.waiting, ...changed };
    this.settings = { ...this.settings, ...changed };
    this.apply(changed);
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.finish(), SOON);
  };

  readonly finish = (): Promise<void> => {
    clearTimeout(this.timer);
    const [changed, before] = [this.waiting, this.before];
    this.waiting = {};
    this.before = {};
    this.writing = this.writing.then(() => this.write(changed, before));
    return this.writing;
  };

  private apply(changed: ChangedSettings): void {
    if (has(changed, WAY_OUT)) this.parts.reopen(this.settings);
    if (has(changed, MATERIAL)) void this.readMaterial();
  }

  private async readMaterial(): Promise<void> {
    const { settings } = this;
    const read = await this.parts.read(settings);
    // Of two changes in quick succession the later one counts.
    if (settings === this.settings) this.tell({ type: 'read', read });
    else void this.readMaterial();
  }

  private async write(changed: ChangedSettings, before: ChangedSettings): Promise<void> {
    if (Object.keys(changed).length === 0) return;
    const wrong = await trouble(changed);
    if (wrong !== null) {
      this.settings = { ...this.settings, ...before };
      this.apply(before);
      return this.tell({ type: 'not-set', before, sentence: wrong });
    }
    const sentence = await keepSettings(this.parts.folder, changed, before);
    if (sentence === null) return;
    this.parts.log(sentence);
    this.tell({ type: 'not-set', before: {}, sentence });
  }

  private tell(event: StandEvent): void {
    this.listeners.forEach((call) => call(event));
  }
}

export const settingsAtWork = (parts: SettingsParts): SettingsAtWork => new AtWork(parts);
