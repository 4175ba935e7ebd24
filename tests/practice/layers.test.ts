/** Layers of one repetition: a cue for each, in a cycle, read before it begins. */
import { describe, expect, it } from 'vitest';
import { layerNow } from '../../src/practice/sitting/layer-now.ts';
import { tallText } from '../../src/ui/components/tall-figures.ts';
import { KEYS } from '../../src/ui/keys.ts';
import { plainText } from '../../src/ui/paint.ts';
import { wholeScreen } from '../../src/ui/whole-screen.ts';
import { hear } from './keeping.ts';
import { turning } from './turning.ts';

const SUNG = 'layers: [sing, sing and play, play], keys: [C, F]';

function sung(settings = SUNG) {
  const sat = turning(settings);
  sat.press('open', 'start-pause');
  return { ...sat, layer: () => layerNow(sat.stand().known, sat.practice()) };
}

const seen = (sat: Pick<ReturnType<typeof turning>, 'stand'>, columns: number, rows: number): string =>
  plainText(wholeScreen(sat.stand(), KEYS, { columns, rows }, 'signs'));

describe('layers', () => {
  it('come one for each repetition, round and round, whatever the mark', () => {
    const sat = sung();
    const layers = [sat.layer()];
    for (const verdict of ['clean', 'missed', 'tense', 'clean'] as const) {
      sat.repetition(verdict);
      layers.push(sat.layer());
    }
    expect(layers).toEqual(['sing', 'sing and play', 'play', 'sing', 'sing and play']);
  });

  it('are told before the repetition begins, and stay until it is over', () => {
    const sat = sung();
    const told: (string | null)[] = [];
    for (const role of ['count-in', 'repetition', 'breath', 'wait'] as const) {
      hear(sat.program, role);
      told.push(sat.layer());
    }
    expect(told).toEqual(['sing', 'sing', 'sing and play', 'sing and play']);
    sat.press('clean');
    expect(sat.layer()).toBe('sing and play');
  });

  it('go on where the key changes, where the program was killed, and back with a mark taken back', () => {
    const sat = sung(`${SUNG}, rotate: {order: own, change: repetition}`);
    sat.repetition();
    sat.pass(5);
    expect([sat.turn(), sat.layer()]).toEqual(['F · slurred', 'sing and play']);
    const again = sat.killed();
    again.press('go-on');
    expect(layerNow(again.stand().known, again.practice())).toBe('sing and play');
    sat.repetition();
    sat.press('undo', 'undo');
    expect(sat.layer()).toBe('sing and play');
    expect(sat.practice().due).not.toBeNull();
  });

  it('begin with the first on another day', () => {
    const sat = sung();
    sat.repetition();
    const next = sat.nextDay('2026-11-26');
    next.press('open');
    expect(layerNow(next.stand().known, next.practice())).toBe('sing');
  });

  it('go on where repetitions are played on without a mark', () => {
    const sat = sung(`${SUNG}, no mark: repeat`);
    const layers: (string | null)[] = [];
    for (let n = 0; n < 4; n += 1) {
      hear(sat.program, 'count-in');
      hear(sat.program, 'repetition');
      layers.push(sat.layer());
      hear(sat.program, 'breath');
    }
    expect(layers).toEqual(['sing', 'sing and play', 'play', 'sing']);
  });

  it('go by breaths where those are counted', () => {
    const sat = turning('layers: [mirror, tuner, eyes closed], work: breaths, breaths: 12');
    sat.press('open', 'play-block');
    for (const words of ['M I R R O R', 'T U N E R', 'E Y E S   C L O S E D', 'M I R R O R']) {
      expect(seen(sat, 80, 24)).toContain(words);
      sat.pass(2);
      sat.press('breath');
    }
  });

  it('of none are not there', () => {
    expect(sung('keys: [C]').layer()).toBeNull();
  });
});

/** Whether a word stands there five rows tall, in cells one or two columns wide. */
const isTall = (screen: string, word: string): boolean =>
  [1, 2].some((columns) => {
    const rows = screen.split('\n');
    const [first = '', ...others] = tallText(word, { columns, rows: 1 }).map((row) => ` ${row.trimEnd()}`);
    const at = rows.findIndex((row) => row.startsWith(first));
    return at >= 0 && others.every((row, k) => rows[at + 1 + k]?.startsWith(row));
  });

describe('what is to be read before a repetition', () => {
  it.each([
    [80, 24],
    [120, 36],
  ])('is drawn five rows tall at %i by %i', (columns, rows) => {
    const sat = sung();
    hear(sat.program, 'count-in');
    expect(isTall(seen(sat, columns, rows), 'SING')).toBe(true);
  });

  it('is a bar of spaced letters where there is no room, or a sign has no figure', () => {
    expect(seen(sung('layers: [größer], keys: [C]'), 120, 36)).toContain(' G R Ö S S E R ');
    expect(seen(sung('layers: ["sing, and play it with a very good sound"], keys: [C]'), 80, 24)).toContain(
      'SING, AND PLAY IT WITH A VERY GOOD SOUND',
    );
  });

  it.each([
    ['ORDINARY', 0],
    ['ALTERNATE', 1],
  ])('says which fingering it is: %s', (name, marks) => {
    const sat = sung('keys: [C, F], rotate: {order: own, change: repetition, fingerings: yes}');
    for (let n = 0; n < marks; n += 1) sat.repetition();
    expect(isTall(seen(sat, 120, 36), name)).toBe(true);
    expect(seen(sat, 50, 16)).toContain(`\n ${name}`);
  });
});
