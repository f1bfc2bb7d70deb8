/** Widths of text in the page's serif face, needed where no browser can be asked: placing and clearing room. */

/** Advance widths of Alegreya regular for U+0020 to U+007E in thousandths of the size, read from the font (OFL). */
const ROMAN =
  '198 285 298 498 459 671 700 176 275 274 456 506 294 380 305 329 533 342 475 416 453 430 462 420 485 455 238 238 506 506 506 360 ' +
  '832 584 597 626 703 591 512 667 754 361 327 628 507 847 719 692 551 697 611 530 546 681 610 932 656 538 568 309 329 309 506 458 ' +
  '398 466 508 424 537 448 330 501 534 282 250 497 244 832 548 498 528 516 383 402 330 541 445 705 475 446 460 309 372 309 506';

/** The same for Alegreya italic. */
const ITALIC =
  '169 274 296 480 434 647 567 177 297 301 435 486 228 311 303 316 510 340 456 400 431 413 437 404 466 437 228 228 484 486 484 346 ' +
  '801 556 571 601 675 567 490 640 723 346 313 601 485 813 689 665 528 670 585 507 523 655 584 893 627 512 544 297 316 297 485 439 ' +
  '382 461 453 344 463 359 257 444 490 264 245 445 250 736 496 406 465 442 346 339 285 488 421 643 462 438 398 297 355 297 486';

/** Signs outside the table that labels use, roman and italic, measured in a browser with the same font. */
const SIGNS: ReadonlyMap<string, readonly [roman: number, italic: number]> = new Map([['°', [302, 290]], ['ø', [498, 406]], ['–', [608, 439]], ['’', [176, 194]], ['“', [331, 343]], ['”', [331, 344]]]);

/** Width of a character outside the table, thousandths: about that of a wide small letter. */
const OTHER = 600;

/** How a piece of text is set. */
export interface TextStyle {
  /** Type size, in the unit wanted back. */
  readonly size: number;
  readonly italic?: boolean;
}

/** Width of a line of text in the unit of `size`; kerning is not counted (under 2 %). */
export function textWidth(text: string, { size, italic = false }: TextStyle): number {
  const table = (italic ? ITALIC : ROMAN).split(' ').map(Number);
  const thousandths = Array.from(text, (letter) => table[(letter.codePointAt(0) ?? 0) - 32] ?? SIGNS.get(letter)?.[italic ? 1 : 0] ?? OTHER);
  return (thousandths.reduce((sum, width) => sum + width, 0) * size) / 1000;
}

/** Height of ascenders above the base line, as a share of the size. */
export const TEXT_RISE = 0.75;

/** Depth of descenders below it. */
export const TEXT_DROP = 0.27;
