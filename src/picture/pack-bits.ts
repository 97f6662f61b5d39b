/** The longest run, and the longest stretch of bytes as they are. */
const LONGEST = 128;

/**
 * PackBits of whole rows, each packed by itself (TIFF 6.0, section 9).
 *
 * @param rowBytes Bytes of a row.
 */
export function packBits(rows: Uint8Array, rowBytes: number): Uint8Array {
  const most = (rows.length / rowBytes) * (rowBytes + 1 + Math.ceil(rowBytes / LONGEST));
  const out = new Uint8Array(most);
  let to = 0;
  for (let start = 0; start < rows.length; start += rowBytes) {
    const end = start + rowBytes;
    for (let at = start; at < end; ) {
      const run = runAt(rows, at, end);
      if (run > 1) {
        out[to++] = 257 - run;
        out[to++] = rows[at];
        at += run;
        continue;
      }
      const from = at;
      // A run of two inside other bytes saves nothing: three end the stretch.
      while (at < end && at - from < LONGEST && !isRunOfThree(rows, at, end)) at++;
      out[to++] = at - from - 1;
      out.set(rows.subarray(from, at), to);
      to += at - from;
    }
  }
  return out.subarray(0, to);
}

function runAt(rows: Uint8Array, at: number, end: number): number {
  const last = Math.min(end, at + LONGEST);
  let next = at + 1;
  while (next < last && rows[next] === rows[at]) next++;
  return next - at;
}

function isRunOfThree(rows: Uint8Array, at: number, end: number): boolean {
  return at + 2 < end && rows[at] === rows[at + 1] && rows[at] === rows[at + 2];
}
