// Preloaded into a measured process (node --import): writes its peak memory where BENCH_PEAK says.
import { readFileSync, writeFileSync } from 'node:fs';

process.on('exit', () => writeFileSync(process.env.BENCH_PEAK, String(peakBytes())));

/** What getrusage calls the peak is never less than that of the process which started this one; Linux has both. */
function peakBytes() {
  try {
    const [, kilobytes] = /VmHWM:\s*(\d+)/.exec(readFileSync('/proc/self/status', 'utf8'));
    return Number(kilobytes) * 1024;
  } catch {
    return process.resourceUsage().maxRSS * 1024;
  }
}
