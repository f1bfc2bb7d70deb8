/** What the teacher asks of one pupil's reviews: the year of birth, how strict to be, what to look at first; as a form, and in words where it acts. */
import { listInWords, sentenceCase } from '../base/index.js';
import { ASPECTS, type Aspect, type Preferences, type StrictOn, type Strictness } from '../judge/index.js';
import { asDecisions, type FiledRecording, type Pupil, type StoredDecision } from '../store/index.js';
import { pupilAddress, type Room } from './shared.js';

/** What strictness is asked on; the other aspects are judged as usual. */
export const STRICT_ON: readonly StrictOn[] = ['tempo', 'ornaments', 'pedal'];

/** How strict, as the form and the review say it. */
const STRICTLY: readonly (readonly [value: Strictness, words: string])[] = [['lenient', 'gently'], ['usual', 'as usual'], ['strict', 'strictly']];

/** The form on the pupil's page. */
export interface AsksView {
  /** Where it is sent. */
  readonly action: string;
  /** Four figures, or "". */
  readonly born: string;
  readonly strict: readonly { readonly name: StrictOn; readonly label: string; readonly choices: readonly { readonly value: Strictness; readonly words: string; readonly chosen: boolean }[] }[];
  readonly looks: readonly { readonly aspect: Aspect; readonly chosen: boolean }[];
  /** What was just saved and can be taken back, or null. */
  readonly undo: { readonly decision: number; readonly born: string } | null;
}

/** The form as it stands. @param query what the address offers to undo */
export function asksView(room: Pick<Room, 'store'>, pupil: Pupil, query: Readonly<Record<string, unknown>>): AsksView {
  const own = ownDecisions(room, pupil);
  const { strictness, lookAt } = asDecisions(own).preferences;
  const asked = own.find(({ id, kind }) => kind === 'preferences' && String(id) === query['asked']);
  const was = query['was'];
  return {
    action: `${pupilAddress(pupil.slug)}/asks`,
    born: pupil.born === null ? '' : String(pupil.born),
    strict: STRICT_ON.map((name) => ({ name, label: sentenceCase(name), choices: STRICTLY.map(([value, words]) => ({ value, words, chosen: (strictness[name] ?? 'usual') === value })) })),
    looks: ASPECTS.map((aspect) => ({ aspect, chosen: lookAt.includes(aspect) })),
    undo: asked === undefined ? null : { decision: asked.id, born: typeof was === 'string' && /^\d{4}$/.test(was) ? was : '' },
  };
}

/** Decisions about a pupil whatever the piece, oldest first. */
export function ownDecisions(room: Pick<Room, 'store'>, pupil: Pupil): readonly StoredDecision[] {
  return room.store.decisionsFor({ pupilId: pupil.id, pieceId: NO_PIECE }).filter(({ pupilId }) => pupilId === pupil.id);
}

/** Stands for no piece; none is numbered so. */
const NO_PIECE = 0;

/** Years that a pupil had reached, or reached in that year, when a recording came; null where nobody has said. */
export function ageAt({ pupil: { born }, receivedAt }: FiledRecording): number | null {
  return born === null ? null : new Date(receivedAt).getUTCFullYear() - born;
}

/** What is asked, in words, where it acts on a review; "" where all is as usual. */
export function asksInWords({ strictness, lookAt }: Preferences, forParent: boolean): string {
  const words = STRICT_ON.flatMap((name) => {
    const how = STRICTLY.find(([value]) => value === (strictness[name] ?? 'usual'));
    return how === undefined || how[0] === 'usual' ? [] : [`${name} taken ${how[1]}`];
  });
  const parts = [forParent ? 'under nine, so one remark, written for the parent' : '', ...words, lookAt.length === 0 ? '' : `${listInWords(lookAt)} looked at first`];
  return sentenceCase(parts.filter((part) => part !== '').join('; '));
}
