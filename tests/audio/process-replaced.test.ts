/** How a sound process is given up and another one started. */
import { beforeEach, describe, expect, it } from 'vitest';
import { outputOf } from '../../src/audio/process/sound-connection.ts';
import { SENTENCES } from '../../src/audio/process/sound-sentences.ts';
import {
  CHIME,
  NOW,
  STOP,
  ask,
  ends,
  hear,
  kinds,
  looksUntilStart,
  on,
  open,
  pass,
  settings,
  soon,
  sounds,
  speaks,
  state,
  told,
  tryAgain,
  watchFor,
} from './hand-connection.ts';

beforeEach(() => void open());

describe('a process that is lost', () => {
  beforeEach(() => void sounds(1));

  it('gives back the commands it has not confirmed, and no others', () => {
    ask(CHIME);
    ask(STOP);
    hear(1, { from: 'done', id: 0, now: NOW });
    expect(ends(1)).toEqual([
      { do: 'wake', timer: 'restart', after: 1000 },
      soon(STOP),
      { do: 'tell', state: 'silent', sentence: SENTENCES.lost },
    ]);
    expect(outputOf(state())).toBeNull();
    expect(ask(CHIME)).toEqual([soon(CHIME)]);
  });

  it.each(['failed', 'lost'] as const)('is killed when its device is: %s', (from) => {
    expect(hear(1, { from })).toEqual([{ do: 'kill', child: 1 }]);
    expect(told(ends(1))).toEqual([SENTENCES.lost]);
  });

  it('is replaced by one that is handed the score; the player is told of both, once', () => {
    ends(1);
    expect(tryAgain()).toEqual([{ do: 'start', child: 2, settings }]);
    expect(told(ends(2))).toEqual([]);
    tryAgain();
    expect(sounds(3)).toEqual([{ do: 'hand-over' }, { do: 'tell', state: 'sounding', sentence: SENTENCES.back }]);
    expect(told(ends(3))).toEqual([SENTENCES.lost]);
  });

  it('keeps commands for no process that only starts: they take effect at once', () => {
    ends(1);
    tryAgain();
    expect(ask(CHIME)).toEqual([soon(CHIME)]);
    expect(kinds(sounds(2))).toEqual(['hand-over', 'tell']);
  });
});

describe('a process that says nothing', () => {
  it('is killed after 1.2 seconds if it sounds', () => {
    sounds(1);
    expect(watchFor(1200)).toEqual(Array.from({ length: 6 }, () => ({ do: 'wake', timer: 'watch', after: 200 })));
    expect(watchFor(200)).toEqual([
      { do: 'wake', timer: 'watch', after: 200 },
      { do: 'kill', child: 1 },
    ]);
    expect(told(ends(1))).toEqual([SENTENCES.lost]);
  });

  it('is left alone as long as it says anything', () => {
    sounds(1);
    expect(kinds(watchFor(10_000, true))).not.toContain('kill');
    for (const message of [
      { from: 'devices', names: [] },
      { from: 'done', id: 99, now: NOW },
    ] as const) {
      watchFor(1000);
      hear(1, message);
      expect(kinds(watchFor(1200))).not.toContain('kill');
      speaks(1);
    }
  });

  it('is left alone while it looks for a device, and there is nothing to kill where there is none', () => {
    expect(kinds(watchFor(10_000))).not.toContain('kill');
    ends(1);
    expect(kinds(watchFor(10_000))).not.toContain('kill');
  });

  it('is killed after twelve seconds if it hangs while it opens a device, and another one is tried', () => {
    expect(kinds(watchFor(12_000))).not.toContain('kill');
    expect(kinds(watchFor(200))).toContain('kill');
    expect(told(ends(1))).toHaveLength(1);
    expect(looksUntilStart('as before')).toBeLessThan(5);
    hear(2, { from: 'trying', backEnd: 'speaker' });
    watchFor(10_000);
    hear(2, { from: 'refused', attempt: { backEnd: 'speaker', reason: 'none' } });
    expect(kinds(watchFor(10_000))).not.toContain('kill');
  });

  it('is not blamed for what the watch itself has slept through', () => {
    sounds(1);
    pass(5000);
    expect(kinds(on({ type: 'watch' }))).toEqual(['wake']);
    pass(200);
    expect(kinds(on({ type: 'watch' }))).toEqual(['wake', 'kill']);
  });

  it('was looked after in time when the watch was 400 ms late, and not when it was later', () => {
    for (const [late, found] of [
      [400, ['wake', 'kill']],
      [401, ['wake']],
    ] as const) {
      open();
      sounds(1);
      watchFor(1000);
      pass(late);
      expect(kinds(on({ type: 'watch' }))).toEqual(found);
    }
  });
});

