import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  root,
  resolve: {
    alias: [
      { find: /^tenter$/, replacement: `${root}src/index.ts` },
      { find: /^tenter\/(render|inspect)$/, replacement: `${root}src/$1/index.ts` },
      { find: /^tenter\/prove$/, replacement: `${root}src/effect/prove/index.ts` },
    ],
  },
  test: {
    include: ['src/**/*.test.ts', 'plugins/**/*.test.ts', 'tests/**/*.test.ts'],
    reporters: ['default', './tests/closing-line.ts'],
    testTimeout: 120_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
  },
});
