// SPDX-License-Identifier: GPL-3.0-or-later
// The laptop's screen for pairing phones: opens a code, shows its QR codes, lists and removes devices.
"use strict";
const at = (id) => document.getElementById(id);
const say = (text) => { at("word").textContent = text; };
const picture = (svg) => "data:image/svg+xml;charset=utf-8," + encodeURIComponent(svg);

async function ask(method, path, body) {
  const answer = await fetch("/api/v1" + path, {
    method, body: body && JSON.stringify(body), headers: body ? { "Content-Type": "application/json" } : {},
  });
  const text = await answer.text();
  const value = text ? JSON.parse(text) : null;
  if (!answer.ok) throw new Error(value ? value.detail : answer.statusText);
  return value;
}

async function list() {
  const { devices } = await ask("GET", "/devices");
  at("devices").replaceChildren(...devices.map((device) => {
    const row = document.createElement("li");
    const button = document.createElement("button");
    row.textContent = `${device.name}: ${device.role}, since ${new Date(device.paired_s * 1000).toLocaleDateString()} `;
    button.textContent = "Remove";
    button.addEventListener("click", () => run(async () => {
      await ask("DELETE", `/devices/${device.id}`);
      await list();
    }));
    row.append(button);
    return row;
  }));
}

async function open() {
  const code = await ask("POST", "/pairing", { role: at("role").value });
  at("code").textContent = `${code.code.slice(0, 4)}-${code.code.slice(4)}`;
  at("until").textContent = `until ${new Date(code.ends_s * 1000).toLocaleTimeString()}, for one device`;
  at("steps").hidden = !code.page;
  at("closed").hidden = Boolean(code.page);
  if (!code.page) return;
  for (const name of ["install", "page"]) {
    at(name).textContent = code[name];
    at(`${name}-qr`).src = picture(code[`${name}_qr`]);
  }
  at("fingerprint").textContent = code.fingerprint;
}

function run(work) {
  say("");
  work().catch((error) => say(error.message));
}

at("open").addEventListener("click", () => run(open));
run(list);
setInterval(() => run(list), 5000);
