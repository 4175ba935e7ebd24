/** What the screens ask of the player's own files, and what comes back. */
import type { ListItem } from '../../diary/entry.ts';
import type { OwnForm } from '../../plan/own/own-form.ts';

export type OwnAction = 'new-exercise' | 'change' | 'copy' | 'retire';
/** What is done to today's list by hand. */
export type HandAction =
  | 'find'
  | 'take-out'
  | 'move-up'
  | 'move-down'
  | 'minute-more'
  | 'minute-less'
  | 'as-before'
  | 'as-last-week'
  | 'as-proposed'
  | 'keep-list';

/** Which exercise of which own file. */
export interface OwnPlace {
  readonly file: string;
  readonly name: string;
}

/** What is being typed, so that it is there again after whatever happens. */
export interface Draft {
  readonly fields: OwnForm;
  /** The form as it was when it was opened. */
  readonly start: OwnForm;
  /** Null for a new exercise. */
  readonly of: OwnPlace | null;
  /** What a new one is a copy of: its file says more of it than the form shows. */
  readonly copied?: OwnPlace;
}

export type OwnAsked =
  | { readonly do: 'keep'; readonly draft: Draft }
  | { readonly do: 'routine'; readonly title: string; readonly instrument: string; readonly items: readonly ListItem[] }
  | { readonly do: 'retire'; readonly place: OwnPlace; readonly isRetired: boolean };

/** One sentence; which exercise it is about where one was written, null where none was. */
export interface OwnAnswer {
  readonly sentence: string;
  readonly written: OwnPlace | null;
}
