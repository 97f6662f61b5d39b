import { useEffect, useState } from 'preact/hooks';
import { ClothEdge } from './cloth/cloth-edge.tsx';
import { ClothView } from './cloth/cloth-view.tsx';
import { KeysDialog } from './keys-dialog.tsx';
import { Messages } from './messages.tsx';
import { PictureDialog } from './open/picture-dialog.tsx';
import { handleKeys } from './page-keys.ts';
import { SaveDialog } from './saving/save-dialog.tsx';
import { Savings } from './saving/savings.tsx';
import { usePage } from './state/context.ts';
import { Ticket } from './ticket/ticket.tsx';
import { TrialLine } from './trials/line.tsx';

/** The page: one cloth that fills the window, a ticket that hangs on it, trials on a line, words at its edge. */
export function Frame() {
  const page = usePage();
  const { cloth, open } = page;
  const [dropped, drop] = useState<File | undefined>(undefined);
  useEffect(() => handleKeys(page), []);
  return (
    <main
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        const file = event.dataTransfer?.files[0];
        if (!file) return;
        drop(file);
        open.value = 'picture';
      }}
    >
      <ClothView cloth={cloth} />
      <TrialLine />
      <Ticket />
      <div class="edge">
        <Messages />
        <Savings />
        <ClothEdge cloth={cloth} repeatShows={page.closing.value?.repeat} />
      </div>
      {open.value === 'save' && <SaveDialog />}
      {open.value === 'picture' && <PictureDialog dropped={dropped} />}
      {open.value === 'keys' && <KeysDialog />}
    </main>
  );
}
