import type { PrepareOrder } from '../../render/orders.ts';

/** What decides all that an effect prepares: a picture by what it shows, since its file may be saved anew. */
export function modelKey({ effect, box, quality, artwork }: PrepareOrder): readonly unknown[] {
  const { moduleUrl, parameters, seed, pictures = {} } = effect;
  const shown = Object.entries(pictures).map(([name, { sha256 }]) => [name, sha256]);
  return [moduleUrl, parameters, seed, shown, box, quality, artwork?.id ?? ''];
}
