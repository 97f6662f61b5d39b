import type { Reporter, TestModule } from 'vitest/node';

/** Ends a test run with the plain line `N passed, N failed`, which any runner of runners can read. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) counts[test.result().state] += 1;
      if (!module.ok() && [...module.children.allTests('failed')].length === 0) counts.failed += 1;
    }
    const skipped = counts.skipped + counts.pending;
    console.log(`\n${counts.passed} passed, ${counts.failed} failed${skipped ? `, ${skipped} skipped` : ''}`);
  }
}
