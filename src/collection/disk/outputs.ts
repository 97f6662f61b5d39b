import { join } from 'node:path';
import { REPORT_FILE, TIMES_FILE } from './output.ts';
import { sidecarPath } from './sidecar.ts';

/** Every file that a run leaves in its folder: the pictures, what stands beside them, the report. */
export function outputsOf(folder: string, items: readonly { readonly name: string }[]): string[] {
  const pictures = items.map(({ name }) => join(folder, name));
  return [...pictures, ...pictures.map(sidecarPath), join(folder, REPORT_FILE), join(folder, TIMES_FILE)];
}
