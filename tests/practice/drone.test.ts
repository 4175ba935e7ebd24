/** The drone to tune to: where it stands, what it is made of, how it is moved, and in which blocks it is heard. */
import { describe, expect, it } from 'vitest';
import { dronePlace, steppedName, voicesIn } from '../../src/music/pitch/drone-place.ts';
import { INSTRUMENTS, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { SCALES, type Scale } from '../../src/music/pitch/scales.ts';
import type { Drone } from '../../src/music/sound/sound-commands.ts';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import type { Routine } from '../../src/plan/routine/routine.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { planned } from '../../src/practice/screens/today-keys.ts';
import { openStand } from '../../src/practice/stand.ts';
import { DAY, sit } from './daily-sitting.ts';
import { EXERCISE, rehearse } from './rehearsal.ts';

const scale = (name: string): Scale => SCALES.find((one) => one.name === name)!;
const line = (key: string) => ({ exercise: EXERCISE.id, key, articulation: 'slurred' });

describe('the octave of a drone', () => {
  const played = { lowest: 52, highest: 67 };

  it('is below the notes or with the lowest of them, among them, or above', () => {
    expect(dronePlace(60, played, 'below')).toBe(48);
    expect(dronePlace(60, played, 'at')).toBe(60);
    expect(dronePlace(60, played, 'above')).toBe(72);
    // E 3 is the lowest note itself, G 4 the highest.
    expect([dronePlace(64, played, 'below'), dronePlace(64, played, 'at')]).toEqual([52, 52]);
    expect(dronePlace(55, played, 'above')).toBe(67);
  });

  it('comes back to where it can be heard and borne', () => {
    expect(dronePlace(60, { lowest: 22, highest: 40 }, 'below')).toBe(24);
    expect(dronePlace(60, { lowest: 90, highest: 107 }, 'above')).toBe(96);
    expect(dronePlace(61, { lowest: 90, highest: 107 }, 'above')).toBe(85);
  });

  it('is at or below the lowest note of every pattern, for every instrument and key', () => {
    for (const instrument of INSTRUMENTS)
      for (const key of ['C', 'F#', 'Bb', 'A minor']) {
        const { drone, drill } = prepareFor(instrument, 440)(
          { ...EXERCISE, notesPerBeat: 1, pattern: '1 2 3 4 | 5 4 3 2' },
          line(key),
        );
        const lowest = Math.min(...drill!.notes.flatMap(({ pitch }) => (pitch ? [pitch.concert] : [])));
        // Below A0, 27.5 Hz, nothing is heard as a tone; there it stands an octave higher.
        if (lowest >= 33) expect(drone.tonic, `${instrument.id} ${key}`).toBeLessThanOrEqual(lowest);
        expect(drone.tonic).toBeGreaterThanOrEqual(21);
      }
  });

  it('is that of the register where there are no notes: a flute’s low one begins on B 3, its high one on D 6', () => {
    const flute = instrumentNamed('flute')!;
    const inRegister = (register: 'low' | 'high') =>
      prepareFor(flute, 440)({ ...EXERCISE, place: { register } }, line('B')).drone.tonic;
    expect(inRegister('low')).toBe(59);
    expect(inRegister('high')).toBe(83);
    expect(prepareFor(flute, 440)(EXERCISE, line('B'), { from: 'B4' }).drone.tonic).toBe(71);
  });

  it('is the exercise’s to say, else the player’s', () => {
    const cornet = instrumentNamed('cornet')!;
    const liked = { timbre: 'organ', octave: 'above' } as const;
    const exercise = { ...EXERCISE, notesPerBeat: 1, pattern: '1 2 3 4 | 5 4 3 2' };
    const below = prepareFor(cornet, 440)(exercise, line('C')).drone;
    const above = prepareFor(cornet, 440, undefined, liked)(exercise, line('C')).drone;
    expect([below.timbre, above.timbre]).toEqual(['reed', 'organ']);
    expect(above.tonic - below.tonic).toBe(12);
    const said = { ...exercise, drone: { octave: 'below', timbre: 'pure' } as const };
    expect(prepareFor(cornet, 440, undefined, liked)(said, line('C')).drone).toEqual({ ...below, timbre: 'pure' });
    const blocks = prepareFor(cornet, 440)(said, line('C'), undefined, { octave: 'at', tuning: 'equal' }).drone;
    expect(blocks).toMatchObject({ tonic: below.tonic, timbre: 'pure', tuning: 'equal' });
  });
});

describe('the voices of a drone', () => {
  const third: Drone['voices'] = ['tonic', 'major-third', 'fifth'];

  it('have a third only where it is the key’s own', () => {
    expect(voicesIn(null, scale('major'), third)).toEqual(third);
    expect(voicesIn(null, scale('harmonic minor'), third)).toEqual(['tonic', 'fifth']);
    expect(voicesIn(scale('natural minor'), scale('chromatic'), third)).toEqual(['tonic', 'fifth']);
    expect(voicesIn(null, scale('chromatic'), third)).toEqual(third);
    expect(voicesIn(null, scale('major'), ['tonic', 'minor-third'])).toEqual(['tonic']);
    expect(voicesIn(scale('natural minor'), scale('natural minor'), ['minor-third'])).toEqual(['minor-third']);
    expect(voicesIn(null, scale('dorian'), ['major-third'])).toEqual(['tonic']);
  });

  it('are the tonic alone unless others are asked for, in a key as it is put on the stand', () => {
    const prepare = prepareFor(instrumentNamed('flute')!, 440);
    expect(prepare({ ...EXERCISE, drone: {} }, line('C')).drone.voices).toEqual(['tonic']);
    const asked = { ...EXERCISE, drone: { voices: third } };
    expect(prepare(asked, line('Eb')).drone.voices).toEqual(third);
    expect(prepare(asked, line('E minor')).drone.voices).toEqual(['tonic', 'fifth']);
  });
});

// Semitones to names: the chromatic scale of any handbook, flats or sharps as lie nearer.
it.each([
  ['C', 1, 'Db'],
  ['C', -1, 'B'],
  ['C', 6, 'F#'],
  ['Bb', 1, 'B'],
  ['Bb', -1, 'A'],
  ['F#', 1, 'G'],
  ['F#', 6, 'C'],
  ['Db', -1, 'C'],
  ['E', 12, 'E'],
  ['C#', 0, 'C#'],
])('a drone on %s moved by %i is called %s', (tonic, by, name) => {
  expect(steppedName(tonic, by)).toBe(name);
});

describe('a drone moved while playing', () => {
  const tonics = ({ commands }: ReturnType<typeof rehearse>) =>
    commands.flatMap((command) => (command.ask === 'drone' ? [command.drone?.tonic ?? null] : []));

  it('goes up and down by semitones, an octave at most, and back to the tonic', () => {
    const one = rehearse();
    one.press('drone', 'drone-up', 'drone-up', 'drone-down', 'drone-home', 'drone-down');
    expect(tonics(one)).toEqual([58, 59, 60, 59, 58, 57]);
    expect(one.answer()).toBe('Drone on B.');
    one.press('drone-home');
    expect(one.answer()).toBe('Drone on the tonic, C.');
    for (let k = 0; k < 20; k += 1) one.press('drone-up');
    expect(one.state().droneStep).toBe(12);
  });

  it('is silent while paused, and comes back where it was moved to', () => {
    const one = rehearse();
    one.press('drone', 'start-pause', 'drone-up', 'start-pause');
    expect(tonics(one)).toEqual([58, 59, null]);
    one.press('drone-up');
    expect(tonics(one)).toEqual([58, 59, null]);
    one.press('start-pause');
    expect(tonics(one)).toEqual([58, 59, null, 60]);
  });

  it('that is off is not moved, and says how to start it', () => {
    const one = rehearse();
    one.press('drone-up');
    expect(tonics(one)).toEqual([]);
    expect(one.answer()).toBe('The drone is off: d starts it.');
  });
});

const FILE = `
routine: Tone
instrument: flute
exercises:
  breaths: {breaths: 4, kind: sound}
  tones: {work: clock, kind: sound, material: own notes}
  runs: {pattern: 1 2 3 4 | 5, keys: [C]}
parts:
  - part: Tone
    blocks:
      - {play: breaths, minutes: 1, drone: {timbre: pure}}
      - {play: tones, minutes: 1, drone: {octave: above, voices: [tonic, fifth]}}
      - {play: runs, minutes: 1, drone: yes}
      - {play: tones, minutes: 1}
`;

function read(text: string): Routine | string {
  const parsed = parseRoutine(text, 'a.yaml', () => ({ trouble: 'there is no such file.' }));
  return 'troubles' in parsed ? parsed.troubles.map(troubleLine).join() : parsed.routine;
}

function sitting(text: string): ReturnType<typeof sit> {
  const routine = read(text);
  if (typeof routine === 'string') throw new Error(routine);
  const given = { today: DAY, routines: [routine], exercises: routine.exercises, lines: {}, records: [] };
  const dials = { click: 0.5, drone: 0.3, tapOffset: 0 };
  const prepare = prepareFor(instrumentNamed('flute')!, 440);
  return sit([], planned(openStand({ ...given, prepare, notices: [], dials })));
}

describe('a drone in a block', () => {
  const soundingNow = ({ commands }: ReturnType<typeof sit>): Drone | null =>
    commands().reduce<Drone | null>((drone, command) => (command.ask === 'drone' ? command.drone : drone), null);

  it('is heard in blocks of breaths, by the clock and with a ladder, and quiet while each is paused', () => {
    const sat = sitting(FILE);
    sat.press('open');
    for (const [start, drone] of [
      ['play-block', { timbre: 'pure', voices: ['tonic'] }],
      ['play-block', { timbre: 'reed', voices: ['tonic', 'fifth'] }],
      ['start-pause', { timbre: 'reed', voices: ['tonic'] }],
    ] as const) {
      expect(soundingNow(sat)).toBeNull();
      sat.press(start);
      expect(soundingNow(sat)).toMatchObject(drone);
      sat.press(start);
      expect(soundingNow(sat)).toBeNull();
      sat.press(start, 'drone-down');
      expect(soundingNow(sat)).toMatchObject(drone);
      sat.press('pause-block');
      expect(soundingNow(sat)).toBeNull();
      sat.press('next-block');
    }
  });

  it('is switched on by hand where neither block nor exercise says anything of it', () => {
    const sat = sitting(FILE);
    sat.press('open', 'next-block', 'next-block', 'next-block', 'play-block');
    expect(soundingNow(sat)).toBeNull();
    sat.press('drone');
    expect(soundingNow(sat)).toMatchObject({ timbre: 'reed', voices: ['tonic'], tonic: 60 });
    sat.press('drone-up');
    expect(soundingNow(sat)).toMatchObject({ tonic: 61 });
  });

  it('stands where the block says, whatever the exercise says', () => {
    const sat = sitting(FILE.replace('work: clock,', 'work: clock, drone: {octave: at, timbre: organ},'));
    sat.press('open', 'next-block', 'play-block');
    // A flute is at ease up to G6, 91: the C above it is 96.
    expect(soundingNow(sat)).toMatchObject({ timbre: 'organ', tonic: 96 });
    const without = sitting(
      FILE.replace('{play: runs, minutes: 1, drone: yes}', '{play: runs, minutes: 1, drone: no}'),
    );
    without.press('open', 'next-block', 'next-block', 'start-pause');
    expect(soundingNow(without)).toBeNull();
  });

  it.each([
    ['{do: Stretch, drone: yes}', "'drone' needs a key; write it beside play or draw, or leave it out."],
    ['{play: runs, drone: {octave: under}}', '\'octave\' is "under"; write one of below, at, above.'],
    ['{play: runs, drone: {timbre: gong}}', '\'timbre\' is "gong"; write one of reed, organ, string, pure.'],
    ['{play: runs, drone: {tone: reed}}', "there is no 'tone' in a drone"],
    ['{play: runs, drone: loud}', '\'drone\' is "loud"; write yes, no, or voices, tuning, timbre and octave.'],
  ])('of a wrong block is one clear sentence: %s', (block, sentence) => {
    expect(read(FILE.replace('{play: tones, minutes: 1}', block))).toContain(sentence);
  });
});
