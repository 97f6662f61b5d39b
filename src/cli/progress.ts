/** Shows how far long work has come on one line of a terminal; says nothing in a pipe. */
export interface ProgressLine {
  show(done: number, what: string): void;
  clear(): void;
}

const BAR_CELLS = 24;
const SILENT: ProgressLine = { show: () => {}, clear: () => {} };

/** @param stream Where to; only a terminal is written to. */
export function progressLine(stream: NodeJS.WriteStream, quiet = false): ProgressLine {
  if (!stream.isTTY || quiet) return SILENT;
  let last = '';
  return {
    show(done, what) {
      const cells = Math.round(Math.min(1, Math.max(0, done)) * BAR_CELLS);
      const line = `${'#'.repeat(cells)}${'.'.repeat(BAR_CELLS - cells)} ${Math.round(done * 100)} %  ${what}`;
      if (line === last) return;
      last = line;
      stream.write(`\r\u001b[K${line}`);
    },
    clear() {
      if (last) stream.write('\r\u001b[K');
      last = '';
    },
  };
}
