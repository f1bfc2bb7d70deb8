/** How fast a time grows with size. */
import { linearRegression } from 'simple-statistics';

/** Slope of log time against log size, by least squares: 1 where twice the notes take twice the time, 2 where four times. */
export function exponent(points: readonly (readonly [size: number, time: number])[]): number {
  return linearRegression(points.map(([size, time]) => [Math.log(size), Math.log(time)])).m;
}
