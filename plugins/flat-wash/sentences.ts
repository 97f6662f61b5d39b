/** What a designer reads, and sets. */
export const SENTENCES = [
  'A wash is laid with a brush {brush} wide, in strokes {stroke} long that run at {direction}.',
  '{drying} of its edges had begun to dry when they were met; paint gathers there at {edges} strength, and {bead} at the lower edge of each stroke.',
  'The wash wanders {unevenness} between light and dark, with {backRuns} back-runs, and {skips} of skipped flecks.',
  'It settles {granulation} in the hollows of the paper. The hues part {parting}, and the {settles} of them settles.',
];
