// SPDX-License-Identifier: GPL-3.0-or-later
// The choice of the language: each is named in itself, so that it is found by who speaks it.
import { useEffect, useState } from "preact/hooks";
import { choose, language, languages, say, type Language } from "./words";

export function Languages() {
  const [list, setList] = useState<Language[]>([]);
  useEffect(() => void languages().then(setList), []);
  if (list.length < 2) return null;
  return (
    <select class="small" aria-label={say("Language")} value={language()} onChange={(e) => void choose(e.currentTarget.value)}>
      {list.map((one) => <option key={one.code} value={one.code} lang={one.code}>{one.name}</option>)}
    </select>
  );
}
