import { startCopying } from './copying.js';
import { startDesk } from './desk.js';
import { startLessonSheet } from './lessonSheet.js';
import { startPiece } from './piece.js';
import { startRecorder } from './recorder.js';
import { startReview } from './review.js';
import { startWeeks } from './weeks.js';
import { keepWidth } from './width.js';

/** Starts what the page at hand needs; every page also reads and saves without it. */
keepWidth();
startDesk();
startReview();
startPiece();
startRecorder();
startCopying();
startLessonSheet();
startWeeks();
