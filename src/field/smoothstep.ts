/** 0 up to 0, 1 from 1 on, and between them the cubic that is level at both ends, 3t^2 - 2t^3 (Hermite). */
export function smoothstep(t: number): number {
  const part = t < 0 ? 0 : Math.min(t, 1);
  return part * part * (3 - 2 * part);
}
