/** Property tests draw from one seed, so that a failure can be seen again and a run never fails by luck. */
import { configureGlobal } from 'fast-check';

configureGlobal({ seed: 20261125 });
