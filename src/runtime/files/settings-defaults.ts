/** The settings' shape and defaults are the practice's; the files' side has them under one name. */
export { DEFAULT_SETTINGS, type Settings } from '../../practice/settings.ts';
