// SPDX-License-Identifier: GPL-3.0-or-later
// A phone that the workshop does not know yet types the code from the laptop's screen, once.
import { useState } from "preact/hooks";
import { ask, sentence, token } from "./api";
import { Say, TextField } from "./form";
import { say } from "./words";

export function Pair({ paired }: { paired: () => void }) {
  const [code, setCode] = useState(() => /#pair=([\w-]+)/.exec(location.hash)?.[1] ?? "");
  const [name, setName] = useState("");
  const [word, setWord] = useState("");
  const go = async (event: Event): Promise<void> => {
    event.preventDefault();
    try {
      const answer = await ask<{ token: string }>("POST", "/pair", { code: code.trim().toUpperCase(), name: name.trim() || "phone" });
      token.set(answer.token);
      history.replaceState(null, "", "#/place");
      paired();
    } catch (error) { setWord(sentence(error)); }
  };
  return (
    <main id="main">
      <h1>{say("Join the workshop")}</h1>
      <p class="lead">{say("On the laptop open “Plans”, then “Phones of the workshop”, choose what this phone may do, and type the code that it shows.")}</p>
      <form onSubmit={(e) => void go(e)}>
        <TextField label={say("Code")} value={code} set={setCode} />
        <TextField label={say("Name of this phone")} value={name} set={setName} hint={say("So that the laptop can tell phones apart, as in “Amina's phone”.")} />
        <div class="buttons"><button class="main">{say("Join")}</button></div>
      </form>
      <Say what={word} />
    </main>
  );
}
