// npm run bench -- page [quick]: what the live page takes from a key or a touch to the pixels on screen, in Chromium.
// Every change is made on the page itself; from then on each frame (requestAnimationFrame) samples the canvas of the
// cloth on a grid of points until they differ: that is the first picture; the last frame that changed before no look
// is under way any more is the finished one. Reading the samples back waits for the drawing to be done.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { printTable } from './measure.mjs';
import { drawTile } from './tiles.mjs';

const CHROMIUM = '/usr/bin/chromium';
const command = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
const CALM = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-sync',
];
/** Card, Robertson & Mackinlay 1991: what happens within 0.1 s is one with its cause; within 1 s is an answer. */
const PERCEPTION =
  'within 0.1 s a change is one with its cause, within 1 s it is an answer (Card, Robertson & Mackinlay)';

/** Opens a page of 1280 x 800 px with a tile. */
async function openOn(browser, folder, tile, size) {
  const server = spawn(process.execPath, [command, 'open', tile, '--size', size, '--no-browser'], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const address = await new Promise((resolve) => {
    let said = '';
    server.stdout.on('data', (text) => {
      said += text;
      const found = /http:\/\/\S+/.exec(said);
      if (found) resolve(found[0]);
    });
  });
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  await page.addInitScript(watchCloth);
  const opened = performance.now();
  await page.goto(address);
  await page.locator('canvas.cloth-window').waitFor();
  await page.evaluate(() => window.watch.painted());
  const first = performance.now() - opened;
  return { page, server, first, close: () => Promise.all([context.close(), ended(server)]) };
}

function ended(server) {
  return new Promise((done) => {
    server.once('exit', done);
    server.kill('SIGINT');
  });
}

/** Runs in the page before its own code. */
function watchCloth() {
  let underWay = 0;
  const ask = window.fetch;
  window.fetch = async (address, init) => {
    if (!String(address).endsWith('api/look')) return ask(address, init);
    underWay++;
    try {
      const answer = await ask(address, init);
      return new Response(await answer.arrayBuffer(), { status: answer.status, headers: answer.headers });
    } finally {
      setTimeout(() => underWay--, 0);
    }
  };
  const copy = document.createElement('canvas');
  copy.width = 160;
  copy.height = 100;
  const context = copy.getContext('2d', { willReadFrequently: true });
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  /** Of points 8 px apart, in the part that no ticket covers. */
  const sample = () => {
    const canvas = document.querySelector('canvas.cloth-window');
    if (!canvas?.width) return 0;
    context.imageSmoothingEnabled = false;
    context.clearRect(0, 0, 160, 100);
    context.drawImage(canvas, 0, 0, 160, 100);
    const { data } = context.getImageData(0, 0, 100, 90);
    let mark = 0;
    for (let at = 0; at < data.length; at += 4)
      mark = (Math.imul(mark, 31) + (data[at] << 16) + (data[at + 1] << 8) + data[at + 2]) | 0;
    return mark;
  };
  window.watch = {
    sample,
    async settled() {
      for (let calm = 0; calm < 6; calm = underWay === 0 ? calm + 1 : 0) await frame();
    },
    /** Until the cloth shows anything but its ground. */
    async painted() {
      for (;;) {
        await frame();
        const canvas = document.querySelector('canvas.cloth-window');
        if (!canvas?.width) continue;
        context.drawImage(canvas, 0, 0, 160, 100);
        const { data } = context.getImageData(0, 0, 100, 90);
        const colours = new Set();
        for (let at = 0; at < data.length; at += 4)
          colours.add((data[at] << 16) | (data[at + 1] << 8) | data[at + 2]);
        if (colours.size > 3) return;
      }
    },
    /** ms from the event until the first other picture, and until the finished one. */
    begin(kind) {
      const before = sample();
      return new Promise((done) => {
        addEventListener(
          kind,
          async () => {
            const started = performance.now();
            let first;
            let last = before;
            let finished = 0;
            for (let calm = 0; calm < 6 && performance.now() - started < 5000; ) {
              await frame();
              const now = sample();
              const at = performance.now() - started;
              if (now !== last) {
                first ??= at;
                finished = at;
                last = now;
              }
              calm = underWay === 0 && first !== undefined ? calm + 1 : 0;
            }
            window.watch.result = { first: first ?? Number.NaN, finished };
            window.watch.done?.();
          },
          { once: true, capture: true },
        );
        done();
      });
    },
    async end() {
      if (!window.watch.result) await new Promise((done) => (window.watch.done = done));
      const { result } = window.watch;
      window.watch.result = window.watch.done = undefined;
      return result;
    },
    /** ms between frames while something moves. */
    async frames(ms) {
      const gaps = [];
      for (let from = await frame(), end = from + ms; from < end; ) {
        const next = await frame();
        gaps.push(next - from);
        from = next;
      }
      return gaps;
    },
  };
}

/** So many changes, each made once the last was finished. */
async function changes(page, count, kind, change) {
  const results = [];
  for (let turn = 0; turn < count; turn++) {
    await page.evaluate(() => window.watch.settled());
    await page.evaluate((name) => window.watch.begin(name), kind);
    await change(turn);
    results.push(await page.evaluate(() => window.watch.end()));
  }
  return results;
}

function quantile(numbers, share) {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
}

const figure = (numbers) => `${quantile(numbers, 0.5).toFixed(0)} / ${quantile(numbers, 0.95).toFixed(0)}`;

async function lay(page, effect) {
  const open = page.getByRole('button', { name: /^(Lay a texture|Then lay something more)$/ });
  if ((await open.getAttribute('aria-expanded')) !== 'true') await open.click();
  await page.getByRole('button', { name: effect, exact: true }).click();
  await page.evaluate(() => window.watch.settled());
}

async function takeAway(page) {
  const away = page.getByRole('button', { name: 'take away' });
  while ((await away.count()) > 0) await away.first().click();
  await page.evaluate(() => window.watch.settled());
}

/** A value is stepped to and fro by arrow keys. */
const stepped = (locator) => async (turn) => {
  await locator.press(turn % 8 < 4 ? 'Shift+ArrowDown' : 'Shift+ArrowUp');
};

const rows = [['change', 'goal: first / finished, ms', 'first, ms: median / 95 %', 'finished, ms', 'of']];
function note(name, goal, results) {
  const row = [
    name,
    goal,
    figure(results.map(({ first }) => first)),
    figure(results.map(({ finished }) => finished)),
    results.length,
  ];
  rows.push(row);
  console.log(row.join('  |  '));
}

async function benchCheap(page, count) {
  await lay(page, 'linen weave');
  const number = (name) => page.getByRole('spinbutton', { name, exact: true });
  note('opacity', '60', await changes(page, count, 'keydown', stepped(number('strength'))));
  await takeAway(page);
  await lay(page, 'terrazzo');
  const blend = page.getByRole('combobox', { name: 'blend mode' });
  const modes = ['multiply', 'screen', 'darken', 'normal'];
  note('blend', '60', await changes(page, count, 'change', (turn) => blend.selectOption(modes[turn % 4])));
  await takeAway(page);
  await lay(page, 'dry brush');
  const paper = page.getByLabel(/^paper, /);
  if (await paper.count())
    note(
      'paper',
      '60',
      await changes(page, count, 'input', (turn) => paper.fill(turn % 2 ? '#e0d0b0' : '#d0e0f0')),
    );
  await takeAway(page);
  await lay(page, 'linen weave');
  await lay(page, 'paper tooth');
  const move = page.getByRole('button', { name: /^(sooner|later)$/ }).first();
  note('order of steps', '60', await changes(page, count, 'click', () => move.click()));
  await takeAway(page);
  await lay(page, 'linen weave');
  const where = page.getByRole('combobox', { name: 'where the step lies' });
  await where.selectOption({ label: 'only on colours that I touch' });
  await page.evaluate(() => window.watch.settled());
  await page.locator('.swatch').first().click();
  await page.evaluate(() => window.watch.settled());
  const tolerance = page.getByLabel(/^How far off a colour/);
  note(
    'mask tolerance',
    '60',
    await changes(page, count, 'input', (turn) => tolerance.fill(String(6 + (turn % 9) * 3))),
  );
  await where.selectOption({ label: 'all around a painted resist' });
  await page.evaluate(() => window.watch.settled());
  await page.mouse.move(100, 500);
  await page.mouse.down();
  const strokes = await changes(page, count, 'pointermove', (turn) =>
    page.mouse.move(100 + (turn % 10) * 60, 120 + Math.floor(turn / 10) * 55),
  );
  await page.mouse.up();
  note('a stroke of the brush goes on', '60', strokes);
  const whole = await changes(page, Math.ceil(count / 4), 'pointerdown', async (turn) => {
    await page.mouse.move(140 + (turn % 8) * 70, 150 + Math.floor(turn / 8) * 130);
    await page.mouse.down();
    await page.mouse.up();
  });
  note('a dab, until the texture is laid around it', '60', whole);
  await takeAway(page);
}

async function benchEffects(page, count, effects, goal) {
  for (const [effect] of effects) {
    await lay(page, effect);
    const values = page.getByRole('listitem', { name: `1. ${effect}` }).getByRole('spinbutton');
    const value = values.first();
    const label = await value.getAttribute('aria-label');
    note(`${effect}, ${label}`, goal, await changes(page, count, 'keydown', stepped(value)));
    await takeAway(page);
  }
}

async function benchMoves(page) {
  await lay(page, 'linen weave');
  const row = async (name, move) => {
    const frames = page.evaluate(() => window.watch.frames(2500));
    await move();
    const gaps = await frames;
    const late = gaps.filter((gap) => gap > 17.5).length;
    console.log(
      `  ${name}: ${figure(gaps)} ms from frame to frame (median / 95 %), ${late} of ${gaps.length} late; goal 16.7`,
    );
  };
  console.log('');
  await page.mouse.move(300, 400);
  await row('pan', async () => {
    await page.mouse.down();
    for (let step = 0; step < 120; step++)
      await page.mouse.move(300 + 200 * Math.sin(step / 12), 400 + 150 * Math.cos(step / 9));
    await page.mouse.up();
  });
  await row('zoom', async () => {
    for (let step = 0; step < 60; step++) await page.mouse.wheel(0, step % 40 < 20 ? -60 : 60);
  });
  await takeAway(page);
}

/** MB of all processes of the browser that render pages, and of the server. */
function peakOf(pid) {
  return Number(/VmHWM:\s*(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))[1]) / 1024;
}

