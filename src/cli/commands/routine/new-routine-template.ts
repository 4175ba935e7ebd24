/** The text of a new routine file: short, sound, and with a word on everything that is likely to be wanted. */
export const newRoutineText = (
  title: string,
  instrument: string,
): string => `# A practice routine. Everything but names, parts and minutes may be left out.
routine: ${JSON.stringify(title)}
instrument: ${instrument}
breaks: 5 after 25                # minutes of rest and of playing, or none
limits: {same kind: 3, high load: 10}

defaults:                         # said once for all exercises
  step: 3%                        # or 4 (beats per minute), or marks
  up: 3                           # clean in a row
  down: 2                         # missed in a row

exercises:
  long-tones:
    kind: sound                   # body, sound, flexibility, technique, articulation, study, music
    pattern: 1 | 2 | 3 | 2 | 1
    tempo: 60
    breaths: 10
    keys: [C, F, G]
    drone: yes
    cues: [Same sound from first to last]

  five-notes:
    title: Five notes up and down
    pattern: 1 2 3 4 5 4 3 2 | 1
    keys: all major
    articulations: [slurred, single]
    tempo: 60 -> 120              # start and target

  tonguing:
    kind: articulation
    pattern: 1 1 1 1 1 1 1 1 | 1
    articulations: [single, double]
    tempo: 72 -> 132

  my-page:
    title: A page of my own
    kind: music
    material: The folder on the shelf
    bars: 8
    tempo: 60 -> 100

parts:
  - part: Warm-up
    warm up: yes                  # comes before everything else
    blocks:
      - long-tones: 5             # minutes

  - part: Work
    blocks:
      - five-notes: 8
      - {play: tonguing, minutes: 5, want: 4}
      - {play: my-page, minutes: 10, every: 2 days}
      - {do: Slow breaths to end with, minutes: 2, kind: body}
`;
