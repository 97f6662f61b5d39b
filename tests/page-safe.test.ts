import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { KeptWork } from '../src/page/words/begin.ts';
import type { LookOrder } from '../src/page/words/look.ts';
import type { News } from '../src/page/words/news.ts';
import type { WorkStep } from '../src/page/words/work.ts';
import { RIPPLE, writeTile } from './collection-kit.ts';
import { lookOf, type OpenedPage, openPage, savedBy, untilNews } from './page-kit.ts';

let folder: string;
let page: OpenedPage;
let kept: KeptWork;
let order: LookOrder;

const WORDS = ['open', 'sprig.png', '--size', '32x24mm', '--plugins', 'ripple.ts', '--trust'];
const OPEN = [...WORDS, '--time-limit', '6', '--no-browser'];
const RIPPLES: WorkStep = { id: 'a', effect: 'ripple' };

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-page-safe-'));
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  writeFileSync(join(folder, 'secret.txt'), 'a secret');
  await writeTile(join(folder, 'sprig.png'), 64, 48, 40);
  await writeTile(join(folder, 'other.png'), 64, 48, 90);
  page = await openPage(folder, OPEN);
  kept = (await page.begin()).works[0];
  order = orderWith(RIPPLES);
});
afterAll(async () => {
  await page?.end();
  rmSync(folder, { recursive: true, force: true });
});

function orderWith(...steps: WorkStep[]): LookOrder {
  const { tile, ground, layout, size } = kept.work;
  return {
    tile,
    ground,
    layout,
    size,
    laying: { steps, seed: '1' },
    resists: {},
    density: 2,
    quality: 'sketch',
  };
}

/** Asks with headers that no browser lets a page set. */
function askWith(
  headers: Record<string, string>,
  { path = '/api/begin', method = 'POST', body = '{}' } = {},
): Promise<{ status: number; text: string; headers: Record<string, unknown> }> {
  return new Promise((resolve, reject) => {
    const port = Number(page.address.port);
    const asking = request({ host: '127.0.0.1', port, path, method, headers }, (answer) => {
      let text = '';
      answer.setEncoding('utf8');
      answer.on('data', (piece) => void (text += piece));
      answer.on('end', () => resolve({ status: answer.statusCode!, text, headers: answer.headers }));
    });
    asking.on('error', reject);
    asking.end(['POST', 'PUT'].includes(method) ? body : undefined);
  });
}

const own = () => ({ authorization: `Bearer ${page.key}`, 'content-type': 'application/json' });

