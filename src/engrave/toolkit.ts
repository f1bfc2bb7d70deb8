import type { VerovioToolkit } from 'verovio/esm';
import { InputError } from '../base/index.js';

/** Draws one MusicXML text as one tall column of systems and gives back the engraver's own SVG, page by page where it is very long. */
export interface Toolkit {
  /**
   * @param xml repaired MusicXML
   * @throws InputError `unsupported` where the engraver fails; the next call starts on a fresh engraver
   */
  column(xml: string, layout: ColumnLayout): Promise<readonly string[]>;
}

/** How wide a column is, and which bars are in it. */
export interface ColumnLayout {
  readonly widthPx: number;
  /** First and last bar, places in `Score.bars`; all bars where left out. */
  readonly only?: readonly [first: number, last: number] | undefined;
}

/** Size of the engraving in percent: a stave space is 18 × scale / 100 = 7.56 px, legible on a music desk at arm's length. */
export const SCALE_PERCENT = 42;

/** Pixels a unit of the engraver's inner drawing at `SCALE_PERCENT`. */
export const PX_PER_UNIT = SCALE_PERCENT / 1000;

/** Distance of two stave lines in inner units. */
export const STAVE_SPACE_UNITS = 180;

/** Room left of the staves for the brace, tenths of an inner unit (30 is 12.6 px; at 10 the brace is cut). */
const LEFT_MARGIN = 30;

/** Room right of the last bar line, in the same measure, so that half a thick line is not cut. */
const RIGHT_MARGIN = 1;

/** Options that are the same for every score. */
const LAYOUT = {
  inputFrom: 'musicxml',
  scale: SCALE_PERCENT,
  scaleToPageSize: true,
  pageHeight: 60_000,
  adjustPageHeight: true,
  breaks: 'auto',
  condense: 'none',
  header: 'none',
  footer: 'none',
  pageMarginLeft: LEFT_MARGIN,
  pageMarginRight: RIGHT_MARGIN,
  pageMarginTop: 0,
  pageMarginBottom: 0,
  spacingStaff: 11,
  barLineWidth: 0.3,
  staffLineWidth: 0.14,
  spacingLinear: 0.25,
  // bar numbers are set by us, at every bar line
  mnumInterval: 0,
  smuflTextFont: 'none',
  svgFormatRaw: true,
  svgRemoveXlink: true,
  svgAdditionalAttribute: ['staff@n'],
  // the same score always gives the same text
  xmlIdChecksum: true,
} as const;

/**
 * One engraver, loaded at first need and kept from score to score. After any failure it is thrown away: a failed load
 * leaves it damaged.
 */
export function createToolkit(): Toolkit {
  let loading: Promise<VerovioToolkit> | null = null;
  return {
    async column(xml, layout) {
      loading ??= loadToolkit();
      try {
        return draw(await loading, xml, layout);
      } catch (error) {
        loading = null;
        throw error instanceof InputError ? error : new InputError('unsupported', 'The engraver cannot draw this score.');
      }
    },
  };
}

/** Loaded at first need: the library is 7 MB, which a command that engraves nothing should not wait for. */
async function loadToolkit(): Promise<VerovioToolkit> {
  const [{ default: createModule }, library] = await Promise.all([import('verovio/wasm'), import('verovio/esm')]);
  const silent = (): void => undefined;
  const module = await createModule({ print: silent, printErr: silent });
  library.enableLog(library.LOG_OFF, module);
  return new library.VerovioToolkit(module);
}

/** Other spacings to try where the last bar would stand alone, the nearest to the usual one first. */
const OTHER_SPACINGS = [0.26, 0.24, 0.275, 0.29] as const;

/** All pages of one score; options stay set from score to score, so all are set again. */
function draw(toolkit: VerovioToolkit, xml: string, { widthPx, only }: ColumnLayout): readonly string[] {
  toolkit.setOptions({ ...LAYOUT, pageWidth: widthPx });
  // a selection lasts for one load; the engraver counts bars from 1
  if (only !== undefined) toolkit.select({ measureRange: `${only[0] + 1}-${only[1] + 1}` });
  if (toolkit.loadData(xml) === 0) throw new InputError('unsupported', 'The engraver does not accept this score.');
  const pages = render(toolkit);
  return only === undefined && endsAlone(pages) ? (respaced(toolkit) ?? pages) : pages;
}

/** The pages as they are laid out now. */
function render(toolkit: VerovioToolkit): readonly string[] {
  return Array.from({ length: toolkit.getPageCount() }, (_, i) => toolkit.renderToSVG(i + 1));
}

/** The pages with the first spacing that leaves the last bar company, or null. */
function respaced(toolkit: VerovioToolkit): readonly string[] | null {
  for (const spacingLinear of OTHER_SPACINGS) {
    toolkit.setOptions({ spacingLinear });
    toolkit.redoLayout();
    const pages = render(toolkit);
    if (!endsAlone(pages)) return pages;
  }
  return null;
}

/** Whether the last bar is alone in its system though systems hold more. @param pages the engraver's SVG */
export function endsAlone(pages: readonly string[]): boolean {
  const systems = pages.flatMap((page) => page.split('class="system"').slice(1)).map((system) => system.split('class="measure"').length - 1);
  return systems.at(-1) === 1 && (systems.at(-2) ?? 0) > 1;
}
