/**
 * The foot under a system, as it really moved: low while the pedal is down, high where it is up, every height between for half
 * pedal. Where old and new sound together the stretch is hatched, denser as the blur is worse. Each run of shown bars has its own line.
 */
import type { BarFacts, PedalChange, PedalSmear } from '../measure/index.js';
import { firstIndex } from '../base/index.js';
import { headsOf, noteIdOf, pairsNear, shownOf, type MarkMaterial } from './markMaterial.js';
import type { Lane } from './compose.js';
import { laneBars } from './laneBars.js';
import { LANE_LABEL_PX, laneLabel } from './laneLabel.js';
import { fixed } from './numbers.js';
import type { EngravedSystem } from './types.js';
import { escapeXml } from './xmlTree.js';

/** Heights of the line with the foot up and down, and of the lane, px. */
const UP_PX = 6;
const DOWN_PX = 24;
const HEIGHT_PX = 32;

/** Highest controller value. */
const FULL = 127;

/** Points nearer than this are one, px: a continuous pedal sends hundreds of values a second. */
const LEAST_STEP_PX = 0.7;

/** A blur is hatched from this on (>=): less is not seen on paper either. */
const LEAST_BLUR = 0.15;

/** Foreign notes that ring on inside their harmony are hatched from here on (>=): a line under the pedal always smears a little. */
const LEAST_SMEAR = 0.4;

/** Distance of the hatching's lines for the slightest and the worst blur, px, and their lean. */
const WIDE_PX = 7;
const CLOSE_PX = 3;
const LEAN_PX = 7;

/** Narrowest hatching, px. */
const LEAST_HATCH_PX = 8;

/** How long the last bar of a run is followed after its last onset, seconds, where no next bar tells its end. */
const AFTER_LAST_S = 1;

/** A run of neighbouring shown bars that were played one after the other. */
interface Run {
  readonly stretch: number;
  readonly fromS: number;
  readonly toS: number;
  readonly anchors: readonly Anchor[];
}

/** A moment of the playing and where it stands. */
interface Anchor {
  readonly timeS: number;
  readonly x: number;
}

/** What a blur says on touching it, and the number of the remark about it; null without. */
export type BlurTold = (heard: PedalChange | PedalSmear) => { readonly title: string; readonly number: number | null };

/** The lane of one system; without a shown bar it has no height. */
export function pedalPlayed(system: EngravedSystem, material: MarkMaterial, tellBlur: BlurTold): Lane {
  const runs = runsOf(system, material);
  if (runs.length === 0) return { svg: '', heightPx: 0 };
  const lines = runs.map((run) => `<path class="foot-line" d="${linePath(run, material)}"/>`);
  const hatches = runs.flatMap((run) => blursIn(run, system, { material, tellBlur }));
  const label = laneLabel('foot', (UP_PX + DOWN_PX) / 2);
  const svg = `<g class="lane lane-foot" stroke="currentColor" fill="none" stroke-width="1" stroke-linecap="round" stroke-linejoin="round"><title>The sustain pedal as it was played</title>${laneBars(system, { top: 0, bottom: HEIGHT_PX })}${label}${hatches.join('')}${lines.join('')}</g>`;
  return { svg, heightPx: HEIGHT_PX };
}

/** The shown bars of a system, cut where the playing jumped. */
function runsOf(system: EngravedSystem, material: MarkMaterial): readonly Run[] {
  const shown = shownOf(material);
  const groups: BarFacts[][] = [];
  for (const { barIndex } of system.bars) {
    const visit = shown.get(barIndex);
    const last = groups.at(-1)?.at(-1);
    if (visit === undefined) continue;
    if (last !== undefined && last.stretch === visit.stretch && last.visitIndex + 1 === visit.visitIndex) groups.at(-1)?.push(visit);
    else groups.push([visit]);
  }
  return groups.flatMap((visits) => runOf(system, material, visits));
}

/** One run with its moments; nothing where no note of it was matched. */
function runOf(system: EngravedSystem, material: MarkMaterial, visits: readonly BarFacts[]): readonly Run[] {
  const [first, last] = [visits[0], visits.at(-1)];
  if (first === undefined || last === undefined) return [];
  const next = material.measures.bars.find(({ stretch, visitIndex }) => stretch === last.stretch && visitIndex === last.visitIndex + 1);
  const toS = next?.startS ?? last.endS + AFTER_LAST_S;
  const heads = headAnchors(system, material, visits);
  const right = system.bars.find(({ barIndex }) => barIndex === last.barIndex)?.right ?? 0;
  const anchors = [...heads.filter(({ timeS }) => timeS < toS), { timeS: toS, x: right }];
  return heads.length === 0 ? [] : [{ stretch: first.stretch, fromS: heads[0]?.timeS ?? first.startS, toS, anchors }];
}

