/** What to do about the faults that an author meets most: said by `prove`, `watch` and `make` alike. */
export const HINTS = {
  notClosed:
    'Bringing places home into the box is not enough: what is drawn there must itself run on across its edges. Let a whole number of stripes, threads or cells fill the box (fieldShape counts them), use noise, points and fields that close over it, let a filter of your own read on across its edges instead of stopping there, and draw nothing along them.',
  stepAtEdge:
    'What ends there does not run on: let a whole number of stripes, threads or cells fill the box (fieldShape counts them), and use noise, points and fields that close over it. Bringing places home into the box is not enough.',
  lineAtEdge:
    'Draw nothing along the edges of the box, and let a filter of your own read on across them instead of stopping there.',
  strangeAtEdge:
    'Either it is cut there (let a whole number of stripes, threads or cells fill the box: fieldShape counts them), or it is made otherwise near the edges: fade nothing out towards them, but use noise, points and fields that close over the box.',
  cutFromArtwork:
    'The artwork stands in repeat: what spreads from a motif, as a distance, a blur or a shadow, goes on over the edges of the box. A sweep down and up that starts at an edge knows nothing of what lies before it: sweep twice around, or begin a repeat earlier.',
  laneAtEdge:
    'Things keep away from the edges of the box, or are drawn twice there: strew them over all of the box as if it had no edges (poissonPoints and noise of "tenter" do), and draw each that reaches over an edge once on either side.',
  wrongCount:
    'It hangs on how many cells the box holds: what goes by the parity of a cell (a chequer), or by every third one, closes over whole twos or threes of them alone. Round the count of cells to a multiple of the pattern, and with a drop or a brick the shift as well: take a cell of the whole pattern, twice as wide and high, to cellGrid or fieldShape.',
  stack:
    'Where a list is spread into a call, as in Math.max(...values) or push(...values), each item takes room on the stack, which a large box has too many for: go through them in a loop. Otherwise a function calls itself without an end.',
  notFinite: 'Look for a division by zero, a root or logarithm of a negative number, or a sum over nothing.',
  notFiniteModel:
    'It is in the model already, so it comes of prepare: where prepare steps through time, the step may be too long to be stable; otherwise look for a division by zero, a root or logarithm of a negative number, or a sum over nothing.',
  rarelyUnsound:
    'It is so in few places of a large tile: noise goes beyond three deviations, and what is drawn comes near its ends, now and then. Clamp what goes into a root, a power, a logarithm or a division before, not only what comes out.',
  clamp: 'Clamp it, or mend the sum that leads there.',
  clampMm:
    'It is in mm: micrometres are divided by 1,000, and pixels multiplied by the mm of one. Otherwise clamp it, or mend the sum that leads there.',
  soundFurtherOn:
    'It is sound some repeats further on, where no place is negative: Math.trunc, | 0 and % go towards zero, so take Math.floor, or bring places home first (homeParts of "tenter").',
} as const;
