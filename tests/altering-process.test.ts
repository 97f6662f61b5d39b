import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Crew, openShelf, plainFrame, renderOnCrew, resolveSteps } from '../src/host/index.ts';
import { gridOfPixels, parseLayout } from '../src/repeat/index.ts';

/** What code branches on, and could be altered for all others of a thread; and the debugger, that sees all. */
const DEEDS: readonly string[] = [
  'process.env.LOCALE_OF_ANOTHER = "1"',
  'delete process.env.PATH',
  'process.env = {}',
  'Object.defineProperty(process, "platform", { value: "none" })',
  'Object.defineProperty(process, "arch", { value: "none" })',
  'Object.defineProperty(process, "version", { value: "v1.0.0" })',
  'process.versions.node = "1.0.0"',
  'process.argv.push("extra")',
  'childProcess.execSync = () => ""',
  'http.request = () => 0',
  'net.isIP = () => 6',
  'dns.lookup = () => 0',
  'diagnostics.channel = () => 0',
  'inspector.url = () => "no"',
  'new inspector.Session().connect()',
  'new inspector.Session().connectToMainThread()',
  'inspector.open(0)',
  'process.binding("inspector")',
];

let folder: string;
let crew: Crew;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-altering-process-'));
  crew = new Crew(1, { seconds: 60 });
});
afterAll(async () => {
  await crew.close();
  rmSync(folder, { recursive: true, force: true });
});

async function attempt(name: string, deed: string): Promise<string> {
  const place = join(folder, `${name}.ts`);
  writeFileSync(
    place,
    `import childProcess from 'node:child_process';
import diagnostics from 'node:diagnostics_channel';
import dns from 'node:dns';
import http from 'node:http';
import inspector from 'node:inspector';
import net from 'node:net';
import process from 'node:process';
import { defineEffect } from 'tenter';
export default defineEffect({
  apiVersion: 1, name: '${name}', version: '1.0.0', summary: 'Alters.', parameters: {}, planes: ['shade'],
  async prepare() { ${deed}; return {}; },
  paint(model, band, layer) { layer.shade.fill(0.5); },
});`,
  );
  const shelf = await openShelf([place], { consent: { trust: true }, builtIn: false });
  const grid = gridOfPixels({ layout: parseLayout('straight'), width: 8, height: 8 }, 8, 8);
  const steps = resolveSteps(shelf, [{ effect: name }], 'seven');
  const job = { grid, tile: plainFrame(8, 8, '#ffffff'), steps, follow: 'cloth' as const };
  return renderOnCrew(job, { crew }).then(
    () => 'nothing was refused',
    (fault: Error) => fault.message,
  );
}

const numbered = DEEDS.map((deed, number) => [deed, number] as const);

it.each(numbered)('is refused and told: %s', async (deed, number) => {
  expect(await attempt(`alters-${number}`, deed)).toMatch(/TypeError: .*keep a changed copy/);
});

it('reading goes on working', async () => {
  const reads = `const copy = { ...process.env, MINE: '1' };
    if (copy.MINE !== '1' || 'NOT_THERE' in process.env || process.env.NOT_THERE !== undefined) throw 'env';
    if (!process.platform || net.isIP('127.0.0.1') !== 4 || !process.argv[0]) throw 'process';
    process.exitCode = undefined; console.log('said'); new inspector.Session();`;
  expect(await attempt('reads', reads)).toBe('nothing was refused');
});
