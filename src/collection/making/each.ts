/** Runs `work` on every item, `count` at once; results stand in the order of the items. */
export async function mapSome<T, R>(
  items: readonly T[],
  count: number,
  work: (item: T) => Promise<R>,
): Promise<R[]> {
  const results = new Array<R>(items.length);
  let next = 0;
  const lane = async () => {
    while (next < items.length) {
      const index = next++;
      results[index] = await work(items[index]);
    }
  };
  await Promise.all(Array.from({ length: Math.min(count, items.length) }, lane));
  return results;
}
