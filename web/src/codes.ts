// SPDX-License-Identifier: GPL-3.0-or-later
// A text as a code to be read by a camera (ISO/IEC 18004), black on white with its quiet zone. It comes only when asked for.
import make from "qrcode-generator";

export const CODE_BYTES = 900; /* a code that old cameras still read off a phone's screen */

make.stringToBytes = (text: string): number[] => [...new TextEncoder().encode(text)];

/** The dark squares as the path of an SVG, one unit each, and how many a side. */
export function codeOf(text: string): { path: string; size: number } {
  const code = make(0, "L");
  code.addData(text, "Byte");
  code.make();
  const size = code.getModuleCount(), rows: string[] = [];
  for (let y = 0; y < size; y++)
    for (let x = 0, from = -1; x <= size; x++) {
      const dark = x < size && code.isDark(y, x);
      if (dark && from < 0) from = x;
      if (!dark && from >= 0) { rows.push(`M${from} ${y}h${x - from}v1h-${x - from}z`); from = -1; }
    }
  return { path: rows.join(""), size };
}
