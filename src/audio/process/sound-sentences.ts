/** What the player is told about the sound. */
export const SENTENCES = {
  none: 'No sound device could be opened. The beat goes on without sound.',
  noneOfThatName: 'The sound device of the settings cannot be opened. The beat goes on without sound.',
  lost: 'The sound has stopped. The beat goes on without it until it is back.',
  sounding: 'Sound is on.',
  back: 'The sound is back.',
} as const;
