/**
 * `npm run sweep`: every kind of fault of time and touch from below hearing to gross, with the share of players with whom it is found, and how
 * heavily it weighs.
 *   node main.js              all kinds, twenty players a size
 *   node main.js 50           fifty players
 *   node main.js 20 rushing   one kind
 */
import { SWEEPS } from './kinds.js';
import { sweepLines, sweepRows } from './table.js';

const [players = '20', only] = process.argv.slice(2);
for (const sweep of SWEEPS.filter(({ kind }) => only === undefined || kind === only)) console.log(`${sweepLines(sweep, sweepRows(sweep, Number(players))).join('\n')}\n`);
