import type { MiddlewareHandler } from 'hono';
import { told } from '../told.ts';
import { ALWAYS } from './headers.ts';
import type { Key } from './key.ts';

/** Names of this machine that lead to no other. */
const LOOPBACK = ['127.0.0.1', 'localhost'];

/**
 * Lets in whoever came by the loopback name and from no other page. A name that another's server gives
 * out for this machine (DNS rebinding) shows in `Host`, a page of another's in `Origin`.
 *
 * @param port Asked when a request comes, for it is known only once the server listens.
 */
export function guardDoor(port: () => number): MiddlewareHandler {
  return async (context, next) => {
    const host = context.req.header('host');
    const origin = context.req.header('origin');
    const isOwnHost = LOOPBACK.some((name) => host === `${name}:${port()}`);
    const isOwnOrigin = origin === undefined || origin === `http://${host}`;
    for (const [name, value] of Object.entries(ALWAYS)) context.header(name, value);
    if (!isOwnHost) return told(context, 403, 'This page is for this computer alone.', 'refused');
    if (!isOwnOrigin) return told(context, 403, 'Only the page itself may ask.', 'refused');
    await next();
  };
}

/** Lets in whoever has the key. Fetch Metadata says besides whether a browser asks for its own page. */
export function guardKey(key: Key): MiddlewareHandler {
  return async (context, next) => {
    const site = context.req.header('sec-fetch-site');
    if (site !== undefined && site !== 'same-origin')
      return told(context, 403, 'Only the page itself may ask.', 'refused');
    if (!key.opens(context.req.header('authorization')))
      return told(
        context,
        401,
        'The key is missing or is that of another day. Open the address that the command printed.',
        'refused',
      );
    await next();
  };
}
