/** What a scale is: the intervals of its degrees, and how it is written. */
export interface Scale {
  /** By which it is found again. */
  readonly name: string;
  /** As the player sees it. */
  readonly called: string;
  readonly aliases: readonly string[];
  /** Intervals above the tonic, in rising order: '1P 2M 3M'. Going up. */
  readonly up: readonly string[];
  /** The same going down, where it differs. */
  readonly down: readonly string[];
  /** Fifths between the signature of the tonic's major and this scale's; null takes the key's own. */
  readonly signature: number | null;
  /** Double sharps and flats, and white keys named by a sign, are written the simple way. */
  readonly simple: boolean;
  /** The scale that is meant in a minor key, or null where it stays. */
  readonly parallelMinor: string | null;
  readonly kind: 'scale' | 'arpeggio';
}
