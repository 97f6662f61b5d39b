type Child = Node | string | undefined;
type Attributes = Readonly<Record<string, string | boolean | undefined>>;

/**
 * Makes an element. All text goes in as text, never as markup: names may hold anything.
 *
 * @param attributes Those that are `true` stand without a value; those that are `false` or absent do not stand.
 */
export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== undefined && value !== false) made.setAttribute(name, value === true ? '' : value);
  }
  made.append(...children.filter((child) => child !== undefined));
  return made;
}

/** A button that does something. */
export function button(words: string, act: () => void, attributes: Attributes = {}): HTMLButtonElement {
  const made = element('button', { type: 'button', ...attributes }, words);
  made.addEventListener('click', act);
  return made;
}