describe('another process', () => {
  it('is tried at the first look five times after a loss, then at every fourth while nothing changes', () => {
    sounds(1);
    const looks: number[] = [];
    for (let child = 1; child <= 8; child++) {
      ends(child);
      looks.push(looksUntilStart('as before'));
    }
    expect(looks).toEqual([1, 1, 1, 1, 1, 4, 4, 4]);
  });

  it('is tried at every fourth look from the start where there never was a device', () => {
    ends(1);
    expect(kinds(tryAgain())).toEqual(['wake']);
    expect(looksUntilStart('as before')).toBe(3);
    ends(2);
    expect(looksUntilStart('as before')).toBe(4);
  });

  it('is tried at the first look when something around has changed, or where nothing can be seen of it', () => {
    ends(1, 'no server');
    expect(looksUntilStart('a server')).toBe(1);
    ends(2, 'a server');
    tryAgain('a server');
    expect(looksUntilStart('no server')).toBe(1);
    ends(3, null);
    expect(looksUntilStart(null)).toBe(1);
  });

  it('looks again each second', () => {
    ends(1);
    expect(tryAgain()).toEqual([{ do: 'wake', timer: 'restart', after: 1000 }]);
  });

  it('is hurried for again after each time that one sounded', () => {
    ends(1);
    looksUntilStart('as before');
    sounds(2);
    ends(2);
    expect(looksUntilStart('as before')).toBe(1);
  });
});

describe('what was tried in vain', () => {
  it('is kept until the next try', () => {
    hear(1, { from: 'trying', backEnd: 'web-audio' });
    hear(1, { from: 'refused', attempt: { backEnd: 'web-audio', reason: 'no device' } });
    hear(1, { from: 'trying', backEnd: 'speaker' });
    hear(1, { from: 'refused', attempt: { backEnd: 'speaker', reason: 'not installed' } });
    ends(1);
    expect(state().attempts.map(({ backEnd, reason }) => `${backEnd}: ${reason}`)).toEqual([
      'web-audio: no device',
      'speaker: not installed',
    ]);
    looksUntilStart('something new');
    expect(state().attempts).toEqual([]);
  });

  it('is also a library that ended its process; the package speaker is not tried again', () => {
    hear(1, { from: 'trying', backEnd: 'speaker' });
    ends(1);
    expect(state().attempts).toEqual([{ backEnd: 'speaker', reason: 'its library ended the process' }]);
    expect(tryAgain('something new')).toEqual([
      { do: 'start', child: 2, settings: { ...settings, backEnds: ['web-audio'] } },
    ]);
    hear(2, { from: 'trying', backEnd: 'web-audio' });
    ends(2);
    expect(tryAgain('something newer')).toMatchObject([{ do: 'start', settings: { backEnds: ['web-audio'] } }]);
  });

  it('is no library that was loaded well', () => {
    hear(1, { from: 'trying', backEnd: 'speaker' });
    sounds(1);
    ends(1);
    expect(state().attempts).toEqual([]);
    expect(state().settings).toEqual(settings);
  });
});

describe('an earlier process', () => {
  it('is not listened to any more, nor is its end', () => {
    sounds(1);
    ends(1);
    expect(sounds(1)).toEqual([]);
    tryAgain();
    for (const from of ['failed', 'lost'] as const) expect(hear(1, { from })).toEqual([]);
    expect(ends(1)).toEqual([]);
    expect(state().child).toMatchObject({ number: 2, output: null });
    sounds(2);
    watchFor(1000);
    speaks(1);
    expect(kinds(watchFor(400))).toContain('kill');
  });
});
