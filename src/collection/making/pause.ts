/** Waits, or until the work is stopped. */
export function pause(milliseconds: number, signal?: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const end = () => {
      clearTimeout(timer);
      signal?.removeEventListener('abort', end);
      resolve();
    };
    const timer = setTimeout(end, milliseconds);
    if (signal?.aborted) end();
    else signal?.addEventListener('abort', end);
  });
}
