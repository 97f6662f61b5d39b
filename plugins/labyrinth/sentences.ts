/** What a designer reads, and sets. */
export const SENTENCES = [
  '{figure: A winding maze | Worms among spots | Spots that keep apart | A net with holes}, {width} from one line to the next.',
  'The figure {action: keeps paint off | takes more paint} at {strength} strength.',
  'It is {weight} of the way from thin to fat, and changes by {drift} from place to place.',
  'Its edges fade over {softness}, fray by {fray} and gather paint at {edge} strength.',
];
