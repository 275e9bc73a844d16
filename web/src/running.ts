// SPDX-License-Identifier: GPL-3.0-or-later
// The compiled core, running: what it gives to the page and asks of it.

export type Exports = Record<`lw_${string}`, (...values: number[]) => number> & { memory: WebAssembly.Memory; _initialize: () => void };

/** The C library asks for files, of which there are none here; a plan tells its progress. */
export async function begin(core: WebAssembly.Module, progress: (done: number) => void = () => undefined): Promise<Exports> {
  const noFile = (): number => 8;
  const files = Object.fromEntries(WebAssembly.Module.imports(core).filter((asked) => asked.module !== "page").map((asked) => [asked.name, noFile]));
  const door = (await WebAssembly.instantiate(core, { wasi_snapshot_preview1: files, page: { progress } })).exports as Exports;
  door._initialize();
  return door;
}
