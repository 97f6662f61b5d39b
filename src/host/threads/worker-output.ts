import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

const OUTPUT = 1;
const MESSAGES = 2;

/**
 * Sends what is written to the number of the standard output to that of messages instead, so that the
 * host's own answers stay whole. What opens it anew (`/dev/stdout`, a program that is started) is not seen.
 */
export function turnOutputAside(): void {
  const { write, writeSync, writev, writevSync } = fs;
  Object.assign(fs, {
    write: (file: number, ...rest: unknown[]) => Reflect.apply(write, fs, [aside(file), ...rest]),
    writeSync: (file: number, ...rest: unknown[]) => Reflect.apply(writeSync, fs, [aside(file), ...rest]),
    writev: (file: number, ...rest: unknown[]) => Reflect.apply(writev, fs, [aside(file), ...rest]),
    writevSync: (file: number, ...rest: unknown[]) => Reflect.apply(writevSync, fs, [aside(file), ...rest]),
  });
  syncBuiltinESMExports();
}

function aside(file: number): number {
  return file === OUTPUT ? MESSAGES : file;
}
