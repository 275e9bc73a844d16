// SPDX-License-Identifier: GPL-3.0-or-later
// First the words, then the page: what it says while it starts is in the person's language already.
import { loadWords } from "./words";

void loadWords().then(() => import("./main"));
