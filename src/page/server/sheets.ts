import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { Hono } from 'hono';
import { Fault } from '../../fault.ts';

/** ms for which a ticket opens a page: as long as a browser takes to ask for it. */
const TICKET_MS = 60_000;

/**
 * The page of a collection runs code of its own that stands in it. It is kept in a box: it has no name of
 * its own, so that it neither finds the key nor may ask the server, and nothing may be fetched by it.
 */
const BOX = [
  'sandbox allow-scripts allow-downloads allow-modals',
  "default-src 'none'",
  'img-src data: blob:',
  'font-src data:',
  "script-src 'unsafe-inline'",
  "style-src 'unsafe-inline'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Serves pages of collections to whoever has a ticket: a browser that opens a page sends no key. */
export class Sheets {
  readonly #pages: ReadonlyMap<string, string>;
  readonly #tickets = new Map<string, string>();

  /** @param pages Their files, by the name that the page knows. */
  constructor(pages: ReadonlyMap<string, string>) {
    this.#pages = pages;
  }

  /** @returns The address, which opens once and soon. @throws Fault (usage) for an unknown name. */
  ticketFor(name: string): string {
    const file = this.#pages.get(name);
    if (file === undefined) throw unknown(name, [...this.#pages.keys()]);
    const ticket = randomBytes(24).toString('base64url');
    this.#tickets.set(ticket, file);
    setTimeout(() => this.#tickets.delete(ticket), TICKET_MS).unref();
    return `/collection/${ticket}`;
  }

  serve(): Hono {
    const app = new Hono();
    app.get('/:ticket', async (context) => {
      const ticket = context.req.param('ticket');
      const file = this.#tickets.get(ticket);
      if (file === undefined) return context.text('This address opens once. Open the page again.', 404);
      this.#tickets.delete(ticket);
      const page = await readFile(file);
      return context.body(new Uint8Array(page), 200, {
        'Content-Type': 'text/html; charset=utf-8',
        'Content-Security-Policy': BOX,
      });
    });
    return app;
  }
}

function unknown(name: string, names: readonly string[]): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a collection that has a page',
    subject: 'the page of a collection',
    received: `"${name}"`,
    remedy: names.length > 0 ? `There is: ${names.join(', ')}.` : 'Make one with "tenter collect sheet".',
  });
}
