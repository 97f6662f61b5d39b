// Writes the JSON Schemas of presets, recipes and collections into presets/ (npm run schemas); a test holds them to the code.
import { writeFileSync } from 'node:fs';
import { publishedSchemas as collectionSchemas } from '../dist/collection/index.js';
import { publishedSchemas } from '../dist/host/index.js';

for (const [file, schema] of Object.entries({ ...publishedSchemas(), ...collectionSchemas() })) {
  writeFileSync(new URL(`../presets/${file}`, import.meta.url), `${JSON.stringify(schema, null, 2)}\n`);
}
