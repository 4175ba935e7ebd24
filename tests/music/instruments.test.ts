import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { INSTRUMENTS, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { midiOf, readPitch, withSigns, withoutOctave } from '../../src/music/pitch/note-names.ts';

describe('instruments', () => {
  // Orchestration handbooks, from memory: written to sounding pitch in semitones.
  it.each([
    ['cornet', -2],
    ['trumpet', -2],
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

  it('are refused when they are none', () => {
    expect([readPitch('H4'), readPitch('C'), readPitch('C#b4'), readPitch('')]).toEqual([null, null, null, null]);
  });
});
