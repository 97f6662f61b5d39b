/**
 * Copies the text of a field, which is left selected: where a browser refuses, a page from disk
 * mostly, one key of the reader's does the rest.
 *
 * @returns False where it was not copied.
 */
export async function copyText(field: HTMLTextAreaElement): Promise<boolean> {
  field.focus();
  field.select();
  return (await copyByClipboard(field.value)) || copyBySelection(field);
}

/** A page that is not of a safe origin has no clipboard at all. */
async function copyByClipboard(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}

function copyBySelection(field: HTMLTextAreaElement): boolean {
  field.focus();
  field.select();
  try {
    return document.execCommand('copy');
  } catch {
    return false;
  }
}
