import { checkPicture } from '../../host/check-picture.ts';
import { closingHint, type SeamReport } from '../../inspect/index.ts';
import { parseLayout } from '../../repeat/layout.ts';
import type { Size } from '../../repeat/length.ts';
import type { Closing } from '../words/news.ts';
import type { Artworks } from './opened/artworks.ts';

/** What the page asks of an artwork. */
export interface CheckOrder {
  readonly tile: string;
  readonly layout: string;
  readonly size?: Size;
}

const WORDS: Readonly<Record<SeamReport['grade'], string>> = {
  closes: 'It closes.',
  look: 'Look at it.',
  open: 'It does not close.',
};

/** Does an artwork close over a layout, and does its repeat show? @throws Fault (usage or input). */
export async function checkClosing(artworks: Artworks, { tile, layout, size }: CheckOrder): Promise<Closing> {
  const picture = artworks.pathOf(tile);
  const { seams, repeat, closesOver } = await checkPicture({ picture, layout: parseLayout(layout), size });
  const hint = closingHint(closesOver);
  return {
    grade: seams.grade,
    words: [WORDS[seams.grade], seams.summary, ...(hint === undefined ? [] : [`But ${hint}.`])],
    repeat: repeat.summary,
  };
}
