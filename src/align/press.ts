/** A key press as the follower sees it: its key already moved back by the keyboard's transposition. */
export interface Press {
  readonly onsetS: number;
  readonly key: number;
}
