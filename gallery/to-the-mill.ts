import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The command as it stands built beside the demo. */
const TENTER = fileURLToPath(new URL('../cli/main.js', import.meta.url));
const REPEAT = ['--layout', 'drop:1/2', '--size', '200x240mm'];
const CARD = 'gallery/colourways/nasturtium.card.json';
const WAYS = 'gallery/colourways/nasturtium.ways.json';

/**
 * A design goes to the mill, by the commands that anybody types: its inks on a card (`mill/`), its colourways side by
 * side (`sheets/`), linen within its six inks, the threads in one of them (`mill/`), and the parcel of that (`parcels/`).
 */
export function goToTheMill(folder: string): string {
  const tile = join(folder, 'artwork/nasturtium.png');
  const at = (...parts: string[]) => join(folder, ...parts);
  run('inks', tile, ...REPEAT, '--card', CARD, '--draw', at('mill/nasturtium-card.png'));
  run(
    ...['colourways', tile, ...REPEAT, '--ways', WAYS],
    ...['--no-pictures', '--sheet', at('sheets/nasturtium-colourways.png')],
  );
  const screened = at('mill/nasturtium-on-linen.png');
  run(
    ...['lay', 'linen-weave', tile, '--preset', 'kitchen-apron', ...REPEAT],
    ...[
      '--card',
      CARD,
      '--screens',
      '6',
      '--texture',
      'own',
      '--texture-ink',
      'shade leaf',
      '--out',
      screened,
    ],
  );
  run('pack', screened, ...REPEAT, '--card', CARD, '--ways', WAYS, '--plates', '--out', at('parcels'));
  return 'nasturtium, linen within the six inks of its card, packed for the mill';
}

function run(...words: string[]): void {
  execFileSync(process.execPath, [TENTER, ...words], { stdio: ['ignore', 'ignore', 'inherit'] });
}
