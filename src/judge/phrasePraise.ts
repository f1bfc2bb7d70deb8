/*
 * Praise for phrases that rise and fall, for ends that are rounded off, and for echoes.
 *
 * What is earned: what a listener hears without being told where to listen, in most of the phrases, and nothing else to say of their shape.
 */
import type { EchoLevel, PhraseLevel } from '../measure/index.js';
import { rangeOf, visitsOf } from './dynamicsPhrases.js';
import { HEARD_UNITS, type LevelGround } from './levelGround.js';
import { praisedPlaces } from './levelPraise.js';
import { whereInWords } from './placeWords.js';
import type { Observation, Praise } from './types.js';

/** A phrase rises and falls by so much at least (>=), velocity units: twice what is just heard, on both sides of its high point. */
const SHAPED_UNITS = 2 * HEARD_UNITS;

/** So many phrases (>=) and such a share (>=) of all of them; so many of the plainest are named. Our own rule. */
const SHAPED = { least: 3, share: 0.6, named: 3 } as const;

/** An end falls away from the note before it by so much (>=): what is just heard. So many ends (>=) and such a share (>=) of them. Our own rule. */
const ROUNDED = { units: HEARD_UNITS, least: 4, share: 0.75 } as const;

/** An echo of so many bars (>=) is softer by so much (>=), velocity units: twice what is just heard. */
const ECHO = { bars: 2, units: 2 * HEARD_UNITS } as const;

/** What each weighs. Our own rule. */
const WEIGHT = { shaped: 0.45, rounded: 0.35, echo: 0.35 } as const;

/** What takes the ground from under such praise. */
const CONTRARY: readonly string[] = ['oneLevel', 'phrasesFlat', 'endBumped'];

/** Praise for the phrases of one recording. */
export function phrasePraise(ground: LevelGround, observations: readonly Observation[]): readonly Praise[] {
  if (observations.some(({ kind }) => CONTRARY.includes(kind))) return [];
  return [...shaped(ground), ...rounded(ground), ...echoes(ground)];
}

/** Phrases that rise and fall. */
function shaped(ground: LevelGround): readonly Praise[] {
  const all = ground.facts.phrases.phrases.filter(({ quarters }) => quarters.measured);
  const good = all.filter(isShaped);
  if (good.length < SHAPED.least || good.length < SHAPED.share * all.length) return [];
  const plainest = [...good].sort((a, b) => range(b) - range(a)).slice(0, SHAPED.named).sort((a, b) => a.startS - b.startS);
  const places = plainest.flatMap((phrase) => praisedPlaces(ground, visitsOf(ground, phrase), phrase.startS));
  return praiseOf(ground, places, { weight: WEIGHT.shaped, what: 'the phrases rise and fall' });
}

/** True for a phrase with its high point inside. */
function isShaped({ quarters }: PhraseLevel): boolean {
  if (!quarters.measured) return false;
  const [first = 0, , , last = 0] = quarters.value;
  const peak = Math.max(...quarters.value);
  return peak - first >= SHAPED_UNITS && peak - last >= SHAPED_UNITS;
}

function range({ quarters }: PhraseLevel): number {
  return quarters.measured ? rangeOf(quarters.value) : 0;
}

/** Ends of phrases that fall away. */
function rounded(ground: LevelGround): readonly Praise[] {
  const ends = ground.facts.phrases.endings.filter(({ of }) => of === 'phrase');
  const good = ends.filter(({ overLast }) => overLast <= -ROUNDED.units);
  if (good.length < ROUNDED.least || good.length < ROUNDED.share * ends.length) return [];
  const best = [...good].sort((a, b) => a.overLast - b.overLast).slice(0, SHAPED.named).sort((a, b) => a.startS - b.startS);
  const places = best.flatMap(({ stretch, visitIndex, startS }) => praisedPlaces(ground, [ground.visit(stretch, visitIndex) ?? []].flat(), startS));
  return praiseOf(ground, places, { weight: WEIGHT.rounded, what: 'the ends of the phrases are rounded off' });
}

/** The plainest echo. */
function echoes(ground: LevelGround): readonly Praise[] {
  const soft = ground.facts.phrases.echoes.filter((echo) => barsOf(echo) >= ECHO.bars && echo.over <= -ECHO.units && !isMarkedWithin(ground, echo));
  const plainest = soft.reduce<EchoLevel | null>((best, one) => (best === null || one.over < best.over ? one : best), null);
  if (plainest === null) return [];
  return praiseOf(ground, praisedPlaces(ground, visitsOf(ground, plainest), plainest.startS), { weight: WEIGHT.echo, what: 'the echo is softer than what it repeats' });
}

/** Bars that an echo lasts. */
function barsOf({ fromVisit, toVisit }: EchoLevel): number {
  return toVisit - fromVisit + 1;
}

/** True where a mark inside an echo, or inside what it repeats, makes the difference: at its beginning it asks for the echo. */
function isMarkedWithin({ facts }: LevelGround, echo: EchoLevel): boolean {
  const { stretch, fromVisit, toVisit } = echo;
  return facts.changes.some((change) => change.stretch === stretch && change.visitIndex !== fromVisit && change.visitIndex > fromVisit - barsOf(echo) && change.visitIndex <= toVisit);
}

/** One sentence of praise; nothing where no place can be named. */
function praiseOf(ground: LevelGround, places: Praise['places'], { weight, what }: { readonly weight: number; readonly what: string }): readonly Praise[] {
  return places.length === 0 ? [] : [{ aspect: 'dynamics', hand: null, places, weight, text: `${whereInWords(ground.input, null, places)}: ${what}.` }];
}
