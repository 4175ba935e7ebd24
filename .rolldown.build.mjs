// The bundler's own command lists two hundred files at every start; a player has no use for them.
import { build } from 'rolldown';
import config from './.rolldown.config.mjs';

await build(config);
