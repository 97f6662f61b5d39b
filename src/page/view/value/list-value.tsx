import type { ComponentChildren } from 'preact';

interface Properties<Item> {
  readonly name: string;
  readonly items: readonly Item[];
  readonly least: number;
  readonly most: number;
  /** What another one begins as. */
  readonly fresh: Item;
  readonly onItems: (items: readonly Item[]) => void;
  readonly draw: (item: Item, name: string, onItem: (item: Item) => void) => ComponentChildren;
}

/** A list within a sentence: its values, one more, one fewer. */
export function ListValue<Item>({ name, items, least, most, fresh, onItems, draw }: Properties<Item>) {
  return (
    <span class="list">
      {items.map((item, index) => (
        <span key={index}>
          {draw(item, `${name}, ${index + 1} of ${items.length}`, (next) =>
            onItems(items.map((one, place) => (place === index ? next : one))),
          )}
          {index < items.length - 1 && ', '}
        </span>
      ))}
      {items.length < most && (
        <button
          type="button"
          class="small"
          aria-label={`${name}: one more`}
          onClick={() => onItems([...items, items.at(-1) ?? fresh])}
        >
          one more
        </button>
      )}
      {items.length > least && (
        <button
          type="button"
          class="small"
          aria-label={`${name}: one fewer`}
          onClick={() => onItems(items.slice(0, -1))}
        >
          one fewer
        </button>
      )}
    </span>
  );
}
