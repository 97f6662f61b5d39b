import { createCanvas, ImageData } from '@napi-rs/canvas';
import { CARD, LETTERS, MADDER, QUIET } from '../collection/sheet/inks.ts';
import { heightOf, writeParagraphs } from '../collection/sheet/paragraphs.ts';
import type { CheckResult, ProofPicture } from '../effect/prove/report.ts';
import { describeTrial } from '../effect/prove/trial.ts';

const MARGIN = 16;
/** px; a narrower picture gets room for its words beside it. */
const LEAST_WIDTH = 560;

/** The picture of a failure on a card that says what is not kept, what is shown, where the mark is and with which setting. */
export function captionProof(
  effect: string,
  result: CheckResult & { readonly status: 'failed' },
  { pixels, width, height, caption }: ProofPicture,
): ProofPicture {
  const { received, setting } = result.failure;
  const paragraphs = [
    { text: `${effect}, ${result.check}: not kept`, height: 20, weight: 500, ink: MADDER },
    { text: `Received ${received}.`, height: 16, weight: 400, ink: LETTERS },
    ...(caption ? [{ text: caption, height: 16, weight: 400, ink: LETTERS } as const] : []),
    { text: describeTrial(setting), height: 14, weight: 400, ink: QUIET },
  ] as const;
  const column = Math.max(LEAST_WIDTH, width);
  const words = Math.ceil(heightOf(paragraphs, column));
  const canvas = createCanvas(column + 2 * MARGIN, height + words + 3 * MARGIN);
  const context = canvas.getContext('2d');
  context.fillStyle = CARD;
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.putImageData(new ImageData(pixels, width, height), MARGIN, MARGIN);
  writeParagraphs(context, paragraphs, MARGIN, height + 2 * MARGIN, column);
  const drawn = context.getImageData(0, 0, canvas.width, canvas.height);
  return { pixels: drawn.data, width: canvas.width, height: canvas.height };
}
