import type { Page } from './state/context.ts';
import { allThrownAgain } from './state/edit.ts';
import { pinned } from './trials/pin.ts';

/** Keys of the page, where nothing is being written. @returns What takes them away again. */
export function handleKeys({ desk, open, bare }: Page): () => void {
  const down = (event: KeyboardEvent) => {
    const target = event.target as Element;
    if (event.defaultPrevented || open.peek() !== undefined) return;
    if (target.closest('input:not([type=color]):not([type=radio]), textarea')) return;
    const isCommand = event.ctrlKey || event.metaKey;
    if (isCommand && event.key.toLowerCase() === 'z') {
      if (event.shiftKey) desk.redo();
      else desk.undo();
    } else if (isCommand && event.key.toLowerCase() === 'y') desk.redo();
    else if (isCommand || event.altKey || target.closest('select')) return;
    else if (event.key === 't') desk.change(allThrownAgain);
    else if (event.key === 'p') desk.change(pinned);
    else if (event.key === 'o') bare.value = true;
    else return;
    event.preventDefault();
  };
  const up = (event: KeyboardEvent) => {
    if (event.key === 'o') bare.value = false;
  };
  addEventListener('keydown', down);
  addEventListener('keyup', up);
  return () => {
    removeEventListener('keydown', down);
    removeEventListener('keyup', up);
  };
}
