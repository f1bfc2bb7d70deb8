/**
 * The route as the review shows it: two drawings of the ribbon, for wide and narrow windows, and the same choice
 * of tries as links in words, for fingers and for screen readers.
 */
import type { Strand } from '../judge/index.js';
import { clockTime } from './moments.js';
import { layOutRibbon } from './ribbonLayout.js';
import { ribbonSvg, type RibbonLinks } from './ribbonSvg.js';
import type { ReviewFound, ReviewParts, ReviewView, TryLink } from './reviewTypes.js';
import { playerOf } from './shared.js';

/** Ribbons are drawn for two layouts; the style sheet shows the one that fits. */
const WIDE_RIBBON_PX = 656;
const NARROW_RIBBON_PX = 358;

/** The route in pictures, and the links that choose which tries are shown. */
export function routeView(parts: ReviewParts, found: ReviewFound): Pick<ReviewView, 'ribbonWide' | 'ribbonNarrow' | 'tries' | 'shownTry'> {
  const { score } = parts.reading;
  const links = {
    names: found.names,
    barHref: (barIndex: number) => `#${found.anchors[barIndex] ?? ''}`,
    strandHref: tryHref,
    shown: found.strand?.index ?? null,
  };
  const draw = (widthPx: number, variant: RibbonLinks['variant']): string => ribbonSvg(layOutRibbon(score, found.strands, widthPx), { ...links, variant });
  return {
    ribbonWide: draw(WIDE_RIBBON_PX, 'wide'),
    ribbonNarrow: draw(NARROW_RIBBON_PX, 'narrow'),
    tries: found.strands.length < 2 ? [] : tryLinks(found),
    shownTry: shownInWords(parts, found),
  };
}

/** The address that shows one strand; strands count from 1 there. It leads to the route, where the strand is seen to be chosen. */
function tryHref(strand: Strand): string {
  return `?try=${strand.index + 1}#route`;
}

/** "Below: her last try at each bar". */
function shownInWords({ recording }: ReviewParts, found: ReviewFound): string {
  if (found.strands.length < 2) return '';
  if (found.strand !== null) return `Below: ${found.names.range(found.strand.fromBar, found.strand.toBar)} as played from ${clockTime(found.strand.startS)}; elsewhere the last try`;
  if (found.strands.every(({ arrival }) => arrival !== 'back')) return 'Below: the last time through each bar';
  const whose = { She: 'her', He: 'his', They: 'their' }[playerOf(recording)] ?? 'the';
  return `Below: ${whose} last try at each bar`;
}

/** One link for the last tries and one for each strand. */
function tryLinks(found: ReviewFound): readonly TryLink[] {
  const each = found.strands.map((strand) => ({
    href: tryHref(strand),
    text: `${clockTime(strand.startS)}, ${found.names.range(strand.fromBar, strand.toBar)}`,
    current: found.strand?.index === strand.index,
  }));
  const text = found.strands.some(({ arrival }) => arrival === 'back') ? 'Last tries' : 'Last time through';
  return [{ href: '?#route', text, current: found.strand === null }, ...each];
}
