const PLACE = 'tenter-key';

/**
 * The secret that the address was opened with. It stands in the fragment, which no browser sends anywhere, and is
 * taken out of the address at once; a reload of the same tab finds it again.
 */
export function takeKey(): string {
  const given = new URLSearchParams(location.hash.slice(1)).get('key');
  if (given) {
    sessionStorage.setItem(PLACE, given);
    history.replaceState(null, '', location.pathname);
  }
  return sessionStorage.getItem(PLACE) ?? '';
}
