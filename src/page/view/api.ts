import type { Begin, KeptWork, OpenedTile } from '../words/begin.ts';
import type { CloseOrder } from '../words/close.ts';
import type { Look, LookOrder, Told } from '../words/look.ts';
import type { Closing, News } from '../words/news.ts';
import type { CommandOrder, SaveOrder, Saving } from '../words/save.ts';

/** What the server refused or failed at, in its own words. */
export class Refusal extends Error {
  readonly told: Told;
  readonly status: number;

  constructor(told: Told, status: number) {
    super(told.message);
    this.told = told;
    this.status = status;
  }
}

/** A work that another tab has changed meanwhile. */
export class Overtaken extends Error {
  readonly kept: KeptWork;

  constructor(kept: KeptWork) {
    super('Another tab has changed this work.');
    this.kept = kept;
  }
}

/** All that the page asks of the server; every call bears the key. */
export class Api {
  readonly #key: string;

  constructor(key: string) {
    this.#key = key;
  }

  begin(): Promise<Begin> {
    return this.#json('api/begin', {});
  }

  /** A picture that was dropped or chosen. */
  async open(name: string, picture: Blob): Promise<OpenedTile> {
    const answer = await this.#ask(`api/open?name=${encodeURIComponent(name)}`, {
      method: 'POST',
      body: picture,
    });
    return answer.json();
  }

  /** @returns The facts of a look and its RGBA. */
  async look(
    order: LookOrder,
    signal: AbortSignal,
  ): Promise<{ look: Look; pixels: Uint8ClampedArray<ArrayBuffer> }> {
    const answer = await this.#ask('api/look', { ...asJson(order), signal });
    const body = await answer.arrayBuffer();
    const length = new DataView(body).getUint32(0, true);
    const look = JSON.parse(new TextDecoder().decode(new Uint8Array(body, 4, length))) as Look;
    return { look, pixels: new Uint8ClampedArray(body, 4 + length, look.width * look.height * 4) };
  }

  check(order: Pick<LookOrder, 'tile' | 'layout' | 'size'>): Promise<Closing> {
    return this.#json('api/check', order);
  }

  /** A copy of an artwork that closes over a layout. */
  close(order: CloseOrder): Promise<OpenedTile> {
    return this.#json('api/close', order);
  }

  save(order: SaveOrder): Promise<Saving> {
    return this.#json('api/save', order);
  }

  async stop(saving: string): Promise<void> {
    await this.#ask(`api/save/${encodeURIComponent(saving)}`, { method: 'DELETE' });
  }

  command(order: CommandOrder): Promise<{ command: string }> {
    return this.#json('api/command', order);
  }

  /** Where the page of a collection opens, once. */
  collection(name: string): Promise<{ address: string }> {
    return this.#json('api/collection', { name });
  }

  /** @throws Overtaken where another tab was first. */
  async keep(kept: KeptWork): Promise<void> {
    try {
      // What is on its way while a tab closes must outlive it; browsers bound that to 64 KB.
      const body = asJson(kept);
      const keepalive = body.body.length < 60_000;
      await this.#ask(`api/work/${encodeURIComponent(kept.id)}`, { ...body, method: 'PUT', keepalive });
    } catch (error) {
      const told = error instanceof Refusal && error.status === 409 ? error.told : undefined;
      throw told && 'kept' in told ? new Overtaken(told.kept as KeptWork) : error;
    }
  }

  /** Hears the news until the connection ends. */
  async listen(hear: (news: News) => void): Promise<void> {
    const answer = await this.#ask('api/news', { method: 'GET' });
    const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
    let rest = '';
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      const lines = (rest + value).split('\n');
      rest = lines.pop()!;
      for (const line of lines) if (line) hear(JSON.parse(line) as News);
    }
  }

  async #json<Answer>(path: string, order: unknown): Promise<Answer> {
    return (await this.#ask(path, asJson(order))).json();
  }

  async #ask(path: string, init: RequestInit): Promise<Response> {
    const headers = { ...init.headers, authorization: `Bearer ${this.#key}` };
    const answer = await fetch(path, { ...init, headers });
    if (answer.ok) return answer;
    const told = await answer
      .json()
      .catch(() => ({ message: `The server answered ${answer.status}.`, kind: '' }));
    throw new Refusal(told, answer.status);
  }
}

function asJson(order: unknown) {
  return {
    method: 'POST',
    body: JSON.stringify(order),
    headers: { 'content-type': 'application/json' },
  };
}
