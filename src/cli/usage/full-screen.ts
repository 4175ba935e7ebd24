import type { FullScreenOptions, LineOnStand } from '../commands/full-screen.ts';

/** Loads the full-screen program and runs it; its end is the process's. */
export async function openFullScreen(options: FullScreenOptions, line: LineOnStand): Promise<void> {
  // With `fetch` at hand, Ink's layout library fetches its own code from a data address and loads an HTTP client for
  // it, a tenth of the start; without, it decodes it in place. This program goes to no network. It must be gone
  // before Ink is loaded, which is why it stands here.
  Reflect.deleteProperty(globalThis, 'fetch');
  const { fullScreen } = await import('../commands/full-screen.ts');
  await fullScreen(options, line);
}
