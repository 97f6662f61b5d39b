/** Whether all its numbers are finite. 0 times a finite number is 0; anything else makes the sum no number. */
export function isFinitePlane(plane: Float32Array): boolean {
  let sum = 0;
  for (let k = 0; k < plane.length; k++) sum += plane[k] * 0;
  return sum === 0;
}
