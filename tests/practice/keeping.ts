/** A journal in memory: what is to be kept is stamped, folded by the real fold, and comes back as in the program. */
import type { Entry, Happening } from '../../src/diary/entry.ts';
import { ofLadder } from '../../src/diary/entry.ts';
import { EMPTY_FOLD, type Fold, absorb, foldAll } from '../../src/journal/journal-fold.ts';
import { lineName } from '../../src/ladder/line.ts';
import type { Span } from '../../src/music/sound/sound-commands.ts';
import { type Stand, type StandEvent, practiceOf } from '../../src/practice/stand.ts';
import { onEvent } from '../../src/practice/stand-events.ts';
import type { Effect } from '../../src/practice/step.ts';

export interface Keeping {
  readonly entries: Entry[];
  readonly fold: () => Fold;
  readonly keep: (happening: Happening) => Extract<StandEvent, { type: 'kept' }>;
}

const idOf = (n: number): string => `018bcfe5-6800-7000-8000-${String(n).padStart(12, '0')}`;

export function keeping(day: string, earlier: readonly Entry[] = []): Keeping {
  const entries: Entry[] = [...earlier];
  let fold = earlier.length === 0 ? EMPTY_FOLD : foldAll(earlier);
  return {
    entries,
    fold: () => fold,
    keep: (happening) => {
      const stamp = { v: 1, id: idOf(entries.length + 1), at: `${day}T10:00:00+00:00`, day };
      const entry = { ...stamp, ...happening } as Entry;
      entries.push(entry);
      fold = absorb(fold, entry) ?? foldAll(entries);
      const moved = entry.kind === 'undo' ? entries.find(({ id }) => id === entry.of) : entry;
      const name = moved && ofLadder(moved) ? lineName(moved) : null;
      return { type: 'kept', entry, line: name === null ? null : { name, history: fold.lines.get(name) ?? null } };
    },
  };
}

/** The whole program without a screen: its state, and what went out to the sound. */
export interface Played {
  readonly stand: () => Stand;
  readonly send: (event: StandEvent) => void;
  readonly effects: Effect[];
  /** From now on nothing can be kept; or it can again. */
  readonly disk: (is: 'full' | 'free') => void;
}

/** What the program says of a full disk, invented. */
export const DISK_FULL = 'The disk is full: nothing was kept.';

export function played(first: Stand, journal: Keeping): Played {
  let stand = first;
  const effects: Effect[] = [];
  let isFull = false;
  const kept = (happening: Happening): StandEvent =>
    isFull ? { type: 'not-kept', sentence: DISK_FULL } : journal.keep(happening);
  function send(event: StandEvent): void {
    const step = onEvent(stand, event);
    stand = step.state;
    for (const effect of step.effects) {
      effects.push(effect);
      if (effect.type === 'keep') send(kept(effect.happening));
    }
  }
  return {
    stand: () => stand,
    send,
    effects,
    disk: (is) => {
      isFull = is === 'full';
    },
  };
}

/** The first beat of the chain's n-th span in this role is heard, at once. */
export function hear({ stand, send }: Played, role: Span['role'], n = 0, bar = 0): Span {
  const span = practiceOf(stand())?.chain.filter((one) => one.role === role)[n];
  if (!span) throw new Error(`no ${role} in the chain`);
  send({ type: 'sound', report: { tell: 'beat', span: span.id, bar, beat: 0, beatsInBar: 4, lateBy: 0 } });
  return span;
}
