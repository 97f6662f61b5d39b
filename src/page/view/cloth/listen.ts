/** Hears a kind of event. @returns Ends it. */
export function listen<Kind extends keyof WindowEventMap>(
  target: EventTarget,
  kind: Kind,
  hear: (event: WindowEventMap[Kind]) => void,
  options?: AddEventListenerOptions,
): () => void {
  const heard = hear as EventListener;
  target.addEventListener(kind, heard, options);
  return () => target.removeEventListener(kind, heard, options);
}
