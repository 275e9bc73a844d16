// SPDX-License-Identifier: GPL-3.0-or-later
// The laptop's screen for phones: a code for one phone with what it may do, the phones that are let in, the owner's passphrase.
import { useEffect, useRef, useState } from "preact/hooks";
import { ask, Problem, sentence, token } from "./api";
import { Choice, Say, TextField } from "./form";
import { say } from "./words";

interface Device { id: string; name: string; role: string; paired_s: number }
interface Code { code: string; ends_s: number; page: string | null; install: string | null; page_qr: string | null; install_qr: string | null; fingerprint: string | null }
const LOOK_MS = 5000;

const roles = (): [string, string][] => [["bench", say("take readings (bench)")], ["planner", say("also plan lamps (planner)")], ["owner", say("do everything (owner)")]];
const roleWord = (role: string): string => roles().find(([one]) => one === role)?.[1] ?? role;
const picture = (svg: string | null): string => `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg ?? "")}`;
const time = (s: number): string => new Date(s * 1000).toTimeString().slice(0, 5);
const day = (s: number): string => new Date(s * 1000).toISOString().slice(0, 10);

function Steps({ code }: { code: Code }) {
  return (
    <section aria-label={say("Code")}>
      <p role="status">{say("Code")}: <strong class="bigcode">{code.code.slice(0, 4)}-{code.code.slice(4)}</strong> {say("until {0}, for one phone", time(code.ends_s))}</p>
      {!code.page ? <p class="alarm">{say("The network of the workshop is not let in, or this laptop is in none. Join its Wi-Fi, then start the program with: lanewick serve --lan")}</p> : (
        <>
          <h3>{say("1. The phone trusts the workshop (once)")}</h3>
          <p>{say("Scan this or open")} <code>{code.install}</code></p>
          <img src={picture(code.install_qr)} width="220" height="220" alt={say("QR code of the address above")} />
          <p>{say("Fingerprint to compare:")} <code class="long">{code.fingerprint}</code></p>
          <h3>{say("2. The phone joins")}</h3>
          <p>{say("Scan this or open")} <code>{code.page}</code></p>
          <img src={picture(code.page_qr)} width="220" height="220" alt={say("QR code of the address above")} />
        </>)}
    </section>
  );
}

/** Who does not have the owner's rights here gets them by the passphrase, as long as this view is open. */
function SignIn({ done }: { done: () => void }) {
  const [passphrase, setPassphrase] = useState(""), [word, setWord] = useState("");
  const go = (event: Event): void => {
    event.preventDefault();
    ask<{ token: string }>("POST", "/owner", { passphrase, name: "owner" }).then((answer) => { token.set(answer.token); done(); }, (error: unknown) => setWord(sentence(error)));
  };
  return (
    <form onSubmit={go}>
      <p>{say("Phones are let in by the owner of the workshop.")}</p>
      <TextField label={say("Passphrase of the owner")} value={passphrase} set={setPassphrase} secret />
      <div class="buttons"><button class="main">{say("Go on as the owner")}</button></div>
      <Say what={word} />
    </form>
  );
}

function Passphrase() {
  const [before, setBefore] = useState(""), [passphrase, setPassphrase] = useState(""), [word, setWord] = useState(""), [done, setDone] = useState("");
  const go = (event: Event): void => {
    event.preventDefault();
    setWord(""); setDone("");
    ask("POST", "/owner/passphrase", { before, passphrase }).then(() => { setDone(say("The passphrase is kept. Keep a copy on paper: it cannot be read back.")); setBefore(""); setPassphrase(""); }, (error: unknown) => setWord(sentence(error)));
  };
  return (
    <details><summary>{say("Passphrase of the owner")}</summary>
      <form onSubmit={go}>
        <p class="hint">{say("Without one, whoever sits at this laptop is its owner. With one, phones are let in and taken away only by who knows it.")}</p>
        <div class="pair">
          <TextField label={say("The one of before, if there is one")} value={before} set={setBefore} secret />
          <TextField label={say("The new one")} value={passphrase} set={setPassphrase} secret hint={say("Four words are easy to keep")} />
        </div>
        <div class="buttons"><button>{say("Keep this passphrase")}</button></div>
        <Say what={word} /><Say kind="note" what={done} />
      </form>
    </details>
  );
}

export function PhonesView() {
  const [devices, setDevices] = useState<Device[]>([]), [role, setRole] = useState("bench"), [code, setCode] = useState<Code | null>(null), [word, setWord] = useState(""), [owner, setOwner] = useState(true);
  const before = useRef(token.get());
  const lost = (error: unknown): void => {
    if (error instanceof Problem && (error.status === 401 || error.status === 403)) setOwner(false);
    else setWord(sentence(error));
  };
  const list = (): Promise<void> => ask<{ devices: Device[] }>("GET", "/devices").then((answer) => { setDevices(answer.devices); setOwner(true); }, lost);
  useEffect(() => {
    void list();
    const timer = setInterval(() => { if (!document.hidden) void list(); }, LOOK_MS);
    return () => { clearInterval(timer); token.set(before.current); };
  }, []);
  const open = (): void => { setWord(""); ask<Code>("POST", "/pairing", { role }).then(setCode, lost); };
  const remove = (device: Device): void => {
    if (confirm(say("Take {0} away? It must be let in anew to read or write here.", device.name))) ask("DELETE", `/devices/${device.id}`).then(list, lost);
  };
  return (
    <>
      <h1>{say("Phones of the workshop")}</h1>
      {owner ? (
        <>
          <Choice label={say("This phone may")} value={role} set={setRole} of={roles()} />
          <div class="buttons"><button type="button" class="main" onClick={open}>{say("Open a code")}</button></div>
          <Say what={word} />
          {code ? <Steps code={code} /> : null}
          <h2>{say("Let in")}</h2>
          {devices.length ? <ul class="plainlist">{devices.map((device) => (
            <li key={device.id}>{device.name}: {roleWord(device.role)}, {say("since {0}", day(device.paired_s))} <button type="button" onClick={() => remove(device)}>{say("Take away")}</button></li>
          ))}</ul> : <p class="quiet">{say("No phone yet.")}</p>}
          <Passphrase />
        </>) : <SignIn done={() => void list()} />}
    </>
  );
}
