import sharp from 'sharp';

// A picture is read once: what the engine kept would only hold memory, and its files open.
sharp.cache(false);

/** The one way to the picture engine, so that nobody uses it with its cache on. */
export { sharp };
