// Writes the JSON Schemas of presets and recipes into presets/ (npm run schemas); a test holds them to the code.
import { writeFileSync } from 'node:fs';
import { publishedSchemas } from '../dist/host/index.js';

for (const [file, schema] of Object.entries(publishedSchemas())) {
  writeFileSync(new URL(`../presets/${file}`, import.meta.url), `${JSON.stringify(schema, null, 2)}\n`);
}
