/** True where `text` fits a pattern in which * stands for any letters. Case counts. */
export function fitsPattern(pattern: string, text: string): boolean {
  const parts = pattern.split('*').map((part) => part.replaceAll(/[.+?^${}()|[\]\\]/g, '\\$&'));
  return new RegExp(`^${parts.join('.*')}$`, 's').test(text);
}
