/** What a designer reads, and sets. */
export const SENTENCES = [
  'Drops of spirit, {drops}, fall on a wash that is {wetness} wet and open up to {size} wide.',
  'Their sizes vary by {variety}; fine specks are flicked on between them, {spatter}.',
  'They lift {lift} of the paint and darken their rims by {rim}.',
  'They sweep the colours of the artwork outward at {carry} strength.',
  'The spirit carries {inkAmount} ink, coloured {ink}.',
];
