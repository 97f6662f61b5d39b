import { useState } from 'preact/hooks';
import type { OpenedTile } from '../../words/begin.ts';
import type { CloseOrder } from '../../words/close.ts';
import { usePage } from '../state/context.ts';

/** Reflected edges meet themselves: there is nothing to close. */
const REFLECTED = /^mirror/;

/** Offers to make a picture close that does not, and opens what comes of it beside the first. */
export function MakeItClose({
  order,
  onClosed,
}: {
  order: CloseOrder;
  onClosed: (tile: OpenedTile) => void;
}) {
  const { desk, api } = usePage();
  const [isAtWork, work] = useState(false);
  if (REFLECTED.test(order.layout)) return null;
  return (
    <button
      type="button"
      class="small"
      disabled={isAtWork}
      title="Joins its edges where they differ least and evens the tone along the join; the picture itself stays as it is."
      onClick={() => void close()}
    >
      {isAtWork ? 'closing it…' : 'make it close'}
    </button>
  );

  async function close(): Promise<void> {
    work(true);
    desk.trouble('close');
    try {
      const tile = await api.close(order);
      desk.show(tile);
      onClosed(tile);
    } catch (error) {
      desk.trouble('close', (error as Error).message);
    } finally {
      work(false);
    }
  }
}
