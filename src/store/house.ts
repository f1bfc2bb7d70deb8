/** The part of the store that is about the house: pedal plans, settings, who may come in, consents, lesson sheets, term reports, the demo room. */
import type { Language } from '../base/index.js';
import type { TeachersPlan } from '../analysis/index.js';
import * as consents from './consents.js';
import type { StoreContext } from './context.js';
import * as demo from './demo.js';
import * as sheets from './lessonSheets.js';
import * as plans from './pedalPlans.js';
import * as sessions from './sessions.js';
import * as settings from './settings.js';
import * as reports from './termReports.js';
import type { Pupil } from './types.js';

/** What it keeps. */
export interface House {
  /** The teacher's pedal plan of a piece; null where the program's holds. */
  planOf(pieceId: number): TeachersPlan | null;
  /** The version that holds, or null where nothing was ever changed. */
  newestPlan(pieceId: number): plans.PlanVersion | null;
  /** Every version, newest first, those taken back too. */
  planVersions(pieceId: number): readonly plans.PlanVersion[];
  /** Keeps a plan as the newest version; null goes back to the program's. */
  setPlan(pieceId: number, plan: TeachersPlan | null): plans.PlanVersion;
  removePlan(id: number): plans.PlanVersion;
  restorePlan(id: number): plans.PlanVersion;
  /** Which English the pages speak; British until it is set. */
  language(): Language;
  setLanguage(language: Language): void;
  /** What a setting was set to; null until somebody has set it. */
  setting(name: string): string | null;
  setSetting(name: string, value: string | null): void;
  /** Keeps who has said the passphrase, by the hash of the cookie, until a moment. */
  addSession(tokenHash: string, endsAt: string): void;
  hasSession(tokenHash: string): boolean;
  /** Ends one session, or all of them. */
  endSessions(tokenHash?: string): void;
  /** Whether a pupil's recordings may be kept, as the teacher said, or null where nothing was said. */
  consentOf(pupilId: number): consents.Consent | null;
  setConsent(pupilId: number, consent: Pick<consents.Consent, 'adult'> | null): void;
  /** Pupils of whom nothing was said; people of the demo room need none. */
  pupilsToAsk(): readonly Pupil[];
  /** The lesson sheet of a recording as it was last saved; null where none was. */
  lessonSheet(recordingId: number): sheets.LessonSheet | null;
  saveLessonSheet(recordingId: number, body: string): sheets.LessonSheet;
  /** Every lesson sheet of a pupil, newest first. */
  lessonSheetsOf(pupilId: number): readonly sheets.LessonSheet[];
  /** What the teacher last wrote into a pupil's term report; null where nothing was. */
  termReport(pupilId: number): reports.TermReport | null;
  saveTermReport(pupilId: number, body: string): reports.TermReport;
  demoState(): demo.DemoState;
  removeDemo(): void;
  restoreDemo(): void;
}

/** @param writing does something that writes, and turns the database's errors into ours */
export function house(context: StoreContext, writing: <T>(work: () => T) => T): House {
  return {
    planOf: (pieceId) => plans.planOf(context, pieceId),
    newestPlan: (pieceId) => plans.newestPlan(context, pieceId),
    planVersions: (pieceId) => plans.planVersions(context, pieceId),
    setPlan: (pieceId, plan) => writing(() => plans.setPlan(context, pieceId, plan)),
    removePlan: (id) => writing(() => plans.removePlan(context, id)),
    restorePlan: (id) => writing(() => plans.restorePlan(context, id)),
    language: () => settings.language(context),
    setLanguage: (chosen) => writing(() => settings.setLanguage(context, chosen)),
    setting: (name) => settings.setting(context, name),
    setSetting: (name, value) => writing(() => settings.setSetting(context, name, value)),
    addSession: (tokenHash, endsAt) => writing(() => sessions.addSession(context, tokenHash, endsAt)),
    hasSession: (tokenHash) => sessions.hasSession(context, tokenHash),
    endSessions: (tokenHash) => writing(() => sessions.endSessions(context, tokenHash)),
    consentOf: (pupilId) => consents.consentOf(context, pupilId),
    setConsent: (pupilId, consent) => writing(() => consents.setConsent(context, pupilId, consent)),
    pupilsToAsk: () => consents.pupilsToAsk(context),
    lessonSheet: (recordingId) => sheets.lessonSheet(context, recordingId),
    saveLessonSheet: (recordingId, body) => writing(() => sheets.saveLessonSheet(context, recordingId, body)),
    lessonSheetsOf: (pupilId) => sheets.lessonSheetsOf(context, pupilId),
    termReport: (pupilId) => reports.termReport(context, pupilId),
    saveTermReport: (pupilId, body) => writing(() => reports.saveTermReport(context, pupilId, body)),
    demoState: () => demo.demoState(context),
    removeDemo: () => writing(() => demo.removeDemo(context)),
    restoreDemo: () => writing(() => demo.restoreDemo(context)),
  };
}
