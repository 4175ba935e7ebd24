/** What is loaded before a command is known, and in which order: a start waits for every library. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';

const SRC = join(import.meta.dirname, '../../src');

/** What a source imports before its first line runs; `import type` is gone by then. */
const staticImports = (source: string): readonly string[] =>
  [...source.matchAll(/^(?:import|export)\s+(?!type\b)(?:[^;'"]*?\sfrom\s+)?'([^']+)'/gm)].map(([, from = '']) => from);

const lazyImports = (source: string): readonly string[] =>
  [...source.matchAll(/\bimport\(\s*'([^']+)'/g)].map(([, from = '']) => from);

/** All that loading a file of ours loads with it: our files, and packages by name. */
function loadedWith(entry: string): ReadonlySet<string> {
  const loaded = new Set<string>();
  const load = (path: string): void => {
    if (loaded.has(path)) return;
    loaded.add(path);
    if (!existsSync(path)) return;
    for (const from of staticImports(readFileSync(path, 'utf8')))
      load(from.startsWith('.') ? join(dirname(path), from) : from);
  };
  load(join(SRC, entry));
  return loaded;
}

const packages = (loaded: ReadonlySet<string>): readonly string[] =>
  [...loaded].filter((name) => !name.startsWith('/') && !name.startsWith('node:')).toSorted();

const FILES = readdirSync(join(SRC, 'cli'), { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.ts'),
);

describe('a start', () => {
  it('loads the command line’s library and no other', () => {
    expect(packages(loadedWith('cli/main.ts'))).toEqual(['commander']);
  });

  it('loads no command, and of the house little more than words', () => {
    const rooms = [...loadedWith('cli/main.ts')]
      .map((path) => relative(SRC, path))
      .filter((path) => /^[a-z]/.test(path));
    expect(rooms.filter((path) => path.startsWith('cli/commands/'))).toEqual([]);
    expect(rooms.filter((path) => !/^(cli|common)\//.test(path))).toEqual(['audio/package-folder.ts']);
  });

  it('of the full-screen program loads neither YAML nor the schema library', () => {
    const loaded = packages(loadedWith('cli/commands/full-screen.ts'));
    expect(loaded).toContain('ink');
    expect(loaded).not.toContain('yaml');
    expect(loaded).not.toContain('zod');
  });
});

describe('a lazy import', () => {
  const lazy = FILES.flatMap((file) =>
    lazyImports(readFileSync(join(SRC, 'cli', file), 'utf8')).map((from) => [file, from] as const),
  );

  it('stands once for each command, and besides only where a file has to be read', () => {
    const commands = lazy.filter(([file]) => file.startsWith('usage/')).map(([, from]) => from);
    expect(commands.filter((from) => !from.startsWith('../commands/'))).toEqual([]);
    expect(commands.toSorted()).toEqual([...new Set(commands)].toSorted());
    expect(lazy.filter(([file]) => !file.startsWith('usage/'))).toEqual([
      ['files/routine-by-name.ts', '../../runtime/files/routine-reader.ts'],
    ]);
  });

  it.each(lazy)('of %s finds %s', (file, from) => {
    expect(existsSync(join(SRC, 'cli', dirname(file), from))).toBe(true);
  });
});

describe('fetch', () => {
  const fetch = Object.getOwnPropertyDescriptor(globalThis, 'fetch');
  afterEach(() => {
    vi.doUnmock('../../src/cli/commands/full-screen.ts');
    if (fetch) Object.defineProperty(globalThis, 'fetch', fetch);
  });

  it('is gone before the full-screen program, and with it Ink, is loaded', async () => {
    const seen: boolean[] = [];
    vi.doMock('../../src/cli/commands/full-screen.ts', () => {
      seen.push('fetch' in globalThis);
      return { fullScreen: async () => void seen.push('fetch' in globalThis) };
    });
    const { openFullScreen } = await import('../../src/cli/usage/full-screen.ts');
    expect('fetch' in globalThis).toBe(true);
    await openFullScreen({}, null);
    expect(seen).toEqual([false, false]);
  });
});
