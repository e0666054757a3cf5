import { defineConfig } from 'vitest/config';

// Packages resolve to their TypeScript sources under the condition 'source', so tests need no build first.
const conditions = ['source'];

export default defineConfig({
  resolve: { conditions },
  ssr: { resolve: { conditions } },
  test: {
    include: ['packages/*/{src,test}/**/*.test.{ts,tsx}', 'tests/**/*.test.ts'],
    server: { deps: { inline: [/@keelrow\//] } },
    env: { TZ: 'UTC', LC_ALL: 'C.UTF-8' },
    testTimeout: 240_000,
    hookTimeout: 240_000,
    globalSetup: ['tests/support/postgres-cluster.ts'],
    pool: 'forks',
    maxWorkers: 2,
  },
});