/** Matched heads in order of time; x never goes back. */
function headAnchors(system: EngravedSystem, material: MarkMaterial, visits: readonly BarFacts[]): readonly Anchor[] {
  const { score, recording } = material;
  const heads = headsOf(system);
  const here = new Set(visits.map(({ stretch, visitIndex }) => `${stretch}:${visitIndex}`));
  const found = pairsNear(system, material).flatMap((pair): Anchor[] => {
    const visit = score.occurrences[pair.occurrence]?.visitIndex ?? -1;
    const head = here.has(`${pair.stretch}:${visit}`) ? heads.get(noteIdOf({ score }, pair.occurrence)) : undefined;
    const timeS = recording.notes[pair.note]?.onsetS;
    return head === undefined || timeS === undefined ? [] : [{ timeS, x: head.x }];
  });
  const out: Anchor[] = [];
  for (const anchor of found.sort((a, b) => a.timeS - b.timeS)) {
    if (anchor.x > (out.at(-1)?.x ?? -Infinity)) out.push(anchor);
  }
  return out;
}

/** Where a moment stands, between the anchors beside it. */
function xAt({ anchors }: Run, timeS: number): number {
  const place = firstIndex(anchors.length, (i) => (anchors[i]?.timeS ?? Infinity) >= timeS);
  const after = anchors[place] ?? anchors.at(-1);
  const before = anchors[place - 1] ?? after;
  if (after === undefined || before === undefined) return 0;
  const span = after.timeS - before.timeS;
  return span <= 0 ? after.x : before.x + ((after.x - before.x) * Math.min(1, Math.max(0, (timeS - before.timeS) / span)));
}

/** The way of the foot: level until it moves, then straight to its new height. */
function linePath(run: Run, { recording: { sustain } }: MarkMaterial): string {
  const start = firstIndex(sustain.length, (i) => (sustain[i]?.timeS ?? Infinity) > run.fromS);
  let value = sustain[start - 1]?.value ?? 0;
  let x = xAt(run, run.fromS);
  let path = `M${fixed(x)} ${fixed(heightOf(value))}`;
  for (let i = start; i < sustain.length; i++) {
    const point = sustain[i];
    if (point === undefined || point.timeS >= run.toS) break;
    const to = xAt(run, point.timeS);
    if (point.value === value) continue;
    if (to - x >= LEAST_STEP_PX) path += `H${fixed(to)}`;
    path += `V${fixed(heightOf(point.value))}`;
    [x, value] = [to, point.value];
  }
  return `${path}H${fixed(xAt(run, run.toS))}`;
}

/** Low for down, high for up. */
function heightOf(value: number): number {
  return UP_PX + ((DOWN_PX - UP_PX) * value) / FULL;
}

/** Hatching where old sound rings on into new. */
function blursIn(run: Run, system: EngravedSystem, { material, tellBlur }: { readonly material: MarkMaterial; readonly tellBlur: BlurTold }): readonly string[] {
  const barAt = (visitIndex: number): number => material.score.order[visitIndex]?.barIndex ?? -1;
  const { changes, smears } = material.measures.pedal;
  return [...changes.filter(({ blur }) => blur >= LEAST_BLUR), ...smears.filter(({ blur }) => blur >= LEAST_SMEAR)]
    .filter(({ stretch, soundS }) => stretch === run.stretch && soundS >= run.fromS && soundS < run.toS)
    .map((heard) => {
      const fromX = xAt(run, heard.soundS);
      const toX = Math.max(fromX + LEAST_HATCH_PX, xAt(run, Math.min(run.toS, heard.soundS + heard.overlapS)));
      const { title, number } = tellBlur(heard);
      return `<g class="blur" data-bar="${barAt(heard.visitIndex)}"><title>${escapeXml(title)}</title><path stroke-width="0.9" d="${hatching(fromX, Math.min(toX, system.widthPx), heard.blur)}"/>${numberIn(number, (fromX + toX) / 2)}</g>`;
    });
}

/** The number of a remark in the middle of its hatching, clear of the lines. */
function numberIn(number: number | null, x: number): string {
  return number === null ? '' : `<text class="blur-number" x="${fixed(x)}" y="${DOWN_PX - 3}" font-size="${LANE_LABEL_PX}" font-style="italic" text-anchor="middle" aria-hidden="true">${number}</text>`;
}

/** Slanted lines between up and down, closer as the blur is worse. */
function hatching(fromX: number, toX: number, blur: number): string {
  const apart = WIDE_PX - (WIDE_PX - CLOSE_PX) * Math.min(1, blur);
  const lines = Array.from({ length: Math.max(1, Math.floor((toX - fromX) / apart)) }, (_, i) => fromX + i * apart);
  return lines.map((x) => {
    const lean = Math.min(LEAN_PX, toX - x);
    return `M${fixed(x)} ${DOWN_PX}L${fixed(x + lean)} ${fixed(DOWN_PX - ((DOWN_PX - UP_PX) * lean) / LEAN_PX)}`;
  }).join('');
}
