import type { ParcelFacts } from './facts.ts';

/** Below this a print shows its pixels from where cloth is looked at. */
const COARSE_DPI = 120;

/** What the craft has to be careful of, in plain sentences. */
export function cautionsFor(facts: Omit<ParcelFacts, 'cautions' | 'files'>): string[] {
  const { print, seams, card, steps } = facts;
  return [
    ...(seams.grade === 'open' ? [`The repeat does not close. ${seams.summary}`] : []),
    ...(seams.grade === 'look' ? [`Look along the joins before printing. ${seams.summary}`] : []),
    ...(print.dpi.x < COARSE_DPI || print.dpi.y < COARSE_DPI
      ? [`${Math.round(print.dpi.x)} dpi is coarse for a print: ask for the design at a higher density.`]
      : []),
    ...(print.opaque
      ? []
      : ['The print has transparent parts: nothing is printed there, and the bare ground shows.']),
    ...(print.profile.space === 'CMYK'
      ? [
          `The print was converted to "${print.profile.name}". Colours beyond what that press can print were drawn in; do not convert it again.`,
        ]
      : []),
    ...(card ? cardCautions(card.inks) : noCard(steps.length > 0)),
    'A screen and an office printer show colours only roughly. Match them by a strike-off on the cloth or paper itself.',
  ];
}

function cardCautions(inks: NonNullable<ParcelFacts['card']>['inks']): string[] {
  const clear = inks.filter(({ kind, covers }) => kind === 'ink' && !covers).map(({ name }) => name);
  const unused = inks
    .filter(({ kind, percent }) => kind === 'ink' && percent < 0.005)
    .map(({ name }) => name);
  return [
    ...(clear.length > 0
      ? [
          `${clear.join(', ')}: does not cover. What is printed under it shows through and makes a further colour.`,
        ]
      : []),
    ...(unused.length > 0
      ? [`${unused.join(', ')}: on the card, and next to nothing of the print is made of it.`]
      : []),
    'Areas are counted on the print as it stands, without spread of ink in the cloth and without traps.',
  ];
}

function noCard(isLaid: boolean): string[] {
  return [
    `No shade card came with it: the print is in continuous tone${isLaid ? ', texture and all' : ''}, and the number of screens is not settled.`,
  ];
}
