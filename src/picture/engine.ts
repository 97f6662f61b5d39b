import sharp from 'sharp';

// The engine would keep files that it has opened, and give the old picture for one that was replaced since.
sharp.cache(false);

/** The one way to the picture engine, so that nobody uses it with its cache on. */
export { sharp };
