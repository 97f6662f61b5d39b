import { fork } from 'node:child_process';
import { EXIT } from './exit-codes.ts';

/** Tells a child that it is one, and whether the one before it died: `first` or `again`. */
const VARIABLE = 'TENTER_SUPERVISED';

/** What this process is: the one that looks after another, or the other. */
export function supervisedAs(): 'first' | 'again' | undefined {
  const value = process.env[VARIABLE];
  return process.connected && (value === 'first' || value === 'again') ? value : undefined;
}

/**
 * Runs this same command in a child process and starts it again whenever it dies of something that no
 * thread can be kept from, such as V8 giving up in the middle of one allocation.
 *
 * @param onDeath Told what it died of, before it is started again.
 * @returns The exit code of the child that ended by itself.
 */
export async function supervise(onDeath: (cause: string) => void): Promise<number> {
  // What is typed (Ctrl-C, Ctrl-\) reaches the child as well, and the child says when it is done.
  let isAsked = false;
  const ask = () => {
    isAsked = true;
  };
  for (const signal of [...TYPED, ...PASSED_ON]) process.on(signal, ask);
  for (let role = 'first'; ; role = 'again') {
    const { code, signal } = await runChild(role);
    if (code !== null && code < 128) return code;
    if (isAsked) return EXIT.cancelled;
    onDeath(signal ?? `exit code ${code}`);
  }
}

const TYPED = ['SIGINT', 'SIGQUIT'] as const;

/** Sent to this process alone, as far as it can tell. */
const PASSED_ON = ['SIGTERM', 'SIGHUP'] as const;

function runChild(role: string): Promise<{ code: number | null; signal: NodeJS.Signals | null }> {
  return new Promise((resolve, reject) => {
    const child = fork(process.argv[1], process.argv.slice(2), {
      env: { ...process.env, [VARIABLE]: role },
      stdio: 'inherit',
    });
    const pass = (signal: NodeJS.Signals) => child.kill(signal);
    for (const signal of PASSED_ON) process.on(signal, pass);
    child.once('error', reject);
    child.once('exit', (code, signal) => {
      for (const passed of PASSED_ON) process.off(passed, pass);
      resolve({ code, signal });
    });
  });
}
