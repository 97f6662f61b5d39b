/** Closes what was opened in place, and gives the focus back to what opened it. */
export function onEscape(close: () => void): (event: KeyboardEvent) => void {
  return (event) => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    const opener = (event.currentTarget as Element).querySelector<HTMLElement>('[aria-expanded]');
    close();
    opener?.focus();
  };
}
