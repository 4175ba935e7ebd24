import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { ratio } from '../../src/music/time/ratio.ts';
import type { Span } from '../../src/music/sound/sound-commands.ts';
import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import { TICKS_PER_QUARTER, variableLength } from '../../src/audio/file/midi-bytes.ts';
import { encodeMidi } from '../../src/audio/file/midi.ts';
import { lengthOf } from '../../src/audio/file/rendering.ts';
import { itWith } from '../programs.ts';
import { run, scratch } from './programs.ts';
import { spanOf } from './spans.ts';

const seven: Span = {
  ...spanOf('seven', 180, 2, { subdivision: 2 }),
  meter: { count: 7, unit: 8, groups: [2, 2, 3] },
  tempo: { bpm: 180, beat: ratio(1, 8) },
};
const chain = [spanOf('in', 120, 1), spanOf('play', 120, 4, { subdivision: 3 }), seven];

const slow = (bpm: number): Span => ({ ...seven, tempo: { bpm, beat: ratio(1, 16) } });

describe('Standard MIDI Files', () => {
  it(
    'write numbers as the specification does (Standard MIDI-File Format Spec. 1.1, table of variable-length ' +
      'quantities)',
    () => {
      const table = [
        [0x40, '40'],
        [0x80, '8100'],
        [0x2000, 'c000'],
        [0x3fff, 'ff7f'],
        [0x1fffff, 'ffff7f'],
        [0x8000000, 'c0808000'],
      ] as const;
      for (const [value, hex] of table) expect(Buffer.from(variableLength(value)).toString('hex')).toBe(hex);
    },
  );

  it('write 120 as FF 51 03 07 A1 20 and 4/4 as FF 58 04 04 02 18 08 (same specification)', () => {
    const hex = Buffer.from(encodeMidi([spanOf('a', 120, 1)], null)).toString('hex');
    expect(hex).toContain('ff510307a120');
    expect(hex).toContain('ff580404021808');
  });

  it('are what an independent parser reads: meters, tempos, and the click on channel 10', () => {
    const { header, tracks } = parseMidi(encodeMidi(chain, PLAIN_DRONE));
    expect(header).toMatchObject({ format: 0, numTracks: 1, ticksPerBeat: TICKS_PER_QUARTER });
    let tick = 0;
    const events = (tracks[0] ?? []).map((event) => ({ ...event, tick: (tick += event.deltaTime) }));
    const meters = events.flatMap((e) =>
      e.type === 'timeSignature' ? [`${e.numerator}/${e.denominator} at ${e.tick / TICKS_PER_QUARTER}`] : [],
    );
    expect(meters).toEqual(['4/4 at 0', '4/4 at 4', '7/8 at 20']);
    const tempos = events.flatMap((e) => (e.type === 'setTempo' ? [e.microsecondsPerBeat] : []));
    // Eighth = 180 is quarter = 90: 60e6 / 90.
    expect(tempos).toEqual([500_000, 500_000, 666_667]);
    const struck = events.filter((e) => e.type === 'noteOn' && e.channel === 9);
    expect(struck).toHaveLength(4 + 4 * 12 + 2 * 14);
    const ons = events.filter((e) => e.type === 'noteOn').length;
    expect(events.filter((e) => e.type === 'noteOff')).toHaveLength(ons);
    expect(events.at(-1)).toMatchObject({ type: 'endOfTrack', tick: (20 + 7) * TICKS_PER_QUARTER });
    expect(struck.filter((e) => e.type === 'noteOn' && e.noteNumber === 76).length).toBe(1 + 4 + 2 * 3);
  });

  it('carry the pattern as notes where there is one', () => {
    const model = [60, 62, 64].map((midi, k) => ({
      at: ratio(k, 4),
      length: ratio(1, 4),
      midi,
      gain: 0.5,
      slurred: false,
    }));
    const { tracks } = parseMidi(encodeMidi([{ ...spanOf('a', 120, 2), model }], null));
    const notes = (tracks[0] ?? []).flatMap((e) => (e.type === 'noteOn' && e.channel === 0 ? [e.noteNumber] : []));
    expect(notes).toEqual([60, 62, 64, 60, 62, 64]);
  });

  it('cannot hold a quarter of more than 16.7 seconds', () => {
    expect(() => encodeMidi([slow(10)], null)).toThrow('a MIDI file holds no quarter longer than 16.7 seconds');
    // Sixteenth = 14.305 is a quarter of 16.777351 s, 14.306 one of 16.776178; 0xffffff microseconds are 16.777215.
    expect(() => encodeMidi([slow(14.305)], null)).toThrow(RangeError);
    expect(() => encodeMidi([slow(14.306)], null)).not.toThrow();
  });

  const soundFont = '/usr/share/sounds/sf2/FluidR3_GM.sf2';
  itWith(
    'fluidsynth',
    soundFont,
    'sox',
  )('last as long in fluidsynth as the timeline says', () => {
    const folder = scratch();
    const [file, wav, trimmed] = ['a.mid', 'a.wav', 'b.wav'].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    const long = [spanOf('in', 90, 1), spanOf('play', 90, 6)];
    writeFileSync(file, encodeMidi(long, null));
    run('fluidsynth', ['-ni', '-q', '-R', '0', '-C', '0', '-F', wav, '-r', '48000', soundFont, file]);
    run('sox', [wav, trimmed, 'reverse', 'silence', '1', '0.01', '0.1%', 'reverse', 'silence', '1', '0.0005', '1%']);
    // From the first stroke to the end of the last one, a beat before the end: 27 beats and what a wood block rings.
    const length = Number(run('sox', ['--i', '-D', trimmed]));
    const beat = 60 / 90;
    expect(lengthOf({ spans: long, drone: null, volume: { click: 1, drone: 1 } })).toBeCloseTo(28 * beat, 9);
    expect(length).toBeGreaterThan(27 * beat);
    expect(length).toBeLessThan(28 * beat + 0.1);
  });
});
