/** A tone half hour in the built program: the breath, long tones over a low drone, flow, harmonics by the clock. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import { LONG_ENOUGH, strongestPartial } from '../audio/fft.ts';
import { record } from '../bench/live/recorder.ts';
import { RATE, type Server, startServer } from '../bench/live/server.ts';
import { itWith } from '../programs.ts';
import { inSitting, standside, writeRoutine } from './program.ts';
import { SMALL, type Terminal, eventually, leftWith } from './terminal.ts';

const withPulse = itWith('tmux', 'pulseaudio', 'parec');

const TONE = `
routine: Tone half hour
instrument: flute
breaks: none
exercises:
  empty-breath: {title: Let it come back, kind: body, breaths: 3, each breath: {out: 6, wait: 2, back: 4}}
  low-tones:
    title: Low long tones
    kind: sound
    register: low
    pattern: "1:1 | 7, | 1 | 2 | 1 | 7,"
    keys: [F]
    drone: yes
  pulses:
    title: Pulses
    kind: sound
    meter: 2/4
    pattern: "1:1/2"
    keys: [G]
    articulations: [pulses 2 to 4]
    rotate: {order: own, change: repetition}
    tempo: 160 -> 200
  octaves:
    title: Octave slurs
    kind: flexibility
    meter: 2/4
    pattern: "1:1/4 1' | 1 1'"
    tempo: 96 -> 132
    flow: yes
  vocalise:
    title: Vocalise
    kind: music
    meter: 2/4
    pattern: "1:1/2 | 2"
    keys: [A]
    layers: [sing, sing and play, play]
    tempo: 160 -> 200
  harmonics: {title: Harmonics, kind: sound, work: clock, material: own notes, drone: yes, keys: [D]}
parts:
  - part: Tone
    blocks:
      - {play: empty-breath, minutes: 3, least: 3, always: yes}
      - {play: low-tones, minutes: 4, least: 4, always: yes}
      - {play: pulses, minutes: 4, least: 4, always: yes}
      - {play: octaves, minutes: 5, least: 5, always: yes}
      - {play: vocalise, minutes: 4, least: 4, always: yes}
      - {play: harmonics, minutes: 5, least: 5, always: yes}
`;

/** So many samples of what sounds now, from the sink's monitor. */
async function heard(server: Server, samples: number): Promise<Float32Array> {
  const recorder = record(server);
  const began = Date.now();
  const lasts = (samples / RATE) * 1000 + 1500;
  await eventually(() => Date.now() - began > lasts, 'a recording', lasts + 5000);
  return recorder.stop().samples.slice(-samples);
}

/** Marked clean in the breath, or after it. */
async function markClean(terminal: Terminal): Promise<void> {
  await terminal.until(/mark\?|MARK\?/);
  await terminal.press('c');
  await terminal.untilGone(/mark\?|MARK\?/);
}

const peak = (samples: Float32Array): number => samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
/** Equal temperament at A = 440 Hz: mathematics, ISO 16. */
const cents = (heardAs: number, midi: number): number => 1200 * Math.log2(heardAs / (440 * 2 ** ((midi - 69) / 12)));

/** Goes on playing for so many seconds, marks each repetition during the next, and says what share of it was played. */
async function shareOfPlaying(terminal: Terminal, seconds: number): Promise<number> {
  let [all, played] = [0, 0];
  for (const end = Date.now() + seconds * 1000; Date.now() < end;) {
    const screen = await terminal.screen();
    all += 1;
    if (screen.includes('PLAY ·')) played += 1;
    if (screen.includes('mark the last?')) await terminal.press('c');
  }
  return played / all;
}

/** The left half of the rows under the head. */
const largeWords = (screen: string): string =>
  screen
    .split('\n')
    .slice(1, 6)
    .map((row) => row.slice(0, 48).trimEnd())
    .join('\n');

describe('a tone half hour', () => {
  withPulse(
    'breathes, tunes to a drone that can be heard and moved, runs on, and is silent while paused',
    inSitting(async (sitting) => {
      const server = await startServer(mkdtempSync(join(tmpdir(), 'standside-server-')));
      try {
        writeRoutine(sitting, 'journey', TONE);
        const terminal = await sitting.terminal(SMALL, server.own);
        await terminal.type(standside(sitting));
        await terminal.until(/▶ Let it come back/);
        await terminal.press('Enter');
        await terminal.until('Ready when you are');
        await terminal.press('Space');
        await terminal.until('wait 1 of 2 s', 15_000);
        expect(await terminal.screen()).toContain('Dizzy? Stop');
        await terminal.press('c');
        await terminal.untilGone('Dizzy?');

        await terminal.press('n');
        await terminal.until('Low long tones  F');
        await terminal.press('Space');
        await terminal.until('drone on');
        const tones = await terminal.until('1 of 4 s', 15_000);
        for (const bar of [1, 2, 3, 4, 5, 6]) expect(tones).toMatch(new RegExp(`[ ▼]${bar}( |$)`, 'm'));
        expect(tones).toMatch(/─,$/m);
        // A low F on the flute is F4; its drone lies below it.
        expect(tones).toContain('│F4');
        expect(Math.abs(cents(strongestPartial(await heard(server, LONG_ENOUGH), RATE), 53))).toBeLessThan(0.05);
        await terminal.press('n');
        await terminal.until('Pulses  G  pulses 2');
        await terminal.press('Space');
        await markClean(terminal);
        await terminal.until('Pulses  G  pulses 3');
        await markClean(terminal);
        await terminal.until('Pulses  G  pulses 4');
        await terminal.press('n');
        await terminal.until('Octave slurs');
        await terminal.press('Space');
        await terminal.until('PLAY ·', 15_000);
        expect(await shareOfPlaying(terminal, 25)).toBeGreaterThanOrEqual(0.8);
        await terminal.press('n');
        await terminal.until('Vocalise');
        await terminal.press('Space');
        const words = [await terminal.until('COUNT-IN')];
        await markClean(terminal);
        words.push(await terminal.until('COUNT-IN'));
        await markClean(terminal);
        words.push(await terminal.until('COUNT-IN'));
        // What each repetition is for stands there in large letters, each time something else.
        expect(new Set(words.map(largeWords)).size).toBe(3);
        await terminal.press('n');

        // The block before was running, so its clock runs at once, and its drone sounds.
        await terminal.until('D · drone on');
        expect(Math.abs(cents(strongestPartial(await heard(server, LONG_ENOUGH), RATE), 62))).toBeLessThan(0.05);
        await terminal.press('l');
        await terminal.until('drone on D♭');
        expect(Math.abs(cents(strongestPartial(await heard(server, LONG_ENOUGH), RATE), 61))).toBeLessThan(0.05);
        await terminal.press('Space');
        await terminal.until('space start');
        expect(peak(await heard(server, RATE))).toBe(0);
        await terminal.press('q');
        await terminal.until(leftWith(0));
        const blocks = sitting.entries().filter(({ kind }) => kind === 'block');
        expect(new Set(blocks.flatMap((entry) => (entry.kind === 'block' ? [entry.block] : []))).size).toBe(6);
        const octaves = blocks.findLast((entry) => entry.kind === 'block' && entry.block === 'octaves');
        expect(octaves).toMatchObject({ length: 300 });
        const played = octaves?.kind === 'block' ? octaves.played : 0;
        expect(played).toBeGreaterThan(25);
        expect(played).toBeLessThan(60);
        expect(sitting.entries().filter(({ kind }) => kind === 'mark').length).toBeGreaterThan(4);
      } finally {
        server.stop();
      }
    }),
    180_000,
  );
});
