/** A Standard MIDI File (1.1) whose ticks are milliseconds, and what fluidsynth makes of it; nothing of the program. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { decodeWav } from '../../src/audio/file/wav.ts';
import { run, scratch } from '../audio/programs.ts';

export const FONT = '/usr/share/sounds/sf2/FluidR3_GM.sf2';

export interface MidiTone {
  readonly midi: number;
  /** Seconds. */
  readonly from: number;
  readonly to: number;
}

/** Numbers of General MIDI level 1, from 0 (from memory). */
export const PROGRAMS = { flute: 73, trumpet: 56, clarinet: 71, saxophone: 65 } as const;

const variable = (value: number): readonly number[] =>
  value < 128 ? [value] : [...variable(Math.floor(value / 128)).map((byte) => byte | 128), value % 128];

function midiFile(tones: readonly MidiTone[], program: number): Buffer {
  const events = tones
    .flatMap(({ midi, from, to }) => [
      { at: Math.round(from * 1000), bytes: [0x90, midi, 90] },
      { at: Math.round(to * 1000), bytes: [0x80, midi, 0] },
    ])
    .toSorted((a, b) => a.at - b.at || (a.bytes[0] ?? 0) - (b.bytes[0] ?? 0));
  const body = [0, 0xff, 0x51, 3, 0x0f, 0x42, 0x40, 0, 0xc0, program];
  let at = 0;
  for (const event of events) {
    body.push(...variable(event.at - at), ...event.bytes);
    at = event.at;
  }
  body.push(...variable(1000), 0xff, 0x2f, 0);
  const head = Buffer.from('4d546864000000060000000103e8', 'hex');
  const track = Buffer.concat([Buffer.from('MTrk'), Buffer.alloc(4)]);
  track.writeUInt32BE(body.length, 4);
  return Buffer.concat([head, track, Buffer.from(body)]);
}

export interface Rendered {
  readonly path: string;
  readonly rate: number;
  readonly samples: Float32Array;
}

/** Dry unless a room is asked for. */
export function rendered(tones: readonly MidiTone[], program: number, room = false): Rendered {
  const folder = scratch();
  const [score, path] = [join(folder, 'score.mid'), join(folder, 'take.wav')];
  writeFileSync(score, midiFile(tones, program));
  const effects = room ? ['-R', '1'] : ['-R', '0'];
  run('fluidsynth', ['-ni', '-F', path, '-T', 'wav', '-r', '48000', ...effects, '-C', '0', FONT, score]);
  const sound = decodeWav(readFileSync(path));
  if (typeof sound === 'string') throw new Error(sound);
  return { path, ...sound };
}
