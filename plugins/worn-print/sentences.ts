/** What a designer reads, and sets. */
export const SENTENCES = [
  '{surface: Printed cloth | Printed paper | A skin of thick ink} is {rubbed} rubbed at {direction} and {washed} washed out.',
  'Worn places are up to {patches} wide; {patchiness} of the wear gathers in them, and it has faded {uneven} unevenly.',
  'Along folds {foldsApart} apart the print is {folds} broken, along small creases {creases}.',
  'The paint is {cracks} cracked into flakes of {flakes}, with {scratches} scratches.',
  'Cloth has {threads} threads, which stand {standing} uneven.',
];
