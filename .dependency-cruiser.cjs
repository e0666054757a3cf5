// The floors of the house: a package may import only from floors below its own.
const floors = ['quant', 'breeding', 'demo', 'records', 'server', 'cli', 'web'];

const upward = floors.map((name, floor) => ({
  name: `${name}-imports-only-from-below`,
  comment: `packages/${name} stands on floor ${floor + 1}; it may not import from the floors above it.`,
  severity: 'error',
  from: { path: `^packages/${name}/` },
  to: { path: `^packages/(${floors.slice(floor + 1).join('|') || '-'})/` },
}));

module.exports = {
  forbidden: [
    ...upward,
    {
      name: 'web-talks-through-the-api',
      comment:
        'The browser app imports breeding for types and small sums, and of the server its contract alone.',
      severity: 'error',
      from: { path: '^packages/web/' },
      to: { path: '^packages/(demo|records|cli|quant|server/(?!src/contract))' },
    },
    {
      name: 'command-is-not-imported-by-the-app',
      severity: 'error',
      from: { path: '^packages/cli/' },
      to: { path: '^packages/web/' },
    },
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'sql-only-in-records',
      comment: 'The records floor is the only place with SQL.',
      severity: 'error',
      from: { path: '^packages/', pathNot: '^packages/records/' },
      to: { path: 'node_modules/(kysely|better-sqlite3|pg)/' },
    },
    {
      name: 'computations-are-pure',
      comment: 'quant and breeding run in Node, in a worker and in the browser: no I/O.',
      severity: 'error',
      from: { path: '^packages/(quant|breeding)/src', pathNot: '\\.test\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)dist/' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['source', 'import', 'node', 'default'],
    },
  },
};
