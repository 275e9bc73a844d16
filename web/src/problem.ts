// SPDX-License-Identifier: GPL-3.0-or-later
// What went wrong, in one sentence, with the field it is about (RFC 9457): from the server or from the core in the page.

export class Problem extends Error {
  constructor(readonly kind: string, message: string, readonly field = "", readonly status = 0, readonly more: Record<string, unknown> = {}) {
    super(message);
  }
}

export const sentence = (error: unknown): string => (error instanceof Error ? error.message : String(error));
