import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { DEFAULT_INSTRUMENT, INSTRUMENTS, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { midiOf, readPitch, withSigns, withoutOctave } from '../../src/music/pitch/note-names.ts';

const ids = (family: string) => INSTRUMENTS.filter((one) => one.family === family).map((one) => one.id);

describe('instruments', () => {
  // Orchestration handbooks, from memory: written to sounding pitch in semitones.
  it.each([
    ['cornet', -2],
    ['trumpet', -2],
    ['flugelhorn', -2],
    ['trombone-treble-clef', -14],
    ['soprano-cornet', 3],
    ['tenor-horn', -9],
    ['baritone', -14],
    ['euphonium', -14],
    ['bb-bass', -26],
    ['eb-bass', -21],
    ['horn', -7],
    ['clarinet', -2],
    ['a-clarinet', -3],
    ['eb-clarinet', 3],
    ['bass-clarinet', -14],
    ['soprano-saxophone', -2],
    ['alto-saxophone', -9],
    ['tenor-saxophone', -14],
    ['baritone-saxophone', -21],
    ['flute', 0],
    ['piccolo', 12],
    ['alto-flute', -5],
    ['bass-flute', -12],
    ['english-horn', -7],
    ['descant-recorder', 12],
  ])('%s sounds %i semitones from the page', (id, semitones) => {
    expect(instrumentNamed(id)?.transposition).toBe(semitones);
  });

  it('have an easy range of at least an octave and a fifth inside the full one, and names of their own', () => {
    for (const one of INSTRUMENTS) {
      const [low, easyLow, easyHigh, high] = [one.low, one.easyLow, one.easyHigh, one.high].map(midiOf);
      expect(low, one.id).toBeLessThanOrEqual(easyLow ?? 0);
      expect((easyHigh ?? 0) - (easyLow ?? 0), one.id).toBeGreaterThanOrEqual(19);
      expect(easyHigh, one.id).toBeLessThanOrEqual(high ?? 0);
    }
    expect(new Set(INSTRUMENTS.map((one) => one.id)).size).toBe(INSTRUMENTS.length);
  });

  it('are of the family that any orchestration handbook gives them', () => {
    expect(ids('brass').every((id) => /cornet|trumpet|horn|bone|tuba|euphonium|baritone$|bass$/u.test(id))).toBe(true);
    expect(ids('reed').every((id) => /clarinet|saxophone|oboe|english-horn|bassoon/u.test(id))).toBe(true);
    expect(ids('flute')).toEqual(['flute', 'flute-c-foot', 'piccolo', 'alto-flute', 'bass-flute', 'descant-recorder']);
    expect(ids('brass').length + ids('reed').length + ids('flute').length).toBe(INSTRUMENTS.length);
    expect(ids('brass')).toContain('cornet');
    expect(ids('reed')).toContain('oboe');
  });

  it('read the bass clef where they are written at pitch in it (common practice, no source)', () => {
    expect(INSTRUMENTS.filter((one) => one.clef === 'bass').map((one) => one.id)).toEqual([
      'euphonium-bass-clef',
      'trombone',
      'bass-trombone',
      'tuba',
      'bassoon',
    ]);
    expect(INSTRUMENTS.every((one) => one.clef === 'treble' || one.transposition === 0)).toBe(true);
    expect(INSTRUMENTS.every((one) => one.clef === 'treble' || one.clef === 'bass')).toBe(true);
  });

  it('are named in words that say what the short name says', () => {
    for (const { id, name } of INSTRUMENTS)
      for (const word of id.replace(/^(eb|bb)-/u, '$1 ').split(/[ -]/u)) {
        const wanted = { eb: 'e-flat', bb: 'b-flat', c: 'in c' }[word] ?? word;
        expect(name.toLowerCase(), id).toContain(wanted);
      }
    expect(new Set(INSTRUMENTS.map((one) => one.name)).size).toBe(INSTRUMENTS.length);
    expect(instrumentNamed(DEFAULT_INSTRUMENT)?.name).toBe('B-flat cornet');
  });

  it.each([
    ['Bb cornet', 'cornet'],
    ['B♭ trumpet', 'trumpet'],
    [' eb TENOR horn ', 'tenor-horn'],
    ['Horn in F', 'horn'],
    ['euphonium, bass clef', 'euphonium-bass-clef'],
    ['EB-BASS', 'eb-bass'],
  ])('are found under what a player types: %s', (typed, id) => {
    expect(instrumentNamed(typed)?.id).toBe(id);
  });

  it.each(['', 'B-flat', 'Db cornet', 'my Bb cornet'])('are not found under %j', (typed) => {
    expect(instrumentNamed(typed)).toBeNull();
  });

  it('are found by either name', () => {
    expect(instrumentNamed('B-Flat Cornet')?.id).toBe('cornet');
    expect(instrumentNamed('ophicleide')).toBeNull();
  });
});

describe('names of notes', () => {
  // The tonal library is the reference for MIDI numbers.
  it('have the MIDI numbers that tonal gives them', () => {
    for (const letter of 'CDEFGAB')
      for (const sign of ['', '#', 'b', '##', 'bb'])
        for (const octave of [0, 3, 4, 8]) {
          const name = `${letter}${sign}${octave}`;
          expect(midiOf(name), name).toBe(Note.midi(name));
        }
  });

  it('can be shown with signs', () => {
    expect(['Bb4', 'F#3', 'Bbb', 'Fx', 'B', 'F##5'].map((name) => withSigns(name))).toEqual([
      'B♭4',
      'F♯3',
      'B♭♭',
      'Fx',
      'B',
      'Fx5',
    ]);
    expect(withSigns('Bb', true)).toBe('Bb');
    expect(withoutOctave('Bb4')).toBe('Bb');
  });

  it('are read with any sign in letters of any size', () => {
    expect(readPitch('Bb4')).toEqual({ letter: 'B', alter: -1, octave: 4 });
    expect(readPitch(' f♯3 ')).toEqual({ letter: 'F', alter: 1, octave: 3 });
    expect(readPitch('Fx-1')).toEqual({ letter: 'F', alter: 2, octave: -1 });
    expect(readPitch('G##5')).toEqual({ letter: 'G', alter: 2, octave: 5 });
    expect(readPitch('e♭♭2')).toEqual({ letter: 'E', alter: -2, octave: 2 });
    expect(readPitch('bb3')).toEqual({ letter: 'B', alter: -1, octave: 3 });
  });

  it('have numbers, or it is a mistake of ours', () => {
    expect(midiOf('A4')).toBe(69);
    expect(() => midiOf('H4')).toThrow(new RangeError('not a note: H4'));
  });

  it('lose their octave, above and below zero', () => {
    expect(['C4', 'Bb-1', 'F#10', 'G'].map(withoutOctave)).toEqual(['C', 'Bb', 'F#', 'G']);
  });

  it('are refused with a word before or behind', () => {
    expect(['xC4', 'C4x', 'C44', 'C###4', 'Cbbb4', 'C4 D4'].map(readPitch)).toEqual([
      null,
      null,
      null,
      null,
      null,
      null,
    ]);
  });

  it('are refused when they are none', () => {
    expect([readPitch('H4'), readPitch('C'), readPitch('C#b4'), readPitch('')]).toEqual([null, null, null, null]);
  });
});
