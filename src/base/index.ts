export { alongPoints, type LinePoint } from './alongPoints.js';
export { firstIndex, groupBy } from './collections.js';
export { InputError, type InputErrorCode, type InputPlace } from './inputError.js';
export { measured, notMeasured, type Measured } from './measured.js';
export { gaussian, seededRandom, type Random } from './random.js';
export { fourDecimals } from './rounding.js';
export {
  countInWords,
  listInWords,
  ordinalInWords,
  sentenceCase,
  spokenIn,
  timesInWords,
  tradeWordNames,
  word,
  type Language,
  type TradeWordName,
} from './words.js';
