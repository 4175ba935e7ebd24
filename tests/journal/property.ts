/** Property tests, all from one seed, so that a failure can be seen again. */
import * as fc from 'fast-check';

fc.configureGlobal({ seed: 20261125, numRuns: 100 });

export { fc };
