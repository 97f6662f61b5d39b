import { beforeEach, expect, it, vi } from 'vitest';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { runItems } from './run.ts';
import type { RunSettings } from './run-settings.ts';

/** A disk on which so many renders find room, after so many waits. */
const disk = vi.hoisted(() => ({ room: [] as number[], waits: [] as number[], onWait: () => {} }));

vi.mock('./pause.ts', () => ({
  pause: async (milliseconds: number) => {
    disk.waits.push(milliseconds);
    disk.onWait();
  },
}));
vi.mock('../disk/standing.ts', () => ({
  lookForItems: async (_: unknown, items: readonly Item[]) => ({ made: new Map(), missing: items }),
}));
vi.mock('../plan/order.ts', () => ({ orderForWork: (items: readonly Item[]) => items }));
vi.mock('./make-item.ts', () => ({
  ItemMaker: class {
    async make() {
      const full = Object.assign(new Error('full'), { code: 'ENOSPC' });
      if ((disk.room[disk.waits.length] ?? 0) <= 0) throw full;
      disk.room[disk.waits.length]--;
      return { isNew: true, sidecar: { run: { milliseconds: { whole: 1 } }, seams: { closes: true } } };
    }
  },
}));
vi.mock('../disk/owner.ts', () => ({
  Owner: class {
    async open() {}
    async close() {}
    async clearGone() {}
  },
}));
vi.mock('../disk/claims.ts', () => ({
  Claims: class {
    async open() {}
    async ask() {
      return { kind: 'ours', release: async () => {} };
    }
  },
}));
vi.mock('../disk/failures.ts', () => ({ checkFailures: async () => {}, keepFailure: async () => {} }));
vi.mock('./means.ts', () => ({
  openMeans: () => ({
    memory: { most: 0 },
    admit: (_: Item, busy: number) => (busy < 1 ? { end() {} } : undefined),
    expect() {},
    release() {},
    isPromised: () => false,
    saved: () => ({}),
    close: async () => {},
  }),
}));

beforeEach(() => Object.assign(disk, { room: [], waits: [], onWait: () => {} }));

const item = (name: string) =>
  ({ name, address: name, grid: { width: 1, height: 1 }, follow: 'cloth' }) as unknown as Item;
const items = ['a', 'b', 'c'].map(item);
const run = (settings: Partial<RunSettings>) =>
  runItems({ folder: '/nowhere' } as Plan, items, { ...settings } as RunSettings);
const sum = (waits: readonly number[]) => waits.reduce((all, wait) => all + wait, 0);

it('a full disk is waited for as long as was asked', async () => {
  for (const seconds of [0, 0.2, 10, 200]) {
    disk.waits = [];
    expect(await run({ roomSeconds: seconds })).toMatchObject({ stopped: 'full', made: 0, left: 3 });
    expect(sum(disk.waits), `${seconds} s`).toBe(seconds * 1000);
  }
});

it('once something found room, the next is waited for as long again', async () => {
  // Room for one after the fourth wait; what follows is a wait of its own.
  disk.room = [0, 0, 0, 0, 1];
  expect(await run({ roomSeconds: 10 })).toMatchObject({ stopped: 'full', made: 1, left: 2 });
  expect(sum(disk.waits.slice(4))).toBe(10_000);
  expect(disk.waits[4]).toBe(disk.waits[0]);
});

it('a stop during the wait for room is told as a stop', async () => {
  const stopping = new AbortController();
  disk.onWait = () => stopping.abort();
  expect(await run({ roomSeconds: 10, signal: stopping.signal })).toMatchObject({
    stopped: 'cancelled',
    left: 3,
  });
  expect(disk.waits).toHaveLength(1);
});

it('a stop after all is made is none', async () => {
  disk.room = [3];
  const stopping = new AbortController();
  const onEvent: RunSettings['onEvent'] = ({ event }) => event === 'made' && stopping.abort();
  const one = runItems({ folder: '/nowhere' } as Plan, [items[0]], {
    onEvent,
    signal: stopping.signal,
  } as RunSettings);
  expect(await one).toMatchObject({ made: 1, left: 0, stopped: undefined });
});
