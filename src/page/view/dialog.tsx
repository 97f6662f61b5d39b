import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/** A question over the page; Escape or a press beside it gives it up. */
export function Dialog({
  title,
  onClose,
  children,
}: {
  title: string;
  onClose: () => void;
  children: ComponentChildren;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current!.showModal(), []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes a dialog by itself
    <dialog
      ref={dialog}
      aria-label={title}
      onClose={onClose}
      onClick={(event) => event.target === dialog.current && dialog.current?.close()}
    >
      <div class="sheet">
        <h2>{title}</h2>
        {children}
        <p class="doings">
          <button type="button" class="small" onClick={() => dialog.current!.close()}>
            close
          </button>
        </p>
      </div>
    </dialog>
  );
}
