export type * from './types.js';
export { MAX_RECORDING_BYTES } from './container.js';
export { GUESSED_LEAST_MOVES, GUESSED_SHARE, LONG_SILENCE_S, NO_TOUCH_LEAST_NOTES, NO_TOUCH_SHARE, SWITCH_DOWN, SWITCH_UP } from './limits.js';
export { readRecording, type RecordingOptions } from './readRecording.js';
export { messagesBytes, type KeyboardMessage } from './writeMessages.js';
export { recordingBytes, TICKS_PER_SECOND, tickOf, type FileWords, type Writable } from './writeRecording.js';
