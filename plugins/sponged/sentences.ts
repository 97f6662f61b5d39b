/** What a designer reads, and sets. */
export const SENTENCES = [
  '{action: Colour is dabbed on | Wet paint is dabbed off | The artwork is printed} with a sponge {sponge} wide, at {strength} strength.',
  'Its pores are {pores} wide, and it is pressed with {pressure} of full weight.',
  'Dabs overlap {passes} and are {drifts} gathered in places.',
  'Colour that is dabbed on is {colour}, but {secondColour} in {second} of the dabs.',
];
