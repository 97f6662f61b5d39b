/** The longest of 1, 2, 5, 10, 20, 50 ... mm (or their parts) that takes at most `room` px. */
export function barLength(pixelsPerMm: number, room: number): number {
  const most = room / pixelsPerMm;
  const power = 10 ** Math.floor(Math.log10(most));
  const steps = [5, 2, 1].find((step) => step * power <= most) ?? 1;
  return Number((steps * power).toPrecision(1));
}
