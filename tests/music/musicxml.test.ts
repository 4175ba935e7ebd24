/**
 * The MusicXML file line by line. What stands in it and in which order: MusicXML 4.0 (W3C Music Notation Community
 * Group), the elements `note`, `attributes`, `direction` and `score-partwise`, from memory.
 */
import { describe, expect, it } from 'vitest';
import { musicXml } from '../../src/music/page/musicxml.ts';
import { INSTRUMENTS } from '../../src/music/pitch/instruments.ts';
import { ratio } from '../../src/music/time/ratio.ts';
import { type Asked, drillIn } from './drills.ts';

const HEADING = { title: 'Title', subtitle: 'Below', bpm: null };
const file = (asked: Asked, bpm: number | null = null): string => musicXml(drillIn(asked), { ...HEADING, bpm });

/** What stands between the tags of an element, one entry for each such element, lines joined. */
const all = (xml: string, element: string): readonly string[] =>
  [...xml.matchAll(new RegExp(`<${element}( [^>]*)?>(.*?)</${element}>`, 'gsu'))].map((found) =>
    (found[2] ?? '').replaceAll('\n', ''),
  );
const notes = (asked: Asked): readonly string[] =>
  all(file(asked), 'note').map((text) =>
    text
      .replace('<voice>1</voice>', '')
      .replace(/<lyric number="1"><syllabic>single<\/syllabic><text>(.*)<\/text><\/lyric>/u, '"$1"'),
  );
/** Only the beams of each note, '1begin 2end'. */
const beams = (asked: Asked): readonly string[] =>
  all(file(asked), 'note').map((text) =>
    [...text.matchAll(/<beam number="(\d)">([a-z ]+)<\/beam>/gu)].map((found) => `${found[1]}${found[2]}`).join(' '),
  );

/** What may stand in a note, in this order. */
const ORDER = new RegExp(
  [
    '^(<pitch>.*</pitch>|<rest( measure="yes")?/>)',
    '<duration>\\d+</duration>',
    '(<tie type="stop"/>)?(<tie type="start"/>)?',
    '<voice>1</voice>',
    '(<type>[a-z0-9]+</type>(<dot/>)*)?',
    '(<accidental>[a-z-]+</accidental>)?',
    '(<time-modification>.*</time-modification>)?',
    '(<beam number="\\d">[a-z ]+</beam>)*',
    '(<notations>.*</notations>)?',
    '(<lyric number="1">.*</lyric>)?$',
  ].join(''),
  'u',
);

/** The names of elements that are open and not closed, or closed and not open; XML 1.0, 3.1. */
function unbalanced(xml: string): readonly string[] {
  const open: string[] = [];
  for (const [, closing, name = '', empty] of xml.matchAll(/<(\/)?([a-z-]+)[^<>]*?(\/)?>/gu)) {
    if (empty) continue;
    if (!closing) open.push(name);
    else if (open.pop() !== name) return [`</${name}>`];
  }
  return open;
}

const time = (meter: string) => all(file({ pattern: '1', meter, beat: ratio(1, 8), notes: 1 }), 'time');

