// What a general-purpose library takes for comparable work: read the tile, multiply a ready texture over it, write.
// Usage: node floor.mjs TILE TEXTURE OUT LEVEL
import sharp from 'sharp';

const [tile, texture, out, level] = process.argv.slice(2);
sharp.cache(false);
await sharp(tile, { limitInputPixels: false })
  .composite([{ input: texture, blend: 'multiply' }])
  .png({ compressionLevel: Number(level) })
  .toFile(out);
