/** Why a remark is made: what was measured and found, against what, from where on it is said and why there, and how sure that is. Words first. */
import { sentenceCase, spokenIn, type Language } from '../base/index.js';
import type { Evidence, Observation } from '../judge/index.js';
import { WHY } from './whyTable.js';

/** One reason of a remark. */
export interface WhyView {
  /** "Pedal". */
  readonly aspect: string;
  readonly lines: readonly { readonly term: string; readonly text: string }[];
}

/** From here on (>=) of 1 the program is sure, and fairly sure. */
const SURE = 0.85;
const FAIRLY_SURE = 0.65;

/** The reasons of one observation. */
export function whyView({ aspect, kind, measured, confidence, places }: Observation, language: Language): WhyView {
  const words = WHY[aspect][kind];
  const found = `${amount(measured, measured.value)}${places.length > 1 ? ' at the plainest place' : ''}`;
  const limit = `from ${amount(measured, measured.threshold)} ${measured.value < measured.threshold ? 'down' : 'on'}`;
  const lines = [
    { term: 'Measured', text: words === undefined ? found : `${words.measured}: here ${found}` },
    ...(words === undefined ? [] : [{ term: 'Against', text: words.against }]),
    { term: 'Said', text: words === undefined ? limit : `${limit}: ${words.source}` },
    { term: 'How sure', text: sureness(confidence) },
  ];
  return { aspect: sentenceCase(aspect), lines: lines.map(({ term, text }) => ({ term, text: spokenIn(`${text}.`, language) })) };
}

/** A value with its unit, to two figures. */
function amount({ unit }: Evidence, value: number): string {
  const figure = String(Number(value.toPrecision(2))).replace('-', '−');
  return unit === '%' ? `${figure} %` : `${figure} ${value === 1 ? unit.replace(/^(time|note|bar|beat)s$/, '$1') : unit}`.trim();
}

/** How sure the program is that it happened and is no expression. */
function sureness(confidence: number): string {
  if (confidence >= SURE) return 'sure that it happened and is no expression';
  return confidence >= FAIRLY_SURE ? 'fairly sure; listen before you say it' : 'not quite sure; listen before you say it';
}
