/** The layouts that are offered by name; any other drop or brick is written. */
export const LAYOUTS: readonly { readonly value: string; readonly words: string }[] = [
  { value: 'straight', words: 'a straight repeat' },
  { value: 'drop:1/2', words: 'a half-drop' },
  { value: 'drop:1/3', words: 'a third drop' },
  { value: 'drop:2/3', words: 'a two-thirds drop' },
  { value: 'drop:1/4', words: 'a quarter drop' },
  { value: 'brick:1/2', words: 'a half brick' },
  { value: 'brick:1/3', words: 'a third brick' },
  { value: 'mirror-x', words: 'a repeat mirrored across' },
  { value: 'mirror-y', words: 'a repeat mirrored down' },
  { value: 'mirror-xy', words: 'a repeat mirrored both ways' },
  { value: 'turn', words: 'a repeat turned half round' },
];

/** As it is said in a sentence. */
export function layoutWords(layout: string): string {
  const known = LAYOUTS.find(({ value }) => value === layout);
  if (known) return known.words;
  const match = /^(drop|brick):(\d+\/\d+)$/.exec(layout);
  return match ? `a ${match[1]} of ${match[2]}` : layout;
}
