/** The help: one page in the teacher's words, with the marks drawn by the pencil that draws them on the score. */
import { networkInterfaces } from 'node:os';
import { Router } from 'express';
import { added, earlyArrow, lateArrow, look, missing, ring, stop, stretch, tick, type MarkLabels } from '../engrave/index.js';
import { drawing, element } from './svg.js';
import { sendPage } from './views.js';

/** A mark as the help shows it. */
export interface MarkShown {
  /** SVG. */
  readonly svg: string;
  readonly name: string;
  readonly means: string;
}

/** The page. */
export function helpRoutes(): Router {
  const router = Router();
  router.get('/help', (_request, response) => sendPage(response, { view: 'help', title: 'Help', marks: marksShown(), address: addressHere() }));
  return router;
}

/** Size of a drawing, px; the stave stands in its middle, a stave space apart. */
const SIZE = { widthPx: 84, heightPx: 60 } as const;
const TOP_PX = 14;
const SPACE_PX = 8;

/** The note-head that marks stand at. */
const HEAD = { x: 42, y: TOP_PX + 2.5 * SPACE_PX };

/** Every mark with its meaning, in the order in which one meets them. */
export function marksShown(): readonly MarkShown[] {
  const labels = (title: string, seed: number): MarkLabels => ({ title, seed });
  const under = { x: HEAD.x, y: HEAD.y + 13 };
  const marks: readonly (readonly [name: string, means: string, mark: string, head: boolean])[] = [
    ['a ring', 'this note', ring(HEAD, labels('a ring around a note', 3)), true],
    ['an arrow to the left', 'this note comes early', earlyArrow(under, labels('an arrow to the left', 5)), true],
    ['an arrow to the right', 'this note comes late', lateArrow(under, labels('an arrow to the right', 7)), true],
    ['an open caret', 'this note is written and was not played', missing(HEAD, labels('an open caret under a note', 11)), true],
    ['a hollow head, crossed out', 'played, and not written', added(HEAD, labels('a hollow head, crossed out', 13)), false],
    ['two slanted lines', 'the playing stopped here', stop({ x: HEAD.x + 16, y: TOP_PX }, labels('two slanted lines', 17)), true],
    ['a wavy line', 'all of this stretch', stretch({ fromX: 14, toX: 70, y: TOP_PX - 7 }, labels('a wavy line', 19)), true],
    ['spectacles', 'look here before you teach it', look({ x: HEAD.x, y: TOP_PX - 5 }, labels('spectacles', 23)), true],
    ['a tick', 'well done', tick({ x: HEAD.x + 8, y: TOP_PX - 4 }, labels('a tick', 29)), true],
  ];
  return marks.map(([name, means, mark, head]) => ({ name, means, svg: drawing(SIZE, { class: 'help-mark', 'aria-hidden': 'true' }, stave() + (head ? note() : '') + mark) }));
}

/** Five lines. */
function stave(): string {
  const lines = [0, 1, 2, 3, 4].map((line) => `M4 ${TOP_PX + line * SPACE_PX}H80`).join('');
  return element('path', { class: 'help-stave', d: lines });
}

/** A crotchet. */
function note(): string {
  const stem = element('path', { class: 'help-stem', d: `M${HEAD.x + 4.4} ${HEAD.y - 1}v-26` });
  return element('ellipse', { class: 'help-head', cx: HEAD.x, cy: HEAD.y, rx: 5, ry: 3.6, transform: `rotate(-20 ${HEAD.x} ${HEAD.y})` }) + stem;
}

/** An address that a device in the same network could call this computer by, as an example; null where there is no network. */
function addressHere(): string | null {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  return all.find(({ internal, family }) => !internal && family === 'IPv4')?.address ?? null;
}
