// Preloaded into a measured process (node --import): writes its core time and peak memory where BENCH_USAGE says.
import { writeFileSync } from 'node:fs';

process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  const usage = { coreSeconds: (userCPUTime + systemCPUTime) / 1e6, megabytes: (maxRSS * 1024) / 1e6 };
  writeFileSync(process.env.BENCH_USAGE, JSON.stringify(usage));
});
