import type { HttpBindings } from '@hono/node-server';
import { type Context, Hono } from 'hono';
import { z } from 'zod';
import { atMost, bodyOf } from './body.ts';
import { checkClosing } from './check.ts';
import type { Desk } from './desk.ts';
import { MOST_WORK_BYTES } from './kept/works.ts';
import { look } from './looks/look.ts';
import { closeArtwork } from './opened/closed.ts';
import { keepDropped, MOST_DROPPED } from './opened/dropped.ts';
import { lineOf } from './saving/command-words.ts';
import { tileCommand } from './saving/picture-command.ts';
import type { Saver } from './saving/saver.ts';
import { checkSchema, closeSchema, commandSchema, lookSchema, saveSchema } from './shapes/orders.ts';
import { keptWorkSchema, nameText } from './shapes/work.ts';
import type { Sheets } from './sheets.ts';
import { tellError, told } from './told.ts';

export type Asked = { Bindings: HttpBindings };

/** Bytes of an order: all the strokes of a laying, and no more. */
const MOST_ORDER = 32e6;

/** What the page may ask. Who asks has been looked at before. */
export function pageApi(desk: Desk, saver: Saver, sheets: Sheets): Hono<Asked> {
  const api = new Hono<Asked>();
  api.onError(tellError);
  api.post('/begin', async (context) => context.json(await desk.begin()));
  api.post('/look', atMost(MOST_ORDER), async (context) => {
    const order = await bodyOf(context, 'an order for a look', lookSchema);
    const pixels = await look(desk, order, goneSignal(context));
    return context.body(pixels, 200, { 'Content-Type': 'application/octet-stream' });
  });
  api.post('/open', atMost(MOST_DROPPED), async (context) => {
    const name = nameText.parse(context.req.query('name') ?? 'a picture');
    const { path } = await keepDropped(desk.folder, name, context.req.raw.body ?? emptyBody());
    const tile = await desk.artworks.admit(path, { name });
    await desk.artworks.picture(tile.id);
    return context.json(desk.artworks.tileOf(tile.id));
  });
  api.post('/check', atMost(MOST_ORDER), async (context) =>
    context.json(await checkClosing(desk.artworks, await bodyOf(context, 'what to check', checkSchema))),
  );
  api.post('/close', atMost(MOST_ORDER), async (context) => {
    const order = await bodyOf(context, 'what is to close', closeSchema);
    return context.json(await closeArtwork(desk, order, goneSignal(context)));
  });
  api.put('/work/:id', atMost(MOST_WORK_BYTES), async (context) => {
    const kept = await bodyOf(context, 'a work', keptWorkSchema);
    if (kept.id !== context.req.param('id'))
      return told(context, 400, 'The work says another name than its address.', 'usage');
    const put = await desk.works.put(kept);
    if (!put.isKept) return context.json({ ...OVERTAKEN, kept: put.kept }, 409);
    desk.keep(kept.id);
    return context.json({ revision: kept.revision });
  });
  api.post('/save', atMost(MOST_WORK_BYTES), async (context) =>
    context.json(await saver.begin(await bodyOf(context, 'what to save', saveSchema))),
  );
  api.delete('/save/:id', (context) => {
    saver.stop(context.req.param('id'));
    return context.json({});
  });
  api.post('/command', atMost(MOST_WORK_BYTES), async (context) => {
    const order = await bodyOf(context, 'what to make', commandSchema);
    const words = await tileCommand(desk, { ...order, fit: true });
    return context.json({ command: lineOf(words) });
  });
  api.post('/collection', atMost(MOST_ORDER), async (context) => {
    const { name } = await bodyOf(context, 'the name of a collection', z.strictObject({ name: nameText }));
    return context.json({ address: sheets.ticketFor(name) });
  });
  api.get('/news', (context) =>
    context.body(desk.news.stream(), 200, { 'Content-Type': 'application/x-ndjson; charset=utf-8' }),
  );
  api.all('*', (context) => told(context, 404, 'There is nothing of that name here.', 'usage'));
  return api;
}

const OVERTAKEN = { message: 'This work was changed on another page meanwhile.', kind: 'overtaken' };

/** Aborts once the page has gone away from an answer that it waited for. */
export function goneSignal(context: Context<Asked>): AbortSignal {
  const gone = new AbortController();
  const { outgoing } = context.env;
  outgoing.once('close', () => {
    if (!outgoing.writableFinished) gone.abort();
  });
  return gone.signal;
}

function emptyBody(): ReadableStream<Uint8Array> {
  return new ReadableStream({ start: (pipe) => pipe.close() });
}
