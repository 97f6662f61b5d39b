/** Where a name may be parted. */
const WORDS = /[^-_/.:,\s]+[-_/.:,\s]*/g;

/** The words that all of some names begin with; at least one word of each is left over. */
export function sharedWords(names: readonly string[]): string {
  if (names.length < 2) return '';
  const [first, ...others] = names.map((name) => name.match(WORDS) ?? []);
  const most = Math.min(first.length, ...others.map(({ length }) => length)) - 1;
  let count = 0;
  while (count < most && others.every((words) => words[count] === first[count])) count++;
  return first.slice(0, count).join('');
}

/** A name without the words it shares. */
export function withoutShared(name: string, shared: string): string {
  return name.startsWith(shared) ? name.slice(shared.length) : name;
}
