// Preloaded into a measured process (node --import): writes its core time and peak memory where BENCH_USAGE says.
import { readFileSync, writeFileSync } from 'node:fs';

process.on('exit', () => {
  const { userCPUTime, systemCPUTime } = process.resourceUsage();
  const usage = { coreSeconds: (userCPUTime + systemCPUTime) / 1e6, megabytes: peakBytes() / 1e6 };
  writeFileSync(process.env.BENCH_USAGE, JSON.stringify(usage));
});

/** What getrusage calls the peak is never less than that of the process which started this one; Linux has both. */
function peakBytes() {
  try {
    const [, kilobytes] = /VmHWM:\s*(\d+)/.exec(readFileSync('/proc/self/status', 'utf8'));
    return Number(kilobytes) * 1024;
  } catch {
    return process.resourceUsage().maxRSS * 1024;
  }
}