describe('who may ask', () => {
  it('has a key of 128 bits or more in the fragment of the address alone', () => {
    expect(Buffer.from(page.key, 'base64url').length * 8).toBeGreaterThanOrEqual(128);
    expect(page.address.pathname + page.address.search).toBe('/');
  });
  it('no key, a wrong one, one in the address: nothing is told', async () => {
    const wrong = `${page.key.slice(0, -1)}${page.key.endsWith('A') ? 'B' : 'A'}`;
    for (const authorization of [
      '',
      'Bearer',
      `Bearer ${wrong}`,
      `Basic ${page.key}`,
      `Bearer ${page.key} x`,
    ]) {
      const answer = await askWith({ authorization });
      expect(answer.status, authorization).toBe(401);
      expect(answer.text).not.toContain('sprig');
    }
    expect((await askWith({}, { path: `/api/begin?key=${page.key}` })).status).toBe(401);
    expect((await askWith(own())).status).toBe(200);
  });
  it('every address of the api asks for the key', async () => {
    const paths = [
      'begin',
      'look',
      'open',
      'check',
      'save',
      'command',
      'collection',
      'news',
      'work/x',
      'save/x',
      '',
    ];
    for (const path of paths)
      for (const method of ['GET', 'POST', 'PUT', 'DELETE'])
        expect((await askWith({}, { path: `/api/${path}`, method })).status, `${method} ${path}`).toBe(401);
  });
  it('another host name that leads here (DNS rebinding) is refused, with the key or without', async () => {
    const port = page.address.port;
    for (const host of [
      'evil.example',
      `evil.example:${port}`,
      '127.0.0.1',
      '127.0.0.1:1',
      `127.0.0.1.evil:${port}`,
    ])
      for (const path of ['/', '/api/begin', '/live.js'])
        expect((await askWith({ ...own(), host }, { path })).status, `${host} ${path}`).toBe(403);
    expect((await askWith({ ...own(), host: `localhost:${port}` })).status).toBe(200);
  });
  it('another page is refused by its origin, and by what the browser says of it', async () => {
    for (const origin of [
      'http://evil.example',
      'null',
      `https://127.0.0.1:${page.address.port}`,
      'http://127.0.0.1',
    ])
      expect((await askWith({ ...own(), origin })).status, origin).toBe(403);
    for (const site of ['cross-site', 'same-site', 'none'])
      expect((await askWith({ ...own(), 'sec-fetch-site': site })).status, site).toBe(403);
    expect((await askWith({ ...own(), origin: page.address.origin })).status).toBe(200);
    const before = await askWith(
      { origin: 'http://evil.example', 'access-control-request-method': 'POST' },
      { method: 'OPTIONS' },
    );
    expect(before.headers['access-control-allow-origin']).toBeUndefined();
  });
  it('a request without a host is no request', async () => {
    const said = await new Promise<string>((resolve) => {
      const socket = connect(Number(page.address.port), '127.0.0.1');
      let text = '';
      socket.on('data', (piece) => void (text += piece));
      socket.on('close', () => resolve(text));
      socket.end(`POST /api/begin HTTP/1.0\r\nAuthorization: Bearer ${page.key}\r\n\r\n`);
    });
    expect(said).toMatch(/^HTTP\/1\.\d 4/);
    expect(said).not.toContain('sprig');
  });
  it('listens on the loopback address alone', async () => {
    const others = Object.values(networkInterfaces())
      .flatMap((found) => found ?? [])
      .filter(({ internal }) => !internal);
    for (const { address } of others) {
      const isOpen = await new Promise<boolean>((resolve) => {
        const socket = connect({ host: address, port: Number(page.address.port), timeout: 3000 });
        socket
          .on('connect', () => resolve(true))
          .on('error', () => resolve(false))
          .on('timeout', () => resolve(false));
        socket.unref();
      });
      expect(isOpen, address).toBe(false);
    }
    const listening = readFileSync('/proc/net/tcp', 'utf8')
      .split('\n')
      .map((line) => line.trim().split(/\s+/));
    const port = Number(page.address.port).toString(16).toUpperCase().padStart(4, '0');
    const places = listening.filter(([, place, , state]) => state === '0A' && place?.endsWith(`:${port}`));
    expect(places.map(([, place]) => place)).toEqual([`0100007F:${port}`]);
  });
  it('says what a browser may do with it, and gives the key to nobody', async () => {
    const shell = await askWith({}, { path: '/', method: 'GET' });
    expect(shell.headers['content-security-policy']).toContain("default-src 'none'");
    expect(shell.headers['content-security-policy']).toContain("frame-ancestors 'none'");
    expect(shell.headers['content-security-policy']).not.toMatch(/unsafe|\*/);
    expect(shell.headers['referrer-policy']).toBe('no-referrer');
    expect(shell.headers['x-content-type-options']).toBe('nosniff');
    expect(shell.text).not.toContain(page.key);
    expect(shell.text).not.toContain('sprig');
    const told = await askWith(own());
    expect(told.headers['cache-control']).toBe('no-store');
    for (const path of ['/api/nothing', '/nothing', '/api/begin/']) {
      const answer = await askWith(own(), { path });
      expect(answer.status, path).toBe(404);
      expect(JSON.stringify(answer), path).not.toContain(page.key);
    }
    expect(page.said().split(page.key)).toHaveLength(2);
  });
});

