import childProcess from 'node:child_process';
import crypto from 'node:crypto';
import dns from 'node:dns';
import fs from 'node:fs';
import http from 'node:http';
import https from 'node:https';
import { syncBuiltinESMExports } from 'node:module';
import net from 'node:net';
import os from 'node:os';
import v8 from 'node:v8';
import type { Note, Surrounding } from '../../effect/prove/surrounding.ts';
import { swap } from '../../effect/prove/swap.ts';
import { isCalledByNode } from './called-by-node.ts';

type Functions = Record<string, unknown>;

const READING =
  /^(open|read|readv|readdir|readlink|realpath|opendir|stat|lstat|access|exists|createReadStream|watch)/;

/** By what an author writes, the modules of Node that reach out of the thread, and which of their functions do. */
const REACHING: readonly (readonly [name: string, module: object, functions: RegExp])[] = [
  ['fs', fs, READING],
  ['fs.promises', fs.promises, READING],
  ['child_process', childProcess, /^(exec|spawn|fork)/],
  ['http', http, /^(request|get)$/],
  ['https', https, /^(request|get)$/],
  ['net', net, /^(connect|createConnection)$/],
  ['dns', dns, /^(lookup|resolve)/],
];
/** Each asked of by a machine that might be another. */
const MACHINE =
  /^(cpus|availableParallelism|hostname|totalmem|freemem|loadavg|uptime|userInfo|homedir|tmpdir|networkInterfaces|release|version)$/;
const HEAP = /^get(Heap|Heap\w+)Statistics$/;
const CHANCE = /^(randomBytes|randomInt|randomUUID|randomFill|randomFillSync|pseudoRandomBytes)$/;

/**
 * Notes what the plugin of this thread reads from files and networks, and shows it another machine where
 * that is asked for.
 *
 * @returns What puts all back.
 */
export function watchOutside(elsewhere: readonly Surrounding[], note: Note): (() => void)[] {
  const ofMachine = elsewhere.includes('machine') ? another : same;
  const watched = [
    ...REACHING.flatMap(([owner, module, functions]) =>
      wrapAll(module as Functions, functions, (name) => note({ sort: 'outside', name: `${owner}.${name}` })),
    ),
    ...wrapAll(globalThis as never, /^(fetch|WebSocket)$/, (name) => note({ sort: 'outside', name })),
    ...wrapAll(crypto as never, CHANCE, (name) => note({ sort: 'chance', name: `crypto.${name}` })),
    ...wrapAll(os as never, MACHINE, (name) => note({ sort: 'machine', name: `os.${name}` }), ofMachine),
    ...wrapAll(v8 as never, HEAP, (name) => note({ sort: 'machine', name: `v8.${name}` }), ofMachine),
  ];
  syncBuiltinESMExports();
  return [...watched.reverse(), syncBuiltinESMExports].reverse();
}

function same<T>(value: T): T {
  return value;
}

function wrapAll(
  module: Functions,
  functions: RegExp,
  note: (name: string) => void,
  change: (value: unknown) => unknown = same,
): (() => void)[] {
  return Object.keys(module)
    .filter((key) => functions.test(key) && typeof module[key] === 'function')
    .map((name) => {
      const original = module[name] as (...given: unknown[]) => unknown;
      const watched = function watched(this: unknown, ...given: unknown[]): unknown {
        if (isCalledByNode(watched)) return original.apply(this, given);
        note(name);
        return change(original.apply(this, given));
      };
      return swap(module, name, Object.assign(watched, original));
    });
}

/** The like of what a machine says of itself. */
function another(value: unknown): unknown {
  if (typeof value === 'number') return value * 1.7 + 3;
  if (typeof value === 'string') return `${value}-elsewhere`;
  if (Array.isArray(value)) return [...value, ...value, ...value].map(another);
  return value;
}
