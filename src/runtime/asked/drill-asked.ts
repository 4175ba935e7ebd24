/** An exercise written out in whatever key, tonguing, instrument and range is asked for on the command line. */
import { type KeyName } from '../../ladder/line.ts';
import { writeFileSync } from 'node:fs';
import { extname } from 'node:path';
import { abc } from '../../music/page/abc.ts';
import { type Articulation, readArticulation } from '../../music/tongue/articulation.ts';
import { type Drill, drillOf } from '../../music/tongue/drill.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS, type Instrument, instrumentNamed } from '../../music/pitch/instruments.ts';
import { readKey } from '../../music/pitch/keys.ts';
import { type Heading, musicXml } from '../../music/page/musicxml.ts';
import { type Range, readRange } from '../../music/pitch/range.ts';
import { HARD, type Syllables, readSyllables } from '../../music/tongue/syllables.ts';
import { type Passage, isPassage, writeOut } from '../../music/pattern/written-in-key.ts';
import { keyBefore, octaveJump, writtenInRound } from '../../plan/routine/one-voice-round.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { harmless } from '../../common/harmless-text.ts';
import { didYouMean } from '../../common/nearest-word.ts';
import { reasonOf } from '../../common/file-reasons.ts';
import { Trouble } from '../../common/trouble.ts';

/** Words from the command line; what is left out is the exercise's or the player's own. */
export interface DrillWords {
  readonly key?: string | undefined;
  readonly articulation?: string | undefined;
  readonly instrument?: string | undefined;
  readonly range?: string | undefined;
  readonly syllables?: string | undefined;
  /** What to do with what lies out of range: 'octave' or 'short'. */
  readonly fit?: string | undefined;
}

/** Sentences of the music's readers quote what was typed: made harmless before they reach the terminal. */
const sentence = (text: string): Trouble => new Trouble(harmless(text, 600));

export function instrumentAsked(word: string): Instrument {
  const found = instrumentNamed(word);
  if (found) return found;
  const names = INSTRUMENTS.map(({ id }) => id);
  const hint = didYouMean(word, names, `there are ${names.join(', ')}.`);
  throw sentence(`--instrument '${word}' is none that is known; ${hint}`);
}

function articulationAsked(word: string): Articulation {
  const read = readArticulation(word);
  if (typeof read === 'string') throw sentence(read);
  return read;
}

function syllablesAsked(word: string): Syllables {
  const read = readSyllables(word);
  if (typeof read === 'string') throw sentence(read);
  return read;
}

function rangeAsked(word: string): Range {
  const read = readRange(word);
  if (typeof read === 'string') throw sentence(read);
  return read;
}

/** The key under its usual name; the exercise's first where none is asked for. */
export function keyAsked(word: string | undefined, exercise: Exercise): KeyName {
  const read = readKey(word ?? exercise.keys[0] ?? 'C');
  if (typeof read === 'string') throw sentence(read);
  return read.name;
}

const FITS: Readonly<Record<string, Passage['placed']>> = { octave: 'nearest octave', short: 'abbreviated' };

/** What is to be said where the key leaves the voice of the one before it in the exercise's own order. */
function withJump(exercise: Exercise, passage: Passage, key: KeyName): Passage {
  const { pattern } = exercise;
  const before = keyBefore(exercise, key);
  if (pattern === null || before === null) return passage;
  const other = writeOut(writtenInRound({ ...exercise, pattern }, before, passage.instrument));
  const jump = octaveJump(isPassage(other) ? other : null, passage);
  return jump === null ? passage : { ...passage, remarks: [...passage.remarks, jump] };
}

function passageAsked(exercise: Exercise, words: DrillWords, instrument: Instrument): Passage {
  const { pattern, title } = exercise;
  if (pattern === null)
    throw sentence(`'${title}' is material of your own; only an exercise with a pattern can be written out.`);
  const fit = words.fit === undefined ? null : FITS[words.fit];
  if (fit === undefined)
    throw sentence(`--fit '${words.fit}': give octave (the nearest octave, bar by bar) or short (the bars that fit).`);
  const key = keyAsked(words.key, exercise);
  const range = words.range === undefined ? {} : { range: rangeAsked(words.range) };
  const result = writeOut({ ...writtenInRound({ ...exercise, pattern }, key, instrument), ...range });
  if (isPassage(result)) return words.range === undefined ? withJump(exercise, result, key) : result;
  const offer = result.offers.find(({ placed }) => placed === fit);
  if (offer) return offer;
  const ways = Object.keys(FITS).filter((way) => result.offers.some(({ placed }) => placed === FITS[way]));
  const hint = ways.length > 0 ? ` Ask for it with ${ways.map((way) => `--fit ${way}`).join(' or ')}.` : '';
  throw sentence(`${result.troubles[0]?.sentence ?? 'It cannot be written out.'}${hint}`);
}

/**
 * The drill that was asked for. `usual` and `spoken` are the player's instrument and syllables. Throws Trouble for
 * every word that is wrong.
 */
export function drillAsked(
  exercise: Exercise,
  words: DrillWords,
  usual: string | null,
  spoken: Syllables = HARD,
): Drill {
  const instrument = instrumentAsked(words.instrument ?? usual ?? DEFAULT_INSTRUMENT);
  const articulation = articulationAsked(words.articulation ?? exercise.articulations[0] ?? 'slurred');
  return drillOf(
    passageAsked(exercise, words, instrument),
    articulation,
    words.syllables === undefined ? spoken : syllablesAsked(words.syllables),
  );
}

const WRITERS: Readonly<Record<string, (drill: Drill, heading: Heading) => string>> = {
  '.musicxml': musicXml,
  '.xml': musicXml,
  '.abc': abc,
};

/**
 * Writes the drill for the stand. Throws Trouble where the ending is unknown, or a file is there and `force` is not
 * given.
 */
export function writeDrill(path: string, drill: Drill, heading: Heading, force: boolean): void {
  const shown = harmless(path, 200);
  const writer = WRITERS[extname(path).toLowerCase()];
  if (!writer) throw new Trouble(`--out '${shown}': the name must end in .musicxml or .abc.`);
  try {
    writeFileSync(path, writer(drill, heading), { flag: force ? 'w' : 'wx' });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') throw new Trouble(`${shown} is already there; --force replaces it.`);
    if (code === undefined) throw error;
    throw new Trouble(`${shown} cannot be written: ${reasonOf(error, 'write')}.`);
  }
}