describe('what may be read', () => {
  it('no path leads to a file, however it is written', async () => {
    const ways = ['../secret.txt', '..%2fsecret.txt', '%2e%2e/secret.txt', '....//secret.txt', '/etc/passwd'];
    const places = ['/', '/api/', '/api/work/', '/api/save/', '/collection/', '/live.js/'];
    for (const place of places)
      for (const way of [...ways, '..\\secret.txt', 'secret.txt', 'main.js', 'main.css'])
        for (const method of ['GET', 'PUT']) {
          const { status, text } = await askWith(own(), { path: place + encodeURI(way), method });
          expect(status, place + way).toBeGreaterThanOrEqual(400);
          expect(text).not.toMatch(/a secret|root:/);
        }
  });
  it('a picture that was never opened is not read: by path, by name, by an id', async () => {
    const picture = join(folder, 'other.png');
    for (const tile of [picture, 'other.png', '../other.png', 'other', '0123456789abcdef']) {
      const answer = await page.ask('look', { ...order, tile });
      expect(answer.status, tile).toBe(400);
      expect((await page.ask('check', { tile, layout: 'straight' })).status, tile).toBe(400);
    }
    for (const named of [
      picture,
      'other.png',
      'opened:0123456789abcdef',
      `opened:${picture}`,
      'opened:../x',
    ]) {
      const answer = await page.ask('look', orderWith({ ...RIPPLES, mask: { picture: named } }));
      expect(answer.status, named).toBe(400);
    }
  });
  it('no plugin is loaded through the page', async () => {
    const place = join(folder, 'planted');
    mkdirSync(place);
    const proof = join(folder, 'planted-ran');
    writeFileSync(
      join(place, 'index.ts'),
      `import { writeFileSync } from 'node:fs'; writeFileSync(${JSON.stringify(proof)}, 'x'); ${RIPPLE.replace("'ripple'", "'planted'")}`,
    );
    for (const effect of [place, './planted', 'planted', `file://${place}/index.ts`, 'planted/index.ts'])
      expect((await page.ask('look', orderWith({ id: 'a', effect }))).status, effect).toBe(400);
    for (const more of [{ plugins: [place] }, { plugin: place }, { trust: true }])
      expect((await page.ask('look', { ...order, ...more })).status).toBe(400);
    expect((await page.ask('begin', { plugins: [place] })).status).toBe(200);
    expect(existsSync(proof)).toBe(false);
  });
  it('what is not known is refused, and so is what is too large', async () => {
    const refused: [string, unknown][] = [
      ['a field', { ...order, more: 1 }],
      ['a field of a step', orderWith({ ...RIPPLES, moduleUrl: 'x' } as WorkStep)],
      ['a density', { ...order, density: 1e6 }],
      ['no density', { ...order, density: 0 }],
      ['a size', { ...order, size: { width: 1e9, height: 1 } }],
      ['a part', { ...order, part: { left: 0, top: 0, width: 1e9, height: 1e9 } }],
      ['a part without a size', { ...order, part: { left: 0, top: 0, width: 0, height: 1 } }],
      ['a text for a number', { ...order, density: '2' }],
      ['a layout', { ...order, layout: 'drop:1/9999' }],
      ['a quality', { ...order, quality: 'best' }],
      ['steps', orderWith(...Array.from({ length: 33 }, (_, k) => ({ ...RIPPLES, id: `s${k}` })))],
      ['nothing', null],
      ['a list', [order]],
    ];
    for (const [what, body] of refused) {
      const answer = await page.ask('look', body);
      expect(answer.status, what).toBe(400);
      expect((await answer.json()).message, what).toBeTruthy();
    }
    const broken = await page.ask('look', undefined, { body: '{"tile":' });
    expect(broken.status).toBe(400);
    const proto = await page.ask('look', undefined, {
      body: JSON.stringify(order).replace('"resists":{}', '"resists":{"__proto__":{"strokes":[]}}'),
    });
    expect([200, 400]).toContain(proto.status);
    expect(({} as { strokes?: unknown }).strokes).toBeUndefined();
  });
  it('the most that may be asked still comes as a picture that a screen shows', async () => {
    // Drawing so much takes long on a busy machine, and is no fault of an effect.
    const patient = await openPage(folder, [...WORDS, '--no-browser']);
    const wide = { ...order, density: 390, size: { width: 10_000, height: 7500 } };
    for (const more of [wide, { ...wide, part: { left: -1e5, top: 0, width: 1e5, height: 1e5 } }]) {
      const answer = await patient.ask('look', more);
      expect(answer.status, answer.ok ? '' : await answer.clone().text()).toBe(200);
      const { look, pixels } = await lookOf(answer);
      expect(look.isCoarse).toBe(true);
      expect(look.width * look.height).toBeLessThanOrEqual(12e6);
      expect(pixels.length).toBe(look.width * look.height * 4);
    }
    await patient.end();
  });
  it('a body that is too large is not read to its end', async () => {
    const large = 'x'.repeat(40e6);
    expect(
      (await page.ask('look', undefined, { body: JSON.stringify({ ...order, ground: large }) })).status,
    ).toBe(413);
    expect((await page.begin()).tiles).toHaveLength(1);
  });
});

