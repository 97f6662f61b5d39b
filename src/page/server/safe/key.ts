import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** Bits of chance in a key: more than anybody guesses. */
const KEY_BITS = 192;

/** The secret of one server: whoever has it may do what the page may. It lives as long as the server. */
export class Key {
  /** As it stands in the fragment of the address. */
  readonly text = randomBytes(KEY_BITS / 8).toString('base64url');
  readonly #digest = digestOf(this.text);

  /** Whether an `Authorization` header carries this key; it takes as long whether it does or not. */
  opens(header: string | undefined): boolean {
    const said = /^Bearer ([\w-]{1,200})$/.exec(header ?? '')?.[1] ?? '';
    return timingSafeEqual(digestOf(said), this.#digest);
  }
}

function digestOf(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
