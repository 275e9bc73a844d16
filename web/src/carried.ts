// SPDX-License-Identifier: GPL-3.0-or-later
// Files that belong to the page: from the laptop, or out of the page itself where it is a single file that has no laptop behind it
// (lanewick page --single). There each stands in an element whose id is its path, packed by gzip.

const carried = (path: string): HTMLElement | null => document.getElementById(path);
/** The single-file page. */
export const alone = (): boolean => carried("/core.wasm") !== null;

export async function file(path: string): Promise<ArrayBuffer> {
  const inside = carried(path);
  if (inside) {
    const packed = Uint8Array.from(atob((inside.textContent ?? "").trim()), (sign) => sign.charCodeAt(0));
    return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  }
  const answer = alone() ? null : await fetch(path);
  if (!answer?.ok) throw new Error(`${path}: ${answer?.status ?? "not in this page"}`);
  return answer.arrayBuffer();
}

export const textFile = async (path: string): Promise<string> => new TextDecoder().decode(await file(path));
