import type { Command } from 'commander';

/** What `drill` and `write` have in common: an exercise in any key, tonguing, instrument and range. */
export const withDrillOptions = (command: Command): Command =>
  command
    .argument('<exercise>', "its short name; 'standside exercises' lists them")
    .option('--key <key>', 'any written key, like Bb, F# or "A minor" (default: the first of the exercise)')
    .option(
      '--articulation <name>',
      'slurred, single, double, triple, "slur 2 tongue 2", … (default: the first of the exercise)',
    )
    .option('--instrument <name>', 'like cornet or eb-bass (default: that of the settings or the routine)')
    .option('--range <notes>', 'lowest and highest written note, like "F#3 to C6" (default: the instrument’s)')
    .option('--syllables <pair>', 't-k, d-g, or two of your own, like ta-ka')
    .option(
      '--fit <how>',
      'where it leaves the range: octave (nearest octave, bar by bar) or short (the bars that fit)',
    )
    .option('--tempo <bpm>', 'beats per minute (default: the exercise’s start)');
