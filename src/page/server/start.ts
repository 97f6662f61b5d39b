import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import { Hono } from 'hono';
import { Fault } from '../../fault.ts';
import { type Asked, pageApi } from './api.ts';
import type { Desk } from './desk.ts';
import { guardDoor, guardKey } from './safe/guard.ts';
import { Key } from './safe/key.ts';
import { Saver } from './saving/saver.ts';
import { Sheets } from './sheets.ts';
import { readShell, serveShell } from './shell.ts';
import { tellError } from './told.ts';

/** A page that is open. */
export interface LivePage {
  /** With the key in its fragment, which no browser sends anywhere. */
  readonly address: string;
  /** Ends all that is under way, and the server. */
  close(): Promise<void>;
}

const LOOPBACK = '127.0.0.1';

/**
 * Serves the page of a desk to this computer alone.
 *
 * @param port Any that is free where absent.
 * @throws Fault (usage) for a port that cannot be had.
 */
export async function servePage(desk: Desk, port = 0): Promise<LivePage> {
  const key = new Key();
  const saver = new Saver(desk);
  const sheets = new Sheets(desk.sheets);
  let at = 0;
  const app = new Hono<Asked>();
  app.onError(tellError);
  app.use(guardDoor(() => at));
  app.use('/api/*', guardKey(key));
  app.route('/api', pageApi(desk, saver, sheets));
  app.route('/collection', sheets.serve());
  app.route('/', serveShell(await readShell()));
  const server = createAdaptorServer({ fetch: app.fetch });
  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause: NodeJS.ErrnoException) => reject(noPort(port, cause)));
    server.listen(port, LOOPBACK, resolve);
  });
  at = (server.address() as AddressInfo).port;
  return {
    address: `http://${LOOPBACK}:${at}/#key=${key.text}`,
    async close() {
      const closed = new Promise((done) => server.close(done));
      if ('closeAllConnections' in server) server.closeAllConnections();
      await Promise.all([closed, saver.close(), desk.close()]);
    },
  };
}

function noPort(port: number, cause: NodeJS.ErrnoException): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a port that is free',
    subject: '--port',
    received: `${port} (${cause.code === 'EADDRINUSE' ? 'taken' : cause.message})`,
    remedy: 'Leave --port out: any free port is then taken.',
    cause,
  });
}
