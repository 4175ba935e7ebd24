/** Names with an ending or a slash are files; others are looked for among the player's and the packaged routines. */
export const isFileName = (name: string): boolean => /[/\\]|\.ya?ml$/.test(name);
