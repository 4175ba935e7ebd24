import { array, assert, constantFrom, property } from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import type { SoundCommand } from '../../src/music/sound/sound-commands.ts';
import type { ConnectionEffect } from '../../src/audio/process/connection-state.ts';
import { outputOf } from '../../src/audio/process/sound-connection.ts';
import { SENTENCES } from '../../src/audio/process/sound-sentences.ts';
import {
  CHIME,
  NOW,
  OUTPUT,
  STOP,
  ask,
  ends,
  hear,
  on,
  open,
  settings,
  soon,
  sounds,
  state,
  told,
  tryAgain,
  watchFor,
} from './hand-connection.ts';

const volume = (click: number): SoundCommand => ({ ask: 'volume', click, drone: 0 });
const current = (): number => state().child?.number ?? 0;

/** Things that happen, as a program, its processes and its timers would bring them about; what was applied. */
function live(happenings: readonly string[]): { readonly asked: number; readonly applied: readonly SoundCommand[] } {
  open();
  let asked = 0;
  const sent: number[] = [];
  const applied: SoundCommand[] = [];
  const what: Readonly<Record<string, () => readonly ConnectionEffect[]>> = {
    ask: () => ask(volume(asked++)),
    open: () => (outputOf(state()) ? [] : sounds(current())),
    done: () => (sent.length > 0 ? hear(current(), { from: 'done', id: sent.shift() ?? 0, now: NOW }) : []),
    end: () => ends(current()),
    restart: () => (state().child ? [] : tryAgain()),
    watch: () => watchFor(400),
    'first-device': () => on({ type: 'first-device' }),
    stale: () => hear(current() - 1, { from: 'done', id: 0, now: NOW }),
  };
  for (const each of [...happenings, 'first-device', 'end']) {
    for (const effect of what[each]?.() ?? []) {
      if (effect.do === 'send') sent.push(effect.id);
      if (effect.do === 'start') sent.length = 0;
      if (effect.do === 'apply') applied.push(effect.command);
    }
  }
  return { asked, applied };
}

const HAPPENINGS = ['ask', 'open', 'done', 'end', 'restart', 'watch', 'first-device', 'stale'] as const;

beforeEach(() => void open());

describe('the first process', () => {
  it('is started at once, watched, and not waited for longer than a second and a half', () => {
    expect(open()).toEqual([
      { do: 'start', child: 1, settings },
      { do: 'wake', timer: 'watch', after: 200 },
      { do: 'wake', timer: 'first-device', after: 1500 },
    ]);
    expect(outputOf(state())).toBeNull();
    expect([...state().attempts, ...state().devices]).toEqual([]);
  });

  it('gets the commands that were given before it sounded, after the score and in their order', () => {
    expect([ask(CHIME), ask(STOP)]).toEqual([[], []]);
    expect(sounds(1)).toEqual([
      { do: 'hand-over' },
      { do: 'send', id: 0, command: CHIME },
      { do: 'send', id: 1, command: STOP },
      { do: 'tell', state: 'sounding', sentence: SENTENCES.sounding },
    ]);
    expect(outputOf(state())).toEqual(OUTPUT);
  });

  it('comes too late: the beat starts without it, and it is handed the score when it comes after all', () => {
    ask(CHIME);
    expect(on({ type: 'first-device' })).toEqual([
      soon(CHIME),
      { do: 'tell', state: 'silent', sentence: SENTENCES.none },
    ]);
    expect(ask(STOP)).toEqual([soon(STOP)]);
    expect(sounds(1)).toEqual([{ do: 'hand-over' }, { do: 'tell', state: 'sounding', sentence: SENTENCES.sounding }]);
  });

  it('that sounds in time is no more waited for', () => {
    sounds(1);
    ask(CHIME);
    expect(on({ type: 'first-device' })).toEqual([]);
    expect(outputOf(state())).toEqual(OUTPUT);
  });

  it('that ends before it sounded gives back what was meant for it', () => {
    ask(CHIME);
    expect(ends(1)).toEqual([
      { do: 'wake', timer: 'restart', after: 1000 },
      soon(CHIME),
      { do: 'tell', state: 'silent', sentence: SENTENCES.none },
    ]);
    expect(on({ type: 'first-device' })).toEqual([]);
  });

  it('names the devices, and the player is told when it is theirs that cannot be opened', () => {
    open({ device: 'headphones' });
    hear(1, { from: 'devices', names: ['a', 'b'] });
    expect(state().devices).toEqual(['a', 'b']);
    expect(told(ends(1))).toEqual([SENTENCES.noneOfThatName]);
  });
});

describe('a process that sounds', () => {
  beforeEach(() => void sounds(1));

  it('is sent each command at once, with a number of its own', () => {
    expect(ask(CHIME)).toEqual([{ do: 'send', id: 0, command: CHIME }]);
    expect(ask(CHIME)).toEqual([{ do: 'send', id: 1, command: CHIME }]);
  });

  it('says when a command took effect: on this side as of the same moment, and once', () => {
    ask(CHIME);
    ask(STOP);
    expect(hear(1, { from: 'done', id: 1, now: NOW })).toEqual([{ do: 'apply', command: STOP, now: NOW }]);
    expect(hear(1, { from: 'done', id: 1, now: NOW })).toEqual([]);
    expect(hear(1, { from: 'done', id: 7, now: NOW })).toEqual([]);
    expect(hear(1, { from: 'done', id: 0, now: NOW })).toEqual([{ do: 'apply', command: CHIME, now: NOW }]);
  });

  it('says what the ear is at', () => {
    expect(hear(1, { from: 'position', heard: 12.5, at: 9990 })).toEqual([{ do: 'anchor', heard: 12.5, at: 9990 }]);
  });
});

describe('close', () => {
  it.each([
    ['while the first process starts', () => {}],
    ['while it sounds', () => sounds(1)],
    ['between two', () => ends(1)],
  ])('%s stops everything, and nothing comes after it', (_when, before) => {
    before();
    expect(on({ type: 'close' })).toEqual([{ do: 'stop' }]);
    const after = [ask(CHIME), sounds(1), ends(1), watchFor(3000), tryAgain('new'), on({ type: 'first-device' })];
    expect([...after, on({ type: 'close' })].flat()).toEqual([]);
    expect(outputOf(state())).toBeNull();
  });
});

describe('whatever happens in whatever order', () => {
  it('each command takes effect once, in the order in which it was given', () => {
    assert(
      property(array(constantFrom(...HAPPENINGS), { maxLength: 60 }), (happenings) => {
        const { asked, applied } = live(happenings);
        expect(applied).toEqual(Array.from({ length: asked }, (_, k) => volume(k)));
      }),
      { numRuns: 500 },
    );
  });
});
