import childProcess from 'node:child_process';
import crypto from 'node:crypto';
import dns from 'node:dns';
import fs from 'node:fs';
import http from 'node:http';
import https from 'node:https';
import { syncBuiltinESMExports } from 'node:module';
import net from 'node:net';
import os from 'node:os';
import type { Drawn } from '../../effect/prove/surroundings.ts';

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
const CHANCE = /^(randomBytes|randomInt|randomUUID|randomFill|randomFillSync|pseudoRandomBytes)$/;

/**
 * Notes what the plugin of this thread reads from files and networks, and shows it another machine where
 * that is asked for. For a thread that ends with its task: nothing is put back.
 *
 * @returns What was drawn from so far, each once; it grows.
 */
export function watchOutside(isOtherMachine: boolean): Drawn[] {
  const drawn: Drawn[] = [];
  const note = (found: Drawn) => {
    if (!drawn.some(({ name }) => name === found.name)) drawn.push(found);
  };
  for (const [owner, module, functions] of REACHING) {
    wrapAll(module as Functions, functions, (name) => note({ sort: 'outside', name: `${owner}.${name}` }));
  }
  wrapAll(globalThis as never, /^fetch$/, (name) => note({ sort: 'outside', name }));
  wrapAll(crypto as never, CHANCE, (name) => note({ sort: 'chance', name: `crypto.${name}` }));
  wrapAll(
    os as never,
    MACHINE,
    (name) => note({ sort: 'machine', name: `os.${name}` }),
    isOtherMachine ? another : undefined,
  );
  syncBuiltinESMExports();
  return drawn;
}

function wrapAll(
  module: Functions,
  functions: RegExp,
  note: (name: string) => void,
  change: (value: unknown) => unknown = (value) => value,
): void {
  for (const name of Object.keys(module).filter((key) => functions.test(key))) {
    const original = module[name];
    if (typeof original !== 'function') continue;
    const wrapped = function watched(this: unknown, ...given: unknown[]): unknown {
      if (!isOfNode(watched as () => unknown)) note(name);
      return change(original.apply(this, given));
    };
    module[name] = Object.assign(wrapped, original);
  }
}

/** The like of what a machine says of itself. */
function another(value: unknown): unknown {
  if (typeof value === 'number') return value * 1.7 + 3;
  if (typeof value === 'string') return `${value}-elsewhere`;
  if (Array.isArray(value)) return [...value, ...value, ...value];
  return value;
}

/** Node reads files for itself too, to load what is imported: the caller of `watched` is then one of its own. */
function isOfNode(watched: () => unknown): boolean {
  const at = { stack: '' };
  Error.captureStackTrace(at, watched);
  const caller = at.stack.split('\n').find((line) => line.includes(' at '));
  return caller === undefined || caller.includes('node:');
}
