import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import type { Begin } from '../src/page/words/begin.ts';
import type { Look } from '../src/page/words/look.ts';
import type { News } from '../src/page/words/news.ts';
import type { SaveOrder, Saving } from '../src/page/words/save.ts';
import type { Work } from '../src/page/words/work.ts';
import { command } from './collection-kit.ts';

/** A page that "tenter open" has opened, as a browser sees it. */
export interface OpenedPage {
  readonly address: URL;
  readonly key: string;
  readonly process: ChildProcess;
  /** All that the command has said. */
  said(): string;
  /** Asks as the page does. */
  ask(path: string, body?: unknown, more?: RequestInit): Promise<Response>;
  begin(): Promise<Begin>;
  /** Ends it as Ctrl-C does. @returns The exit code. */
  end(): Promise<number | null>;
}

/** Opens a page in a folder. @param words After "tenter". */
export async function openPage(
  folder: string,
  words: readonly string[],
  environment: NodeJS.ProcessEnv = {},
): Promise<OpenedPage> {
  const child = spawn(process.execPath, [command, ...words], {
    cwd: folder,
    env: { ...process.env, ...environment },
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => void (said += text));
  const address = await new Promise<URL>((resolve, reject) => {
    const look = () => {
      const found = /http:\/\/\S+/.exec(said);
      if (found) resolve(new URL(found[0]));
    };
    child.stdout.on('data', look);
    child.once('exit', (code) => reject(new Error(`it ended with ${code}:\n${said}`)));
  });
  const key = address.hash.slice('#key='.length);
  const ask: OpenedPage['ask'] = (path, body, more = {}) =>
    fetch(`${address.origin}/api/${path}`, {
      method: 'POST',
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      ...more,
      headers: { authorization: `Bearer ${key}`, 'content-type': 'application/json', ...more.headers },
    });
  return {
    ...{ address, key, process: child, ask, said: () => said },
    begin: async () => (await ask('begin', {})).json() as Promise<Begin>,
    async end() {
      if (child.exitCode !== null || child.signalCode !== null) return child.exitCode;
      const ended = once(child, 'exit');
      child.kill('SIGINT');
      const [code] = await ended;
      return code;
    },
  };
}

/** The facts of a look and its pixels. */
export async function lookOf(answer: Response): Promise<{ look: Look; pixels: Uint8Array }> {
  const body = Buffer.from(await answer.arrayBuffer());
  const length = body.readUInt32LE(0);
  const look = JSON.parse(body.subarray(4, 4 + length).toString()) as Look;
  return { look, pixels: body.subarray(4 + length) };
}

/** Hears the news until some of it is what was waited for; ends by itself after a minute. */
export async function untilNews<T extends News>(
  page: OpenedPage,
  isIt: (news: News) => news is T,
  meanwhile: () => Promise<void> = async () => {},
): Promise<T> {
  const stop = AbortSignal.timeout(60_000);
  const answer = await page.ask('news', undefined, { method: 'GET', signal: stop });
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
  void meanwhile();
  for (let rest = ''; ; ) {
    const { done, value } = await reader.read();
    if (done) throw new Error('the news ended');
    const lines = (rest + value).split('\n');
    rest = lines.pop()!;
    const found = lines.map((line) => JSON.parse(line) as News).find(isIt);
    if (found) {
      await reader.cancel();
      return found as T;
    }
  }
}

/** Saves and waits until it is over. */
export async function savedBy(page: OpenedPage, order: SaveOrder): Promise<Saving> {
  let begun: Saving | undefined;
  const early: Saving[] = [];
  const isOver = (news: News): news is Extract<News, { kind: 'saving' }> => {
    if (news.kind !== 'saving' || news.saving.state === 'under way') return false;
    early.push(news.saving);
    return begun === undefined ? false : news.saving.id === begun.id;
  };
  let refused: Error | undefined;
  const news = untilNews(page, isOver, async () => {
    try {
      const answer = await page.ask('save', order);
      if (answer.ok) begun = (await answer.json()) as Saving;
      else refused = new Error(await answer.text());
    } catch (error) {
      refused = new Error(`the server did not answer: ${page.said()}`, { cause: error });
    }
  });
  const waited = (async () => {
    for (;;) {
      if (refused) throw refused;
      if (begun && begun.state !== 'under way') return begun;
      const told = early.find(({ id }) => id === begun?.id);
      if (told) return told;
      await new Promise((done) => setTimeout(done, 20));
    }
  })();
  const lost = news.then(
    () => waited,
    (error) => {
      if (begun && begun.state !== 'under way') return waited;
      throw new Error(`no end was told of ${order.name}: ${page.said()}`, { cause: error });
    },
  );
  return Promise.race([waited, lost]);
}

/** The work that the page shows first. */
export async function firstWork(page: OpenedPage): Promise<Work> {
  return (await page.begin()).works[0].work;
}