describe('what may be written', () => {
  it('a name is a name: no path, no hidden file, no markup, nothing that a terminal obeys', async () => {
    const work = { ...kept.work, laying: order.laying };
    const names = [
      '../out.png',
      '/tmp/out.png',
      'a/b.png',
      'a\\b.png',
      '.hidden.png',
      '-x.png',
      '..',
      'a\0b.png',
    ];
    for (const name of [...names, '<img src=x onerror=alert(1)>.png', 'a\u001b[2Jb.png', 'x'.repeat(500), ''])
      for (const what of ['tile', 'texture', 'recipe', 'collection']) {
        const answer = await page.ask('save', { what, name, work, fit: true });
        expect(answer.status, `${what} ${name}`).toBe(400);
      }
    expect(readdirSync(folder).sort()).toEqual(
      ['.tenter', 'other.png', 'planted', 'ripple.ts', 'secret.txt', 'sprig.png'].filter((name) =>
        existsSync(join(folder, name)),
      ),
    );
    const strange = await page.ask('save', { what: 'tile', name: 'a.exe', work, fit: true });
    expect(((await strange.json()) as { name: string }).name).toBe('a.exe.png');
  });
  it('a work and a resist with a wild name lead nowhere', async () => {
    for (const id of ['..%2fx', '%2e%2e%2fx', 'a%00b', 'x'.repeat(100), 'a.b'])
      expect(
        (await page.ask(`work/${id}`, { ...kept, id: decodeURIComponent(id) }, { method: 'PUT' })).status,
      ).toBe(400);
    expect((await page.ask('work/one', { ...kept, id: 'two' }, { method: 'PUT' })).status).toBe(400);
    const wild = '../../<b>$(touch x)`id`';
    const work = {
      ...kept.work,
      laying: { steps: [{ ...RIPPLES, mask: { picture: `resist:${wild}` } }], seed: '1' },
      resists: { [wild]: { strokes: [{ width: 9, softness: 0, points: [4, 4, 1] }] } },
    };
    const saving = await savedBy(page, { what: 'recipe', name: 'wild', work });
    expect(saving.state, saving.words.join()).toBe('saved');
    const { steps } = JSON.parse(readFileSync(join(folder, 'wild.json'), 'utf8'));
    expect(steps[0].mask.picture).toMatch(/^wild-[\w-]+\.png$/);
    expect(existsSync(join(folder, steps[0].mask.picture))).toBe(true);
  });
  it('what is dropped keeps its name as text, and its header is looked at before it is decoded', async () => {
    const drop = (name: string, body: Uint8Array | string) =>
      page.ask(`open?name=${encodeURIComponent(name)}`, undefined, { body: body as BodyInit });
    const name = '../../<script>alert(1)</script>.png';
    const answer = await drop(name, readFileSync(join(folder, 'other.png')));
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toContain('application/json');
    expect((await answer.json()).name).toBe(name);
    const bomb = Buffer.from(readFileSync(join(folder, 'other.png')));
    bomb.writeUInt32BE(60_000, 16);
    bomb.writeUInt32BE(60_000, 20);
    const refusals: [string, Uint8Array | string, RegExp][] = [
      ['bomb.png', bomb, /megapixels/],
      ['cut.png', bomb.subarray(0, 40), /cut short|damaged|megapixels/],
      ['text.png', 'hello', /text file/],
      ['empty.png', '', /empty|0 bytes/],
      ['page.png', '<svg xmlns="http://www.w3.org/2000/svg"/>', /SVG/],
    ];
    for (const [called, body, words] of refusals) {
      const refused = await drop(called, body);
      expect(refused.status, called).toBe(400);
      const { message } = await refused.json();
      expect(message).toMatch(words);
      expect(message).not.toContain('.tenter');
    }
    const left = readdirSync(join(folder, '.tenter/page/opened'));
    expect(left.filter((file) => file.endsWith('.png'))).toHaveLength(1);
  });
  it('the artwork is never changed', async () => {
    const before = readFileSync(join(folder, 'sprig.png'));
    const work = { ...kept.work, laying: order.laying };
    const saving = await savedBy(page, { what: 'tile', name: 'sprig.png', work, fit: true, overwrite: true });
    expect(saving.state).toBe('failed');
    symlinkSync('sprig.png', join(folder, 'linked.png'));
    expect(
      (await savedBy(page, { what: 'tile', name: 'linked.png', work, fit: true, overwrite: true })).state,
    ).toBe('failed');
    expect(readFileSync(join(folder, 'sprig.png')).equals(before)).toBe(true);
  });
});

