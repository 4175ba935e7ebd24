/**
 * Every mutant that StrykerJS can make of some files, without testing any: asked of its server by the open Mutation
 * Server Protocol, JSON-RPC 2.0 with a header that gives each message's length.
 */
import { type ChildProcessByStdio, spawn } from 'node:child_process';
import type { Readable, Writable } from 'node:stream';
import type { Mutant } from './mutant.ts';

type Server = ChildProcessByStdio<Writable, Readable, null>;

/** StrykerJS's own command line, by the name that its package exports. */
const SERVE =
  "import { StrykerCli } from '@stryker-mutator/core'; new StrykerCli(['node', 'stryker', 'serve', 'stdio']).run();";

interface Discovered {
  readonly files: Readonly<Record<string, { readonly mutants: readonly Omit<Mutant, 'fileName'>[] }>>;
}

interface Answer {
  readonly id: number;
  readonly result?: unknown;
  readonly error?: { readonly message: string };
}

function say(server: Server, id: number, method: string, params: object): void {
  const content = Buffer.from(JSON.stringify({ jsonrpc: '2.0', id, method, params }));
  server.stdin.write(`Content-Length: ${content.byteLength}\r\n\r\n`);
  server.stdin.write(content);
}

/** The first whole message of what has come in so far, and what follows it; null as long as there is none. */
function message(bytes: Buffer): { readonly answer: Answer; readonly rest: Buffer } | null {
  const header = bytes.indexOf('\r\n\r\n');
  const length = Number(/Content-Length: *(\d+)/.exec(bytes.subarray(0, Math.max(header, 0)).toString())?.[1]);
  const [from, to] = [header + 4, header + 4 + length];
  if (header < 0 || !(bytes.length >= to)) return null;
  return { answer: JSON.parse(bytes.subarray(from, to).toString()) as Answer, rest: bytes.subarray(to) };
}

async function answered(server: Server, id: number): Promise<unknown> {
  let bytes: Buffer = Buffer.alloc(0);
  for await (const chunk of server.stdout) {
    bytes = Buffer.concat([bytes, chunk as Buffer]);
    for (let next = message(bytes); next; next = message(bytes)) {
      bytes = next.rest;
      if (next.answer.error) throw new Error(`StrykerJS: ${next.answer.error.message}`);
      if (next.answer.id === id) return next.answer.result;
    }
  }
  throw new Error('StrykerJS ended without an answer.');
}

/** `mutantsIn(['src/ladder/'])`; a folder ends with a stroke. */
export async function mutantsIn(paths: readonly string[]): Promise<readonly Mutant[]> {
  const server = spawn(process.execPath, ['--input-type=module', '--eval', SERVE], {
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  try {
    say(server, 1, 'configure', {});
    say(server, 2, 'discover', { files: paths.map((path) => ({ path })) });
    const { files } = (await answered(server, 2)) as Discovered;
    return Object.entries(files).flatMap(([fileName, { mutants }]) => mutants.map((one) => ({ ...one, fileName })));
  } finally {
    server.kill();
  }
}