describe('a MusicXML file', () => {
  it('begins and ends as the standard has it, title and part named', () => {
    const xml = file({ pattern: '1', instrument: 'cornet' });
    expect(xml.split('\n').slice(0, 14)).toEqual([
      '<?xml version="1.0" encoding="UTF-8"?>',
      '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" ' +
        '"http://www.musicxml.org/dtds/partwise.dtd">',
      '<score-partwise version="4.0">',
      '<work><work-title>Title</work-title></work>',
      '<movement-title>Title: Below</movement-title>',
      '<identification><encoding><software>standside</software></encoding></identification>',
      '<part-list>',
      '<score-part id="P1"><part-name>B-flat cornet</part-name><score-instrument id="P1-I1"><instrument-name>B-flat ' +
        'cornet</instrument-name></score-instrument></score-part>',
      '</part-list>',
      '<part id="P1">',
      '<measure number="1">',
      '<attributes>',
      '<divisions>1</divisions>',
      '<key><fifths>0</fifths><mode>major</mode></key>',
    ]);
    expect(xml.split('\n').slice(-6)).toEqual([
      '</note>',
      '<barline location="right"><bar-style>light-heavy</bar-style></barline>',
      '</measure>',
      '</part>',
      '</score-partwise>',
      '',
    ]);
  });

  it('is made of elements alone, each closed where it belongs', () => {
    for (const instrument of ['c-trumpet', 'cornet', 'eb-bass'])
      for (const bpm of [null, 72]) {
        const xml = file(
          { pattern: '1:1/8t 2:1/8t 3:1/8t 1:1/4~ 1:1/8 r:1/8 5:1/4 | r', instrument, way: 'slurred' },
          bpm,
        );
        expect(unbalanced(xml)).toEqual([]);
        const lines = xml.trimEnd().split('\n');
        expect(lines.filter((line) => !/^<.+>$/u.test(line))).toEqual([]);
      }
  });

  it('puts what belongs to a note into the order of the standard', () => {
    const patterns = [
      '1:1/4~ 1:1/8 #1 2:1/8t 3:1/8t 4:1/8t r:1/4 | r',
      '1:5/8 2:1/16t5 2:1/16t5 2:1/16t5 2:1/16t5 2:1/16t5 3 | 1',
    ];
    for (const pattern of patterns)
      for (const way of ['slurred', 'double'])
        for (const note of all(file({ pattern, way, key: 'Eb' }), 'note')) expect(note).toMatch(ORDER);
  });

  it('says everything of a note', () => {
    expect(notes({ pattern: '#1:1/4. 1:1/16 2:1/16 r:1/2', key: 'Bb', way: 'slurred' })).toEqual([
      '<pitch><step>B</step><octave>4</octave></pitch><duration>6</duration><type>quarter</type><dot/>' +
        '<accidental>natural</accidental><notations><slur type="start" number="1"/></notations>"T"',
      '<pitch><step>B</step><alter>-1</alter><octave>4</octave></pitch><duration>1</duration><type>16th</type>' +
        '<accidental>flat</accidental><beam number="1">begin</beam><beam number="2">begin</beam>',
      '<pitch><step>C</step><octave>5</octave></pitch><duration>1</duration><type>16th</type>' +
        '<beam number="1">end</beam><beam number="2">end</beam>' +
        '<notations><slur type="stop" number="1"/></notations>',
      '<rest/><duration>8</duration><type>half</type>',
    ]);
  });

  it('ties, and brackets tuplets', () => {
    expect(notes({ pattern: '1:1/2~ 1:1/8 r:1/8 2:1/8t 3:1/8t 4:1/8t' })).toEqual([
      '<pitch><step>C</step><octave>4</octave></pitch><duration>12</duration><tie type="start"/><type>half</type>' +
        '<notations><tied type="start"/></notations>"T"',
      '<pitch><step>C</step><octave>4</octave></pitch><duration>3</duration><tie type="stop"/><type>eighth</type>' +
        '<notations><tied type="stop"/></notations>',
      '<rest/><duration>3</duration><type>eighth</type>',
      ...['D', 'E', 'F'].map(
        (step, i) =>
          `<pitch><step>${step}</step><octave>4</octave></pitch><duration>2</duration><type>eighth</type>` +
          '<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>' +
          `<beam number="1">${['begin', 'continue', 'end'][i]}</beam>` +
          [
            '<notations><tuplet type="start" bracket="yes"/></notations>',
            '',
            '<notations><tuplet type="stop"/></notations>',
          ][i] +
          '"T"',
      ),
    ]);
  });

  it('has a rest of a whole bar as such, and no value for it', () => {
    expect(notes({ pattern: '1 | r | 1:3/4 r:1/4' })[1]).toBe('<rest measure="yes"/><duration>4</duration>');
    expect(notes({ pattern: '1 | r | 1:3/4 r:1/4' })[3]).toBe('<rest/><duration>1</duration><type>quarter</type>');
  });

  it('names every value', () => {
    const values = ':1/1 1 | :1/2 1 1 | :1/4 1 1 1 1 | :1/8 (1)x8 | :1/16 (1)x16 | :1/32 (1)x32 | :1/64 (1)x64';
    const types = all(file({ pattern: values }), 'type');
    expect([...new Set(types)]).toEqual(['whole', 'half', 'quarter', 'eighth', '16th', '32nd', '64th']);
  });

  it('names the shortest that an uneven rhythm comes to', () => {
    const types = all(file({ pattern: '(1 2)x32', notes: 16, way: 'single long-short' }), 'type');
    expect([...new Set(types)]).toEqual(['64th', '128th']);
  });

  it('shows every accidental', () => {
    const signs = (key: string, pattern: string) => all(file({ key, pattern }), 'accidental');
    expect(signs('C', '#1 1 b2 2 r:1/2')).toEqual(['sharp', 'natural', 'flat', 'natural']);
    expect(all(file({ key: 'G#', scale: 'harmonic minor', pattern: '6 7 8 r r:1/2' }), 'accidental')).toEqual([
      'double-sharp',
    ]);
    expect(all(file({ key: 'Eb minor', pattern: 'b4 r r:3/4' }), 'accidental')).toEqual(['natural']);
  });

  it.each([
    [
      'four eighths in pairs of beats',
      { pattern: '1 2 3 4 5 4 3 2' },
      ['1begin', '1end', '1begin', '1end', '1begin', '1end', '1begin', '1end'],
    ],
    [
      'six eighths in threes',
      { pattern: '1 2 3 4 5 4', meter: '6/8', beat: ratio(3, 8), notes: 3 },
      ['1begin', '1continue', '1end', '1begin', '1continue', '1end'],
    ],
    [
      'seven eighths in groups',
      { pattern: '1 2 3 4 5 4 3', meter: '7/8', beat: ratio(1, 8), notes: 1 },
      ['1begin', '1end', '1begin', '1end', '1begin', '1continue', '1end'],
    ],
    [
      'a dotted pair with a hook back',
      { pattern: '1:1/8. 2:1/16 3:1/4 r:1/2' },
      ['1begin', '1end 2backward hook', '', ''],
    ],
    [
      'its mirror with a hook forward',
      { pattern: '1:1/16 2:1/8. 3:1/4 r:1/2' },
      ['1begin 2forward hook', '1end', '', ''],
    ],
    [
      'an eighth and two sixteenths',
      { pattern: '1:1/8 2:1/16 3:1/16 r:3/4' },
      ['1begin', '1continue 2begin', '1end 2end', ''],
    ],
    [
      'two sixteenths and an eighth',
      { pattern: '1:1/16 2:1/16 3:1/8 r:3/4' },
      ['1begin 2begin', '1continue 2end', '1end', ''],
    ],
    [
      'a short one between two long',
      { pattern: '1:1/16 2:1/8 3:1/16 r:3/4' },
      ['1begin 2forward hook', '1continue', '1end 2backward hook', ''],
    ],
    ['nothing alone', { pattern: '1:1/8 r:1/8 2:1/4 r:1/8 3:1/8 r:1/4' }, ['', '', '', '', '', '']],
    [
      'no note to a rest',
      { pattern: '1:1/16 2:1/16 r:1/8 r:1/16 3:1/16 4:1/8 r:1/2' },
      ['1begin 2begin', '1end 2end', '', '', '1begin 2forward hook', '1end', ''],
    ],
    [
      'no beam from one beat into the next bar',
      { pattern: '1 2 | 3 4', meter: '1/4' },
      ['1begin', '1end', '1begin', '1end'],
    ],
    [
      'no beam over a bar line',
      { pattern: '1:1/2 2:1/8 3:1/8 r:1/8 4:1/8 | 5:1/8 r:7/8' },
      ['', '1begin', '1end', '', '', '', ''],
    ],
  ] as const)('beams %s', (_, asked, expected) => {
    expect(beams(asked)).toEqual(expected);
  });

  it('says the tempo in the beat of the drill, and in quarters for what plays it', () => {
    const tempo = (bpm: number, asked: Partial<Asked>) =>
      all(file({ pattern: '1', ...asked }, bpm), 'direction').map((text) => text);
    expect(tempo(72.5, {})).toEqual([
      '<direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>72.5</per-minute></metronome>' +
        '</direction-type><sound tempo="72.5"/>',
    ]);
    expect(tempo(60, { meter: '6/8', beat: ratio(3, 8) })[0]).toContain(
      '<beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome></direction-type>' +
        '<sound tempo="90"/>',
    );
    expect(tempo(60, { beat: ratio(1, 2) })[0]).toContain('<beat-unit>half</beat-unit><per-minute>60');
    expect(tempo(60, { beat: ratio(1, 2) })[0]).toContain('<sound tempo="120"/>');
    expect(file({ pattern: '1' }, 60)).toContain('</attributes>\n<direction placement="above">\n<direction-type>');
    // A beat of five eighths has no sign: nothing is better than something wrong.
    expect(tempo(60, { meter: '5/8', beat: ratio(5, 8) })).toEqual([]);
    expect(file({ pattern: '1', meter: '5/8', beat: ratio(5, 8) }, 60)).toContain('</attributes>\n<note>');
    expect(file({ pattern: '1', meter: '3/1', beat: ratio(3) }, 60)).toContain('</attributes>\n<note>');
    expect(tempo(60, { meter: '3/1', beat: ratio(3) })).toEqual([]);
    expect(tempo(60, { meter: '3/2', beat: ratio(3, 2) })[0]).toContain('<beat-unit>whole</beat-unit><beat-unit-dot/>');
    expect(file({ pattern: '1' })).not.toContain('<direction');
  });

  it('says the meter, with its groups where they are not equal', () => {
    expect(time('6/8')).toEqual(['<beats>6</beats><beat-type>8</beat-type>']);
    expect(time('7/8')).toEqual(['<beats>2+2+3</beats><beat-type>8</beat-type>']);
    expect(time('3/4')).toEqual(['<beats>3</beats><beat-type>4</beat-type>']);
  });

  it.each([
    ['major', 'C', 'major'],
    ['dorian', 'D', 'dorian'],
    ['phrygian', 'E', 'phrygian'],
    ['lydian', 'F', 'lydian'],
    ['mixolydian', 'G', 'mixolydian'],
    ['locrian', 'B', 'locrian'],
    ['natural minor', 'A', 'minor'],
    ['chromatic', 'C', 'major'],
  ])('names the mode of %s', (scale, key, mode) => {
    expect(all(file({ pattern: '1', scale, key }), 'key')).toEqual([`<fifths>0</fifths><mode>${mode}</mode>`]);
  });

  it('transposes every instrument as it sounds from the page, in semitones and in steps', () => {
    // Letters apart for semitones apart, in the major scale or its nearest: any handbook of theory.
    const steps: Readonly<Record<number, number>> = { 0: 0, 2: 1, 3: 2, 5: 3, 7: 4, 9: 5 };
    for (const { id, transposition, clef } of INSTRUMENTS) {
      const xml = file({ pattern: '1', instrument: id });
      const number = (element: string) => Number(all(xml, element)[0] ?? 0) + 0;
      expect(number('chromatic') + 12 * number('octave-change'), id).toBe(transposition);
      expect(Math.abs(number('diatonic')), id).toBe(steps[Math.abs(number('chromatic'))]);
      expect(Math.sign(number('diatonic')), id).toBe(Math.sign(number('chromatic')));
      expect(xml.includes('<transpose>'), id).toBe(transposition !== 0);
      expect(xml.includes('<octave-change>'), id).toBe(Math.abs(transposition) >= 12);
      expect(all(xml, 'clef'), id).toEqual([
        clef === 'bass' ? '<sign>F</sign><line>4</line>' : '<sign>G</sign><line>2</line>',
      ]);
    }
  });

  it('writes text so that no reader trips over it', () => {
    const xml = musicXml(drillIn({ pattern: '1' }), { title: 'a & b <c>\n"d"\u2028e', subtitle: '', bpm: null });
    expect(all(xml, 'work-title')).toEqual(['a &amp; b &lt;c&gt; &quot;d&quot; e']);
  });

  it('puts attributes and tempo into the first measure, and the last bar line into the last', () => {
    const xml = file({ pattern: '1 | 2 | 3' }, 60);
    expect(
      all(xml, 'measure').map((text) => [
        text.includes('<attributes>'),
        text.includes('<direction'),
        text.includes('<barline'),
      ]),
    ).toEqual([
      [true, true, false],
      [false, false, false],
      [false, false, true],
    ]);
    expect([...xml.matchAll(/<measure number="(\d+)">/gu)].map((found) => found[1])).toEqual(['1', '2', '3']);
  });
});
