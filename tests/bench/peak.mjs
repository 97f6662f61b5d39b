// Preloaded into a measured process (node --import): writes its peak memory where BENCH_PEAK says.
import { writeFileSync } from 'node:fs';

process.on('exit', () =>
  writeFileSync(process.env.BENCH_PEAK, String(process.resourceUsage().maxRSS * 1024)),
);