describe('what goes on', () => {
  it('two pages do not harm each other: the second is told, and may go on with a copy', async () => {
    const put = (work: KeptWork) => page.ask(`work/${work.id}`, work, { method: 'PUT' });
    const { revision } = (await page.begin()).works.find(({ id }) => id === kept.id)!;
    const mine = { ...kept, revision: revision + 1, work: { ...kept.work, ground: '#111111' } };
    const theirs = { ...kept, revision: revision + 1, work: { ...kept.work, ground: '#222222' } };
    const [first, second] = await Promise.all([put(mine), put(theirs)]);
    expect([first.status, second.status].sort()).toEqual([200, 409]);
    const told = (await (first.status === 409 ? first : second).json()) as { kept: KeptWork };
    expect(told.kept.revision).toBe(revision + 1);
    expect((await put({ ...theirs, id: `${kept.id}-copy`, revision: 1 })).status).toBe(200);
    const ids = (await page.begin()).works.map(({ id }) => id);
    expect(ids).toContain(kept.id);
    expect(ids).toContain(`${kept.id}-copy`);
  });
  it('an effect that throws, hangs or ends its thread is told by its step, and the server goes on', async () => {
    const faulty = (seed: string): WorkStep => ({ id: 'bad', effect: 'ripple', seed });
    for (const [seed, words] of [
      ['bad-throw', /ink/],
      ['bad-exit', /exit|end of its thread/i],
      ['bad-hang', /no progress/],
    ] as const) {
      const answer = await page.ask('look', orderWith({ ...RIPPLES, id: 'good' }, faulty(seed)));
      expect(answer.status, seed).toBe(422);
      const told = await answer.json();
      expect(told.message).toMatch(words);
      expect(told.step, seed).toBe('bad');
      expect((await page.ask('look', order)).status).toBe(200);
    }
  });
  it('a look that is given up ends at once', async () => {
    const stop = new AbortController();
    const hangs = page.ask('look', orderWith({ ...RIPPLES, seed: 'bad-hang' }), { signal: stop.signal });
    setTimeout(() => stop.abort(), 300);
    await expect(hangs).rejects.toThrow();
    expect((await page.ask('look', order)).status).toBe(200);
  });
  it('a picture that changes on disk, or goes, is told', async () => {
    const { tile } = kept.work;
    const changed = await untilNews(
      page,
      (news): news is Extract<News, { kind: 'tile' }> => news.kind === 'tile' && news.tile.width === 32,
      () => writeTile(join(folder, 'sprig.png'), 32, 24, 10),
    );
    expect(changed.tile.id).toBe(tile);
    const lost = await untilNews(
      page,
      (news): news is Extract<News, { kind: 'tile lost' }> => news.kind === 'tile lost',
      async () => writeFileSync(join(folder, 'sprig.png'), 'no picture any more'),
    );
    expect(lost.id).toBe(tile);
    await writeTile(join(folder, 'sprig.png'), 64, 48, 40);
  });
  it('a server that is killed in mid-work loses nothing, and what is broken is set aside', async () => {
    const { works } = await page.begin();
    const { revision } = works.find(({ id }) => id === kept.id)!;
    const last = {
      ...kept,
      revision: revision + 1,
      past: [kept.work],
      work: { ...kept.work, ground: '#abcdef' },
    };
    expect((await page.ask(`work/${kept.id}`, last, { method: 'PUT' })).status).toBe(200);
    const looking = page.ask('look', orderWith({ ...RIPPLES, seed: 'bad-hang' })).catch(() => {});
    page.process.kill('SIGKILL');
    await looking;
    writeFileSync(join(folder, '.tenter/page/works/broken.json'), '{ "id": "broken", "revi');
    page = await openPage(folder, OPEN);
    const begin = await page.begin();
    const again = begin.works.find(({ id }) => id === kept.id)!;
    expect(again).toEqual(last);
    expect(begin.works[0].id).toBe(kept.id);
    expect(begin.faults.join()).toContain('broken');
    const files = readdirSync(join(folder, '.tenter/page/works'));
    expect(files.some((file) => file.startsWith('broken.broken-'))).toBe(true);
    expect(files).not.toContain('broken.json');
  });
  it('a saving ends with its server, or when it is stopped, and leaves nothing', async () => {
    const work = { ...kept.work, laying: { steps: [{ ...RIPPLES, seed: 'bad-hang' }], seed: '1' } };
    const begun = await (await page.ask('save', { what: 'tile', name: 'never.png', work, fit: true })).json();
    expect(begun.state).toBe('under way');
    await untilNews(
      page,
      (news): news is Extract<News, { kind: 'saving' }> =>
        news.kind === 'saving' && news.saving.id === begun.id && news.saving.state !== 'under way',
      async () => void (await page.ask(`save/${begun.id}`, undefined, { method: 'DELETE' })),
    ).then(({ saving }) => expect(['stopped', 'failed']).toContain(saving.state));
    expect(existsSync(join(folder, 'never.png'))).toBe(false);
  });
  it('ends cleanly when it is asked', async () => {
    expect(await page.end()).toBe(0);
    page = await openPage(folder, OPEN);
    const ended = new Promise((done) => page.process.once('exit', (code) => done(code)));
    page.process.kill('SIGTERM');
    expect(await ended).toBe(0);
  });
});
