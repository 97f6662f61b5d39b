/**
 * Two options of which each is said what the other is called: their phrases stand in the wrong order. One phrase
 * alone may name another option by chance, as "in peace" names `in`.
 *
 * @param phrases One for each option, in their order; none where the options speak for themselves.
 * @returns Where the two stand; nothing where there are no such.
 */
export function swappedWords(
  phrases: readonly string[],
  options: readonly string[],
): readonly [number, number] | undefined {
  // A switch has phrases and no options.
  const count = Math.min(phrases.length, options.length);
  for (let one = 0; one < count; one++) {
    for (let other = one + 1; other < count; other++) {
      if (isSaidAs(one, other) && isSaidAs(other, one)) return [one, other];
    }
  }
  return undefined;

  function isSaidAs(of: number, as: number): boolean {
    return hasWord(phrases[of], options[as]) && !hasWord(phrases[of], options[of]);
  }
}

function hasWord(phrase: string, word: string): boolean {
  const wordsOf = (text: string) =>
    text
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u)
      .filter(Boolean);
  const [words, sought] = [wordsOf(phrase), wordsOf(word)];
  return words.some((_, at) => sought.every((part, index) => words[at + index] === part));
}
