/** For entries and histories made by hand, where a test does not care. */
export const KEPT = { v: 1, id: '018bcfe5-6800-7000-8000-000000000000' } as const;

/** Where a line stands on its ladder. */
export const ON_LADDER = { bpm: 60, cleanRun: 0, missedRun: 0 } as const;
