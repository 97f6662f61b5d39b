import { LIST_FILE, listOf, printCommand } from './choice-list.ts';
import { copyText } from './copy-text.ts';
import type { PageData, PageSwatch } from './data.ts';
import { button, element } from './element.ts';

/** Shows the list of favourites, to be copied or saved. */
export class ListDialog {
  readonly root: HTMLDialogElement;
  readonly #data: PageData;
  readonly #text = element('textarea', {
    readonly: true,
    rows: '12',
    'aria-label': 'The list',
    spellcheck: 'false',
  });
  readonly #status = element('p', { role: 'status' });

  constructor(data: PageData) {
    this.#data = data;
    const use = element(
      'p',
      {},
      `Save it as ${LIST_FILE} beside the collection file; then the strike-offs are rendered at print size by`,
    );
    this.root = element(
      'dialog',
      { class: 'list', 'aria-labelledby': 'list-title' },
      element('h2', { id: 'list-title' }, 'Favourites for strike-offs'),
      this.#status,
      this.#text,
      use,
      element('p', {}, element('code', {}, printCommand(data))),
      element(
        'div',
        { class: 'tools' },
        button('Copy again', () => void this.#copy()),
        button('Save as file', () => this.#save()),
        button('Close', () => this.root.close()),
      ),
    );
  }

  /** Shows the list and copies it at once. */
  async show(chosen: readonly PageSwatch[]): Promise<void> {
    this.#text.value = listOf(this.#data, chosen);
    this.#status.textContent = '';
    this.root.showModal();
    await this.#copy();
  }

  async #copy(): Promise<void> {
    this.#status.textContent = (await copyText(this.#text))
      ? 'Copied to the clipboard.'
      : 'Not copied: this browser does not allow it here. The list is selected; press Ctrl+C or Cmd+C.';
  }

  #save(): void {
    const address = URL.createObjectURL(new Blob([this.#text.value], { type: 'text/plain' }));
    const link = element('a', { href: address, download: LIST_FILE });
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
    this.#status.textContent = `Saved as ${LIST_FILE}.`;
  }
}
