/**
 * Every packaged exercise in each of its keys and ways of tonguing, as files for the stand. Outside: MusicXML's
 * published schema (W3C Music Notation Community Group) as libxml2's xmllint reads it, and abc2midi, whose notes are
 * compared with the model's.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseMidi } from 'midi-file';
import { afterAll, describe, expect } from 'vitest';
import { packageRoot } from '../../src/audio/package-folder.ts';
import { abc } from '../../src/music/page/abc.ts';
import { musicXml } from '../../src/music/page/musicxml.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { type Instrument, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { readArticulation } from '../../src/music/tongue/articulation.ts';
import { type Drill, drillOf } from '../../src/music/tongue/drill.ts';
import { soundedNotes } from '../../src/music/tongue/model-notes.ts';
import { writtenInRound } from '../../src/plan/routine/one-voice-round.ts';
import { loadRoutines } from '../../src/runtime/files/routine-reader.ts';
import { itWith } from '../programs.ts';

const folder = mkdtempSync(join(tmpdir(), 'standside-pages-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The schema lies beside the project, where the player's machine need not have it. */
const SCHEMAS = resolve(packageRoot(), '..', 'shared', 'musicxml');
const HEADING = { title: 'Page', subtitle: 'as packaged', bpm: 72 };

interface Page {
  readonly name: string;
  readonly drill: Drill;
}

const { routines } = loadRoutines([join(packageRoot(), 'routines')]);
const PAGES: readonly Page[] = routines.flatMap(({ routine }) =>
  routine.exercises.flatMap((exercise) => {
    const { pattern, keys, articulations } = exercise;
    if (pattern === null) return [];
    return keys.flatMap((key) => {
      const instrument = instrumentNamed(routine.instrument) as Instrument;
      const passage = writeOut(writtenInRound({ ...exercise, pattern }, key, instrument));
      if (!isPassage(passage)) throw new Error(`${exercise.id} in ${key}`);
      return articulations.map((articulation): Page => {
        const read = readArticulation(articulation);
        if (typeof read === 'string') throw new Error(read);
        const name = `${exercise.id}-${key}-${articulation}`.replaceAll(/[ #/]/gu, '_');
        return { name, drill: drillOf(passage, read) };
      });
    });
  }),
);

describe.skipIf(!existsSync(join(SCHEMAS, 'musicxml.xsd')))('the pages of all packaged exercises', () => {
  itWith('xmllint')(
    'are valid by the published schema of MusicXML',
    () => {
      const paths = PAGES.map(({ name, drill }) => {
        const path = join(folder, `${name}.musicxml`);
        writeFileSync(path, musicXml(drill, HEADING));
        return path;
      });
      expect(paths.length).toBeGreaterThan(200);
      const { stderr, status } = spawnSync(
        'xmllint',
        ['--noout', '--nonet', '--schema', join(SCHEMAS, 'musicxml.xsd'), ...paths],
        { encoding: 'utf8', maxBuffer: 1e8 },
      );
      const wrong = stderr.split('\n').filter((line) => line !== '' && !line.endsWith(' validates'));
      expect(wrong.slice(0, 5)).toEqual([]);
      expect(status).toBe(0);
    },
    60_000,
  );
});

/** MIDI numbers of the notes that are begun, in order. */
function heard(path: string): readonly number[] {
  const { tracks } = parseMidi(readFileSync(path));
  return tracks.flat().flatMap((event) => (event.type === 'noteOn' && event.velocity > 0 ? [event.noteNumber] : []));
}

describe('the tunes of all packaged exercises', () => {
  itWith('abc2midi')(
    'are read by abc2midi note for note, one way of tonguing for each key',
    () => {
      const seen = new Set<string>();
      const some = PAGES.filter(({ drill }) => {
        const { tonality, notes, instrument } = drill;
        const one = [tonality.name, notes.length, instrument.id, notes[0]?.pitch?.name].join(' ');
        return !seen.has(one) && seen.add(one);
      });
      expect(some.length).toBeGreaterThan(80);
      for (const { name, drill } of some) {
        const [tune, midi] = [join(folder, `${name}.abc`), join(folder, `${name}.mid`)];
        writeFileSync(tune, abc(drill, HEADING));
        spawnSync('abc2midi', [tune, '-o', midi, '-NGUI'], { encoding: 'utf8' });
        expect(heard(midi), name).toEqual(soundedNotes(drill).map((note) => note.midi));
      }
    },
    60_000,
  );
});