async function benchLarge(browser, folder) {
  const large = process.env.BENCH_TILE ?? (await drawTile(folder, 7559));
  const { page, server, first, close } = await openOn(browser, folder, large, '640x640mm');
  await page.evaluate(() => window.watch.settled());
  await lay(page, 'linen weave');
  await page.mouse.move(400, 400);
  for (let step = 0; step < 12; step++) await page.mouse.wheel(0, -120);
  await page.evaluate(() => window.watch.settled());
  const session = await page.context().newCDPSession(page);
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  const { processInfo } = await (await browser.newBrowserCDPSession()).send('SystemInfo.getProcessInfo');
  const renderers = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => peakOf(id));
  console.log(`
  57 megapixels: first picture after ${first.toFixed(0)} ms (goal 2000); server at most ${peakOf(server.pid).toFixed(0)} MB (goal 1000);
  page: its process at most ${Math.max(...renderers).toFixed(0)} MB (goal 400), of which its own objects ${(usedSize / 1e6).toFixed(0)} MB`);
  await close();
}

/** @param isQuick A third of the changes. */
export async function benchPage(isQuick) {
  if (!existsSync(CHROMIUM)) return console.log('There is no chromium here: the page is not measured.');
  const folder = mkdtempSync(join(tmpdir(), 'tenter-bench-page-'));
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: CALM });
  const [many, few] = isQuick ? [30, 10] : [100, 30];
  try {
    console.log(
      `Node ${process.version}, ${cpus().length} cores, load ${loadavg()[0].toFixed(1)} before; ${PERCEPTION}`,
    );
    await benchLarge(browser, folder);
    const tile = await drawTile(folder, 2000);
    const { page, close } = await openOn(browser, folder, tile, '169x169mm');
    await page.evaluate(() => window.watch.settled());
    await benchMoves(page);
    await benchCheap(page, many);
    await benchEffects(
      page,
      many,
      [['linen weave'], ['wood grain'], ['raw silk'], ['paper tooth']],
      '100 / 400',
    );
    await benchEffects(page, few, [['salt bloom'], ['wet into wet'], ['alcohol lift']], '300 / 1200');
    await close();
    printTable(`1280 x 800 px of cloth; load ${loadavg()[0].toFixed(1)} after`, rows);
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
