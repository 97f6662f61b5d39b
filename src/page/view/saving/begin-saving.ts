import type { SaveOrder } from '../../words/save.ts';
import type { Api } from '../api.ts';
import type { Desk } from '../state/desk.ts';

/** Begins to save; what comes of it is told among the savings. */
export async function beginSaving(order: SaveOrder, desk: Desk, api: Api): Promise<void> {
  try {
    const saving = await api.save(order);
    desk.trouble('saving');
    desk.orders.set(saving.id, order);
    // The news may have been faster than the answer.
    if (!desk.savings.peek().some(({ id }) => id === saving.id))
      desk.savings.value = [...desk.savings.peek(), saving];
  } catch (error) {
    desk.trouble('saving', `Not saved: ${(error as Error).message}`);
  }
}
