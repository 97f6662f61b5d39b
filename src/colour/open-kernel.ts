/** What a kernel exports: its memory, functions, and places in it as globals. */
export type KernelExports = Readonly<Record<string, unknown>> & { readonly memory: WebAssembly.Memory };

/** Opens a kernel that `npm run kernels` has made, as text in base 64. */
export function openKernel(text: string): KernelExports {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  return new WebAssembly.Instance(new WebAssembly.Module(bytes), {}).exports as KernelExports;
}
