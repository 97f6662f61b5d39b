import { spawn } from 'node:child_process';
import { constants, setPriority } from 'node:os';
import { join } from 'node:path';
import { cancelled } from '../../../effect/setting.ts';
import { Fault, type FaultKind } from '../../../fault.ts';
import { PARENT_VARIABLE } from '../../../host/code/parent.ts';
import { packageRoot } from '../../../host/code/root.ts';
import { TRUST_VARIABLE } from '../../../host/plugins/consent.ts';
import type { Words } from './command-words.ts';

const COMMAND = join(packageRoot, 'dist/cli/main.js');

/** Letters that a command may answer with. */
const MOST_LETTERS = 4e6;

/** ms until a command that does not hear that it should stop is ended. */
const PATIENCE_MS = 5000;
/** ms that the output may stay open after the end. */
const LEFT_BEHIND_MS = 1000;

export interface RunTools {
  /** True where the person vouched for the plugins when the page was opened. */
  readonly trust: boolean;
  readonly signal: AbortSignal;
  readonly onProgress: (done: number) => void;
  /** Besides 0, the exit code with which the command has done its work and found something; none where absent. */
  readonly found?: number;
}

/**
 * Runs a command of tenter as it would be run from a terminal, in a process of its own that leaves the
 * processor to whoever works on the page, and whose memory is its own.
 *
 * @returns What it says with `--json`.
 * @throws Fault as the command told it; of kind `cancelled` where `signal` asked: nothing is then written.
 */
export function runCommand(
  words: Words,
  { trust, signal, onProgress, found = 0 }: RunTools,
): Promise<unknown> {
  if (signal.aborted) return Promise.reject(cancelled());
  const child = spawn(process.execPath, [COMMAND, ...words, '--json'], {
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    env: { ...process.env, [PARENT_VARIABLE]: '1', ...(trust ? { [TRUST_VARIABLE]: '1' } : {}) },
  });
  const stop = () => {
    child.kill('SIGINT');
    setTimeout(() => child.kill('SIGKILL'), PATIENCE_MS).unref();
  };
  signal.addEventListener('abort', stop, { once: true });
  if (child.pid !== undefined) yieldTo(child.pid);
  child.on('message', (said: { readonly done?: unknown }) => {
    if (typeof said?.done === 'number') onProgress(said.done);
  });
  const [out, err] = [gather(child.stdout!), gather(child.stderr!)];
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    // What a command leaves behind may hold its output open; that is not waited for.
    child.once('exit', (code) => setTimeout(() => child.emit('close', code), LEFT_BEHIND_MS).unref());
    child.once('close', (code) => {
      signal.removeEventListener('abort', stop);
      const said = code === 0 || code === found ? parsed(out()) : undefined;
      if (said !== undefined) resolve(said);
      else reject(signal.aborted ? cancelled() : faultOf(out(), err(), code));
    });
  });
}

/** Looks come first: they are waited for. Where the system does not let us say so, nothing is lost. */
function yieldTo(child: number): void {
  try {
    setPriority(child, constants.priority.PRIORITY_BELOW_NORMAL);
  } catch {
    // It has ended already, or may not be told.
  }
}

function gather(stream: NodeJS.ReadableStream): () => string {
  let text = '';
  stream.setEncoding('utf8');
  stream.on('data', (piece: string) => {
    if (text.length < MOST_LETTERS) text += piece;
  });
  return () => text;
}

function faultOf(out: string, err: string, code: number | null): Error {
  const told = toldFault(out);
  if (!told) return new Error(`the command ended with ${code}: ${err.slice(-2000)}`);
  const { kind, expected = '', subject = '', received = '', message, details } = told;
  return new Fault({ kind, expected, subject, received, details, saying: message });
}

interface ToldFault {
  readonly kind: FaultKind;
  readonly message: string;
  readonly expected?: string;
  readonly subject?: string;
  readonly received?: string;
  readonly details?: Record<string, unknown>;
}

function toldFault(out: string): ToldFault | undefined {
  return (parsed(out) as { fault?: ToldFault } | undefined)?.fault;
}

/** Nothing for what is no JSON. */
function parsed(out: string): unknown {
  try {
    return JSON.parse(out);
  } catch {
    return undefined;
  }
}
