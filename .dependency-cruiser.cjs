/** Layers of the house, lowest first: a folder may use those before it, never those after it. */
const LAYERS = ['base', 'score', 'recording', 'align', 'harmony', 'analysis', 'measure', 'judge', 'review', 'progress', 'sound', 'engrave', 'store', 'pipeline', 'web'];

const upward = LAYERS.slice(0, -1).map((layer, i) => ({
  name: `${layer}-knows-nothing-above`,
  comment: `src/${layer} may use only the layers before it.`,
  severity: 'error',
  from: { path: `^src/${layer}/` },
  to: { path: `^src/(${[...LAYERS.slice(i + 1), 'browser', 'demo'].join('|')}|cli)(/|\\.ts$)` },
}));

module.exports = {
  forbidden: [
    ...upward,
    { name: 'no-cycles', comment: 'No import cycles, type imports counted.', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'front-door-only',
      comment: 'Another folder is used through its index.ts.',
      severity: 'error',
      from: { path: '^src/([^/]+)/' },
      to: { path: '^src/([^/]+)/', pathNot: ['^src/$1/', '^src/[^/]+/index\\.ts$'] },
    },
    { name: 'command-line-uses-front-doors', severity: 'error', from: { path: '^src/cli\\.ts$' }, to: { path: '^src/[^/]+/', pathNot: '^src/[^/]+/index\\.ts$' } },
    { name: 'demo-makes-recordings-only', comment: 'The maker of the demo room uses the records and nothing after them.', severity: 'error', from: { path: '^src/demo/' }, to: { path: '^src/', pathNot: '^src/(demo|base|score|recording)/' } },
    { name: 'browser-takes-types-only', comment: 'Browser code shares record types, no code that needs node.', severity: 'error', from: { path: '^src/browser/' }, to: { path: '^src/', pathNot: '^src/(browser|base)/', dependencyTypesNot: ['type-only'] } },
    { name: 'no-node-in-the-core', comment: 'Files, clock and processes stay at the edges.', severity: 'error', from: { path: '^src/(base|score|recording|align|harmony|analysis|measure|judge|review|progress|sound)/' }, to: { dependencyTypes: ['core'] } },
    { name: 'nothing-missing', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: { extensions: ['.ts', '.js'], exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default'] },
  },
};
