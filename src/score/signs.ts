/** Signs of the playing order over all parts: what one part alone says holds for all. */
import { readBarSigns, type BarSigns, type WrittenSigns } from './navigation.js';
import { childrenNamed, type XmlElement } from './xmlTree.js';

/** What bears on the playing order, from all parts of the file: programs often write a jump into the top part only. */
export function signsOfBars(root: XmlElement, bars: number): readonly BarSigns[] {
  const parts = childrenNamed(root, 'part').map((part) => childrenNamed(part, 'measure'));
  const written = Array.from({ length: bars }, (_, i) =>
    mergedSigns(parts.flatMap((part) => (part[i] === undefined ? [] : [readBarSigns(part[i])]))),
  );
  return written.map((signs, i) => ({
    ...signs,
    repeatStart: signs.repeatStart || written[i - 1]?.nextStarts === true,
    repeatEnd: signs.repeatEnd ?? written[i + 1]?.previousEnds ?? null,
  }));
}

/** The signs of several parts at the same bar, taken together. */
function mergedSigns(all: readonly WrittenSigns[]): WrittenSigns {
  const jumps = new Map(all.flatMap((signs) => signs.jumps).map((jump) => [`${jump.kind} ${jump.label}`, jump]));
  const targets = new Map(all.flatMap((signs) => signs.targets).map((target) => [`${target.kind} ${target.label}`, target]));
  return {
    repeatStart: all.some((signs) => signs.repeatStart),
    nextStarts: all.some((signs) => signs.nextStarts),
    repeatEnd: all.find((signs) => signs.repeatEnd !== null)?.repeatEnd ?? null,
    previousEnds: all.find((signs) => signs.previousEnds !== null)?.previousEnds ?? null,
    endingStart: all.find((signs) => signs.endingStart !== null)?.endingStart ?? null,
    endingStop: all.some((signs) => signs.endingStop),
    jumps: [...jumps.values()],
    targets: [...targets.values()],
  };
}
