/** The host for programs in Node: finds effects, renders tiles, reads presets and recipes. */
export {
  type ClosedPicture,
  type CloseOrder,
  type ClosePlan,
  closeChange,
  closePicture,
  planClose,
} from '../join/index.ts';
export * from '../picture/index.ts';
export * from '../render/description.ts';
export * from '../render/frame.ts';
export * from '../render/ranges.ts';
export * from '../render/render.ts';
export * from '../render/step.ts';
export * from '../render/tile-grid.ts';
export * from './author/file-watch.ts';
export * from './author/preview.ts';
export * from './author/prove-plugin.ts';
export * from './author/start-effect.ts';
export * from './check-picture.ts';
export * from './close-file.ts';
export { cardText, readCard } from './ink/card-file.ts';
export * from './ink/colourway-file.ts';
export * from './ink/inks-in-force.ts';
export * from './ink/recolour-frame.ts';
export { type InkArea, type InksReport, type InksRequest, inksOfTile } from './ink/tile-inks.ts';
export * from './ink/write-colourways.ts';
export * from './lay.ts';
export * from './lay-tile.ts';
export * from './plugins/consent.ts';
export * from './plugins/find-recipe.ts';
export * from './plugins/packages.ts';
export * from './plugins/places.ts';
export * from './plugins/preset.ts';
export * from './plugins/recipe.ts';
export * from './plugins/resolve-steps.ts';
export * from './plugins/schemas.ts';
export * from './plugins/shelf.ts';
export * from './render-on-crew.ts';
export { openSightArtwork, type SightArtwork } from './sight/artwork.ts';
export * from './sight/order.ts';
export * from './sight/sight.ts';
export * from './threads/crew.ts';
export * from './threads/limits.ts';
