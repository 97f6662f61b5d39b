import { requireConsent } from '../host/plugins/consent.ts';
import { findPlaces } from '../host/plugins/places.ts';
import { openShelf } from '../host/plugins/shelf.ts';
import { openLivePage } from '../page/index.ts';
import { formatLayout } from '../repeat/layout.ts';
import { askOnTerminal } from './ask.ts';
import { limitsOf, type WatchFlags } from './options.ts';
import { servedUntilStopped } from './served-until-stopped.ts';

/** Shows an effect on the live page and follows every save, in place of a picture that is drawn again. */
export async function watchOnPage(folder: string, flags: WatchFlags, timeLimit: number): Promise<void> {
  const places = await findPlaces([folder], process.cwd());
  await requireConsent(places, { trust: flags.trust, ask: askOnTerminal() });
  const { effect, tile, layout, size, dpi: density, preset, seed, light, workers } = flags;
  const limits = { seconds: timeLimit, ...limitsOf(flags) };
  const page = await openLivePage({
    ...{ shelf: await openShelf(), plugins: [folder], trust: flags.trust, port: flags.port, limits, workers },
    place: tile,
    home: tile === undefined ? folder : undefined,
    artwork: { layout: formatLayout(layout), size, density },
    watched: { folder, effect, limits },
    laid: { preset, seed, light },
  });
  await servedUntilStopped(page, flags.browser);
}
