/** Every note of a Standard MIDI File, as an independent parser reads it. */
import { type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import type { Click, Drone, SoundedNote, Span } from '../../src/music/sound/sound-commands.ts';
import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import { type Ratio, ratio } from '../../src/music/time/ratio.ts';
import { encodeMidi } from '../../src/audio/file/midi.ts';
import { spanOf } from './spans.ts';

const QUARTER = 3360;
const SILENT: Partial<Click> = { levels: { bar: 0, group: 0, beat: 0, subdivision: 0 } };

interface Note {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  /** In quarters. */
  readonly from: number;
  readonly to: number;
}

/** All notes; throws where one is begun twice, ended without a beginning, or never ended. */
function notesOf(spans: readonly Span[], drone: Drone | null = null): readonly Note[] {
  let tick = 0;
  const open = new Map<string, Omit<Note, 'to'>>();
  const notes: Note[] = [];
  for (const event of parseMidi(encodeMidi(spans, drone)).tracks[0] ?? []) {
    // The largest variable-length number of the specification; a parser may take a step back for an even larger one.
    if (event.deltaTime < 0 || event.deltaTime > 0xfffffff) throw new Error(`a step of ${event.deltaTime}`);
    tick += event.deltaTime;
    if (event.type !== 'noteOn' && event.type !== 'noteOff') continue;
    const { channel, noteNumber: key } = event;
    const begun = open.get(`${channel} ${key}`);
    if (event.type === 'noteOn' ? begun : !begun) throw new Error(`${event.type} ${channel} ${key} at ${tick}`);
    if (begun) notes.push({ ...begun, to: tick / QUARTER });
    if (begun) open.delete(`${channel} ${key}`);
    else open.set(`${channel} ${key}`, { channel, key, velocity: event.velocity, from: tick / QUARTER });
  }
  if (open.size > 0) throw new Error(`never ended: ${[...open.keys()].join(', ')}`);
  return notes.toSorted((a, b) => a.from - b.from || a.key - b.key);
}
const said = ({ key, from, to }: Note): string => `${key} ${from} to ${to}`;
const channel = (notes: readonly Note[], which: number): readonly Note[] => notes.filter((n) => n.channel === which);
const strokes = (click: Partial<Click>, bars = 1, bpm = 120): readonly Note[] =>
  channel(notesOf([spanOf('a', bpm, bars, click)]), 9);

const sounded = (at: Ratio, length: Ratio, midi: number, gain = 0.5): SoundedNote => ({
  at,
  length,
  midi,
  gain,
  slurred: false,
});
const withModel = (bars: number | null, model: readonly SoundedNote[], part: Partial<Span> = {}): Span => ({
  ...spanOf('a', 120, bars, SILENT),
  model,
  ...part,
});
const events = <T extends MidiEvent['type']>(spans: readonly Span[], type: T, drone: Drone | null = null) =>
  (parseMidi(encodeMidi(spans, drone)).tracks[0] ?? []).filter((event) => event.type === type);

const ends = (spans: readonly Span[]): number =>
  (parseMidi(encodeMidi(spans, null)).tracks[0] ?? []).reduce((sum, { deltaTime }) => sum + deltaTime, 0) / QUARTER;

const programs = (drone: Drone | null): readonly string[] =>
  events([spanOf('a', 120, 1)], 'programChange', drone).map((event) =>
    event.type === 'programChange' ? `${event.channel}: ${event.programNumber}` : '',
  );

const clocks = (beat: Ratio): number => {
  const [event] = events([{ ...spanOf('a', 400, 1), tempo: { bpm: 400, beat } }], 'timeSignature');
  return event?.type === 'timeSignature' ? event.metronome : NaN;
};

describe('the file', () => {
  it('has a header of six bytes: format 0, one track, 3360 ticks; and the length of its track', () => {
    const bytes = Buffer.from(encodeMidi([spanOf('a', 120, 100, { subdivision: 4 })], null));
    expect(bytes.toString('hex', 0, 14)).toBe(`${Buffer.from('MThd').toString('hex')}00000006000000010d20`);
    expect(bytes.toString('latin1', 14, 18)).toBe('MTrk');
    expect(bytes.readUInt32BE(18)).toBe(bytes.length - 22);
    expect(bytes.subarray(-3)).toEqual(Buffer.from('ff2f00', 'hex'));
  });

  it('lasts as long as its spans, an endless one as none', () => {
    expect(ends([])).toBe(0);
    expect(ends([spanOf('a', 120, 3)])).toBe(12);
    expect(ends([spanOf('a', 120, null)])).toBe(0);
    expect(ends([spanOf('a', 120, null), spanOf('b', 60, 2)])).toBe(8);
  });

  it('names a trumpet for the model and, where there is a drone, a reed organ (General MIDI level 1, memory)', () => {
    expect(programs(null)).toEqual(['0: 56']);
    expect(programs(PLAIN_DRONE)).toEqual(['0: 56', '1: 20']);
  });

  it('writes 6/8 in dotted quarters as FF 58 04 06 03 24 08 (example of the specification, from memory)', () => {
    const sixEight: Span = {
      ...spanOf('a', 60, 1),
      meter: { count: 6, unit: 8, groups: [3, 3] },
      tempo: { bpm: 60, beat: ratio(3, 8) },
    };
    const hex = Buffer.from(encodeMidi([sixEight], null)).toString('hex');
    expect(hex).toContain('ff580406032408');
    // Dotted quarter = 60 is quarter = 90: 666,667 microseconds, 0A 2C 2B.
    expect(hex).toContain('ff51030a2c2b');
  });

  it('gives a click at least one clock and at most 255', () => {
    expect(clocks(ratio(1, 4))).toBe(24);
    expect(clocks(ratio(1, 256))).toBe(1);
    expect(clocks(ratio(3, 1))).toBe(255);
  });
});

describe('the click', () => {
  it('strikes a high wood block on the bar and on groups, a low one elsewhere; sticks have one side stick', () => {
    expect(strokes({ subdivision: 2 }).map(({ key }) => key)).toEqual([76, 77, 77, 77, 77, 77, 77, 77]);
    expect(strokes({ voice: 'stick' }).map(({ key }) => key)).toEqual([37, 37, 37, 37]);
    const grouped = { ...spanOf('a', 120, 1), meter: { count: 5, unit: 8, groups: [2, 3] } };
    const eighths: Span = { ...grouped, tempo: { bpm: 120, beat: ratio(1, 8) } };
    expect(channel(notesOf([eighths]), 9).map(({ key }) => key)).toEqual([76, 77, 76, 77, 77]);
  });

  it('lies on the strokes of each bar, a sixty-fourth long', () => {
    expect(strokes({ subdivision: 3, feel: 'even' }, 2).map(({ from }) => Math.round(from * 3))).toEqual(
      Array.from({ length: 24 }, (_, k) => k),
    );
    for (const { from, to } of strokes({ subdivision: 8 })) expect(to - from).toBeCloseTo(1 / 16, 9);
  });

  it('is as loud as its level and its span: 127 at full, never 0, which would end a note', () => {
    const levels = { bar: 1, group: 1, beat: 0.5, subdivision: 0.001 };
    expect(strokes({ levels, subdivision: 2 }).map(({ velocity }) => velocity)).toEqual([127, 1, 64, 1, 64, 1, 64, 1]);
    const soft = { ...spanOf('a', 120, 1, { levels }), gain: 0.5 };
    expect(channel(notesOf([soft]), 9).map(({ velocity }) => velocity)).toEqual([64, 32, 32, 32]);
    const loud = { ...spanOf('a', 120, 1, { levels }), gain: 3 };
    expect(channel(notesOf([loud]), 9)[0]?.velocity).toBe(127);
  });

  it('is silent in silent bars, and on the beats that chance has chosen', () => {
    const bars = strokes({ silentBars: { play: 1, silent: 2 } }, 5).map(({ from }) => Math.floor(from / 4));
    expect(bars).toEqual([0, 0, 0, 0, 3, 3, 3, 3]);
    expect(strokes({ silentChance: { p: 1, seed: 3 } }, 5)).toEqual([]);
    const some = strokes({ silentChance: { p: 0.5, seed: 3 } }, 25);
    expect(some.length).toBeGreaterThan(30);
    expect(some.length).toBeLessThan(70);
  });

  it('goes on from span to span', () => {
    const chain = notesOf([spanOf('a', 120, 1), spanOf('b', 60, 2), spanOf('c', 90, 1)]);
    expect(chain.map(({ from }) => from)).toEqual(Array.from({ length: 16 }, (_, k) => k));
    expect(chain.filter(({ key }) => key === 76).map(({ from }) => from)).toEqual([0, 4, 8, 12]);
  });
});

describe('the model', () => {
  const twoBars = [sounded(ratio(0), ratio(1), 60), sounded(ratio(1), ratio(1), 62)];

  it('has its notes where and as long as they are, at their level', () => {
    const model = [sounded(ratio(0), ratio(1, 8), 60, 1), sounded(ratio(3, 8), ratio(5, 8), 64.4, 0.5)];
    const notes = notesOf([withModel(1, model, { gain: 0.5 })]);
    expect(notes.map(said)).toEqual(['60 0 to 0.5', '64 1.5 to 4']);
    expect(notes.map(({ velocity }) => velocity)).toEqual([64, 32]);
    expect(notes.every((note) => note.channel === 0)).toBe(true);
  });

  it('begins again after its bars, however many it has', () => {
    expect(notesOf([withModel(4, twoBars)]).map(said)).toEqual(['60 0 to 4', '62 4 to 8', '60 8 to 12', '62 12 to 16']);
    const long = [sounded(ratio(0), ratio(9, 8), 60)];
    expect(notesOf([withModel(4, long)]).map(said)).toEqual(['60 0 to 4.5', '60 8 to 12.5']);
    const short = [sounded(ratio(0), ratio(1, 4), 60)];
    expect(notesOf([withModel(2, short)]).map(said)).toEqual(['60 0 to 1', '60 4 to 5']);
  });

  it('is cut where its span ends: no note hangs, none begins there', () => {
    expect(notesOf([withModel(3, twoBars)]).map(said)).toEqual(['60 0 to 4', '62 4 to 8', '60 8 to 12']);
    const over = [sounded(ratio(3, 4), ratio(1, 2), 60), sounded(ratio(1), ratio(1), 65)];
    expect(notesOf([withModel(1, over), withModel(1, over)]).map(said)).toEqual(['60 3 to 4', '60 7 to 8']);
  });

  it('may repeat a pitch at once: the one ends before the other begins; and no note is shorter than a tick', () => {
    const same = [0, 1, 2, 3].map((k) => sounded(ratio(k, 4), ratio(1, 4), 60));
    expect(notesOf([withModel(1, same)]).map(said)).toEqual(['60 0 to 1', '60 1 to 2', '60 2 to 3', '60 3 to 4']);
    const [point] = notesOf([withModel(1, [sounded(ratio(0), ratio(1, 1_000_000), 60)])]);
    expect((point?.to ?? 0) * QUARTER).toBe(1);
  });
});

describe('the order of events', () => {
  it('is that of time, whatever the order of the notes; at one moment notes end first and begin last', () => {
    const backwards = [2, 1, 0].map((k) => sounded(ratio(k, 4), ratio(1, 4), 60));
    expect(notesOf([withModel(1, backwards)], PLAIN_DRONE).map(said)).toEqual([
      '58 0 to 4',
      '60 0 to 1',
      '60 1 to 2',
      '60 2 to 3',
    ]);
    const full = withModel(1, [sounded(ratio(0), ratio(1), 60)], { click: spanOf('a', 120, 1).click });
    let tick = 0;
    const atTheBarLine = (parseMidi(encodeMidi([full, full], null)).tracks[0] ?? []).flatMap((event) => {
      tick += event.deltaTime;
      return tick === 4 * QUARTER ? [event.type] : [];
    });
    expect(atTheBarLine).toEqual(['noteOff', 'setTempo', 'timeSignature', 'noteOn', 'noteOn']);
  });
});

describe('the drone', () => {
  it('holds its voices from the beginning to the end: octave 12, fifth 7, thirds 4 and 3 semitones up', () => {
    const drone: Drone = {
      ...PLAIN_DRONE,
      tonic: 58.3,
      voices: ['tonic', 'minor-third', 'major-third', 'fifth', 'octave'],
      gain: 0.5,
    };
    const notes = channel(notesOf([spanOf('a', 120, 2), spanOf('b', 60, 1)], drone), 1);
    expect(notes.map(said)).toEqual([58, 61, 62, 65, 70].map((key) => `${key} 0 to 12`));
    expect(notes.map(({ velocity }) => velocity)).toEqual([64, 64, 64, 64, 64]);
  });
});
