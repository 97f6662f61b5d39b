import { formatSize } from '../../repeat/length.ts';
import { Failed } from './failed.ts';
import { FoundUnsound } from './found-unsound.ts';
import { HOME, type Trial } from './trial.ts';

/**
 * Names what alone, put back to what is usual, keeps the promise: a layout, a size or a quality. Where values of
 * parameters are needed to break it, these say enough.
 *
 * @param isKept Whether the promise is kept in another setting.
 */
export async function withCure(
  failed: Failed,
  trial: Trial,
  isKept: (trial: Trial) => Promise<boolean>,
): Promise<Failed> {
  if (failed instanceof FoundUnsound || Object.keys(failed.failure.setting.parameters).length > 0)
    return failed;
  const { width, height, quality } = HOME;
  const layout = trial.layout.startsWith('brick') ? 'brick:1/2' : HOME.layout;
  const usual: readonly (readonly [words: string, change: Partial<Trial>])[] = [
    [`In layout ${layout}`, { layout }],
    [`At ${formatSize(HOME)}`, { width, height }],
    [`Not as a sketch but ${quality}`, { quality }],
  ];
  for (const [words, change] of usual) {
    const cured = { ...trial, ...change, parameters: {} };
    const isChanged = Object.entries(change).some(([name, value]) => trial[name as keyof Trial] !== value);
    if (!isChanged || !(await isKept(cured))) continue;
    const { setting, sentence: _, remedy, ...parts } = failed.failure;
    return new Failed(setting, { ...parts, remedy: `${words} this is kept. ${remedy}` });
  }
  return failed;
}
