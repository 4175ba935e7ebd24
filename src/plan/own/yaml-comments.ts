/** The comments of a YAML text, so that an edit can be held to keeping them. */
import { Lexer } from 'yaml';

/** The lexer puts this before the text of a value, which may begin with a # too. */
const VALUE_COMES = '\u001f';

/** `commentsIn('a: 1 # one\n# two\n')` is ['# one', '# two']. */
export function commentsIn(text: string): readonly string[] {
  const tokens = [...new Lexer().lex(text)];
  return tokens
    .filter((token, i) => token.startsWith('#') && tokens[i - 1] !== VALUE_COMES)
    .map((one) => one.trimEnd());
}

/** Whether every comment of the one is in the other, in the same order. */
export function keepsComments(before: string, after: string): boolean {
  const left = [...commentsIn(before)];
  for (const comment of commentsIn(after)) if (comment === left[0]) left.shift();
  return left.length === 0;
}
