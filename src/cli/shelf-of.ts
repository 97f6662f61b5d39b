import { openShelf, type Shelf } from '../host/plugins/shelf.ts';
import { askOnTerminal } from './ask.ts';

/** The options that say which plugins to load. */
export interface PluginFlags {
  readonly plugins: readonly string[];
  readonly trust?: boolean;
  readonly json?: boolean;
}

/** Opens the shelf for a command: asks before a new plugin runs, and warns of those that did not load. */
export async function shelfOf({ plugins, trust, json }: PluginFlags): Promise<Shelf> {
  const shelf = await openShelf(plugins, { consent: { trust, ask: askOnTerminal({ quiet: json }) } });
  for (const fault of shelf.faults) console.error(`tenter: not loaded: ${fault.message}`);
  return shelf;
}
