/**
 * Property tests draw from one seed, so that a failure can be seen again and a run never fails by luck.
 * PROPERTY_RUNS says how often, where a property does not say so itself: mutation testing has no time for a hundred.
 */
import { configureGlobal } from 'fast-check';

configureGlobal({ seed: 20261125, numRuns: Number(process.env['PROPERTY_RUNS'] ?? 100) });
