/** Numbers that are looked at together: their sums do not wait for each other. */
const TOGETHER = 8;

/** Whether all its numbers are finite. 0 times a finite number is 0; anything else makes the sum no number. */
export function isFinitePlane(plane: Float32Array): boolean {
  let [a, b, c, d] = [0, 0, 0, 0];
  const whole = plane.length - (plane.length % TOGETHER);
  for (let k = 0; k < whole; k += TOGETHER) {
    a += plane[k] * 0 + plane[k + 1] * 0;
    b += plane[k + 2] * 0 + plane[k + 3] * 0;
    c += plane[k + 4] * 0 + plane[k + 5] * 0;
    d += plane[k + 6] * 0 + plane[k + 7] * 0;
  }
  for (let k = whole; k < plane.length; k++) a += plane[k] * 0;
  return a + b + c + d === 0;
}
