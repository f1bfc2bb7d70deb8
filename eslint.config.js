import js from '@eslint/js';
import jsdoc from 'eslint-plugin-jsdoc';
import tseslint from 'typescript-eslint';

/** Rules of the house that a tool can check; DEVELOPERS.md explains them. */
export { config as default };

const config = tseslint.config(
  { ignores: ['dist/', 'node_modules/', 'coverage/', 'data/', 'eslint.config.js', '.dependency-cruiser.cjs'] },
  js.configs.recommended,
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: {
      parserOptions: {
        project: ['./tsconfig.json', './src/browser/tsconfig.json', './tests/tsconfig.json'],
        tsconfigRootDir: import.meta.dirname,
      },
    },
    rules: {
      'max-lines': ['error', { max: 300 }],
      'max-lines-per-function': ['error', { max: 60, skipBlankLines: true, skipComments: true }],
      'max-params': ['error', 4],
      eqeqeq: 'error',
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
        { selector: 'ThrowStatement > NewExpression[callee.name="Error"]', message: 'Throw InputError for bad data, RangeError or TypeError for our own misuse.' },
        { selector: 'Program > VariableDeclaration[kind="let"]', message: 'No module-level mutable state.' },
      ],
      '@typescript-eslint/consistent-type-assertions': ['error', { assertionStyle: 'never' }],
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
    },
  },
  {
    files: ['src/**/*.ts'],
    plugins: { jsdoc },
    rules: {
      'jsdoc/require-jsdoc': [
        'error',
        {
          publicOnly: true,
          require: { FunctionDeclaration: true, ClassDeclaration: true },
          contexts: ['ExportNamedDeclaration > TSInterfaceDeclaration', 'ExportNamedDeclaration > TSTypeAliasDeclaration', 'ExportNamedDeclaration > VariableDeclaration'],
        },
      ],
    },
  },
  {
    // a test may build a record by hand and must not pretend that an index is checked
    files: ['tests/**/*.ts'],
    rules: {
      'max-lines-per-function': 'off',
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/consistent-type-assertions': 'off',
    },
  },
  {
    files: ['vitest.config.ts'],
    rules: { 'no-restricted-syntax': 'off' },
  },
);
