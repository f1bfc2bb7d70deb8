/**
 * What the follower pays, in units of one rightly played note (reward 1). The figures are our own rule: each is argued
 * beside it and none was fitted note by note; halving or doubling most of them changes little.
 */

/** Reward for a key press that is written at its place. */
export const HIT = 1;
/** Reward for a press one or two octaves away from the written key: less than a hit, so that it never beats one. */
export const OCTAVE_HIT = 0.5;
/** The most that the step to an octave slip may cost: it keeps its place in the line. */
export const OCTAVE_MOST_STEP = 1;
/** A press that nothing written explains. Just under a hit: one slip undoes one right note. */
export const STRAY = 0.8;
/** Reward for a press that an ornament sounding here explains: a trill may have thirty of them, and they are right. */
export const ORNAMENT_HIT = 0.6;
/** Reward for a right press that belongs to a trill plain from the playing: a trill written out is followed, an unwritten one leads nowhere. */
export const SHAKE_HIT = 0.3;
/** A stray press of a trill that the score does not write: one ornament, not thirty slips. */
export const SHAKE_STRAY = 0.15;
/** A slot of the same hand passed over, for each: a missed note has already lost its hit. */
export const SKIP = 0.5;
/** A slot passed over that only the other hand plays: hands are practised apart, so next to nothing. */
export const SKIP_OTHER = 0.04;
/** Added for each whole bar of at least `BAR_SLOTS` own slots that is passed over: nobody misses a bar by accident. */
export const BAR_PASSED = 3;
/** See `BAR_PASSED`. */
export const BAR_SLOTS = 3;
/** Own slots that may be passed over without calling it a jump. */
export const MAX_SKIPPED = 6;
/** Slots of any hand looked ahead at the most: a run of semiquavers under a tied semibreve and more. */
export const LOOK_AHEAD = 48;
/** Slots that a late note may lie behind the newest one: hands apart, spread chords. */
export const LOOK_BACK = 4;
/** A late note costs this for each slot it lies behind. */
export const BEHIND = 0.3;
/** Seconds within which presses may belong to one chord at no cost (references: chord spread of 20-30 ms is normal). */
export const CHORD_S = 0.04;
/** Seconds after which a press is most likely no longer the same chord. */
export const SPREAD_S = 0.18;
/** Cost of a press in the same slot as the last one when `SPREAD_S` or more have gone by: barely worth a hit any more. */
export const SAME_SLOT_LATE = 0.9;
/** The same for a slot that was left behind already: then it is rather a stray. */
export const BEHIND_LATE = 1.9;
/** Cost of moving on within less than `TOGETHER_S` of the last press: two slots are hardly ever struck at one moment. */
export const MOVE_AT_ONCE = 0.25;
/** Presses closer than this come at one moment, seconds. */
export const TOGETHER_S = 0.015;
/** Cost of moving on faster or slower than the pace so far, for each unit of the natural logarithm beyond `PACE_FREE`. */
export const PACE = 1.5;
/** Free: a factor of 1.5 either way (rubato, a long note held), and any difference under `PACE_FREE_S` seconds. */
export const PACE_FREE = Math.log(1.5);
/** See `PACE_FREE`; seconds. */
export const PACE_FREE_S = 0.06;
/** The most that a step costs for coming late: players stop to think. */
export const PACE_LATE_MOST = 1;
/** The most that a step costs for coming early: nobody has a reason to. */
export const PACE_EARLY_MOST = 3;
/** Share of the difference by which one step moves the pace towards itself. */
export const PACE_FOLLOWS = 0.25;
/** A jump to another place: worth it where about four notes or more are explained by it. */
export const JUMP = 6;
/** Added where the player did not pause before: who goes back or loses the place hardly keeps time. */
export const JUMP_IN_TIME = 2;
/** Added for a jump forward: people go back more often than on. */
export const JUMP_ON = 0.5;
/** Leaving a repeat out, in all: many do. */
export const LEAVE_REPEAT_OUT = 1.5;
/** A silence between presses that counts as a pause, seconds. */
export const PAUSE_S = 0.5;
/** Taken off where the jump lands on the first note of a bar: people start again at bar lines. */
export const LAND_ON_BAR = 0.8;
/** Added for each later pass of the same bars: of equal explanations the earliest pass counts. */
export const LATER_PASS = 0.05;
/** Added for each doubling of the distance jumped, in slots: of equal places the nearer one. */
export const FARTHER = 0.03;
/** Leaving the score altogether (noodling, another piece); what follows is then cheap until it comes back. */
export const LEAVE = 3;
/** A press outside the score. */
export const OUTSIDE = 0.08;
/** Coming back from outside. `LEAVE + RETURN` is a little more than a jump. */
export const RETURN = 5;
/** Trying some keys before the music begins. */
export const NOODLE = 1;
/** Starting at the very beginning costs nothing, elsewhere this: like a jump. */
export const START_ELSEWHERE = 5.5;
/** Hypotheses worse than the best by more than this are given up: a jump and some slips. */
export const BEAM = 11;
/** With no more slots than this, a jump may land anywhere; in longer scores only where the next notes fit as well. */
export const LAND_ANYWHERE_SLOTS = 800;
/** Places that are tried for one landing at the most, the nearest ones. */
export const MAX_LANDINGS = 32;
