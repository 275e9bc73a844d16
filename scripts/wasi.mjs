// SPDX-License-Identifier: GPL-3.0-or-later
// The few calls of WASI (snapshot preview 1) that run_cases makes: arguments, reading a file below the current folder,
// writing to standard output. Node.js has its own, but it is marked experimental and ends some versions with a fault.
import {readFileSync} from 'node:fs';

const DONE = 0, BAD_FILE = 8, NO_ENTRY = 44;

class Ended extends Error {
    constructor(code) { super(`ended with ${code}`); this.code = code; }
}

// Runs a compiled module; gives its exit code and what it wrote.
export async function run(module, args) {
    const open = new Map(), written = [];
    let memory, next = 4;
    const view = () => new DataView(memory.buffer);
    const bytes = (at, length) => new Uint8Array(memory.buffer, at, length);
    const words = args.map(word => Buffer.from(word + '\0'));
    const buffers = (at, count) => Array.from({length: count},
        (_, i) => bytes(view().getUint32(at + 8 * i, true), view().getUint32(at + 8 * i + 4, true)));

    const calls = {
        args_sizes_get(count, size) {
            view().setUint32(count, words.length, true);
            view().setUint32(size, words.reduce((sum, word) => sum + word.length, 0), true);
            return DONE;
        },
        args_get(list, at) {
            for (const word of words) {
                view().setUint32(list, at, true);
                bytes(at, word.length).set(word);
                list += 4;
                at += word.length;
            }
            return DONE;
        },
        fd_prestat_get(fd, at) {
            if (fd !== 3) return BAD_FILE;
            view().setUint32(at, 0, true);
            view().setUint32(at + 4, 1, true);
            return DONE;
        },
        fd_prestat_dir_name(fd, at) {
            bytes(at, 1)[0] = '.'.charCodeAt(0);
            return DONE;
        },
        fd_fdstat_get(fd, at) {
            bytes(at, 24).fill(0);
            view().setUint8(at, fd === 3 ? 3 : fd < 3 ? 2 : 4); // directory, character device, file
            view().setBigUint64(at + 8, 0xffffffffffffffffn, true);
            view().setBigUint64(at + 16, 0xffffffffffffffffn, true);
            return DONE;
        },
        fd_fdstat_set_flags() { return DONE; },
        path_open(directory, lookup, path, length, create, rights, inheriting, flags, result) {
            const name = Buffer.from(bytes(path, length)).toString();
            try {
                open.set(next, {data: readFileSync(name), at: 0});
            } catch {
                return NO_ENTRY;
            }
            view().setUint32(result, next++, true);
            return DONE;
        },
        fd_close(fd) { return open.delete(fd) ? DONE : BAD_FILE; },
        fd_read(fd, list, count, result) {
            const file = open.get(fd);
            if (!file) return BAD_FILE;
            let total = 0;
            for (const room of buffers(list, count)) {
                const part = file.data.subarray(file.at, file.at + room.length);
                room.set(part);
                file.at += part.length;
                total += part.length;
            }
            view().setUint32(result, total, true);
            return DONE;
        },
        fd_seek(fd, offset, from, result) {
            const file = open.get(fd);
            if (!file) return BAD_FILE;
            file.at = Number(offset) + [0, file.at, file.data.length][from];
            view().setBigUint64(result, BigInt(file.at), true);
            return DONE;
        },
        fd_write(fd, list, count, result) {
            let total = 0;
            for (const part of buffers(list, count)) {
                written.push(Buffer.from(part));
                total += part.length;
            }
            view().setUint32(result, total, true);
            return DONE;
        },
        proc_exit(code) { throw new Ended(code); },
    };
    const instance = await WebAssembly.instantiate(module, {wasi_snapshot_preview1: calls});
    memory = instance.exports.memory;
    let code = 0;
    try {
        instance.exports._start();
    } catch (fault) {
        if (!(fault instanceof Ended)) throw fault;
        code = fault.code;
    }
    return {code, text: Buffer.concat(written).toString()};
}
