// SPDX-License-Identifier: GPL-3.0-or-later
// What the browser keeps for the bench (IndexedDB): slips that are not sent, cells and crates as the laptop last told them,
// discharges under way. Several changes are kept together or not at all. Where a browser keeps nothing, memory must do.

export type Shelf = "queue" | "cells" | "crates" | "runs" | "tools";
const keys: Record<Shelf, string> = { queue: "n", cells: "id", crates: "code", runs: "id", tools: "name" };
export interface Step { shelf: Shelf; put?: object; remove?: string | number }

export interface Kept {
  lasting: boolean;
  all<T>(shelf: Shelf): Promise<T[]>;
  write(steps: Step[]): Promise<void>;
}

const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((yes, no) => {
  request.onsuccess = () => yes(request.result);
  request.onerror = () => no(request.error ?? new Error("The browser could not read what it kept."));
});

function database(): Promise<IDBDatabase> {
  const request = indexedDB.open("lanewick.bench", 1);
  request.onupgradeneeded = () => {
    for (const [shelf, keyPath] of Object.entries(keys)) request.result.createObjectStore(shelf, { keyPath });
  };
  return done(request);
}

function lasting(db: IDBDatabase): Kept {
  return {
    lasting: true,
    all: <T>(shelf: Shelf) => done(db.transaction(shelf).objectStore(shelf).getAll()) as Promise<T[]>,
    write: (steps) => new Promise((yes, no) => {
      if (!steps.length) { yes(); return; }
      const work = db.transaction([...new Set(steps.map((s) => s.shelf))], "readwrite", { durability: "strict" });
      work.oncomplete = () => yes();
      work.onabort = work.onerror = () => no(work.error ?? new Error("The browser could not keep this: is its memory full?"));
      for (const step of steps) {
        const shelf = work.objectStore(step.shelf);
        if (step.put) shelf.put(step.put);
        else if (step.remove !== undefined) shelf.delete(step.remove);
      }
    }),
  };
}

function passing(): Kept {
  const shelves = new Map<Shelf, Map<unknown, object>>();
  const of = (shelf: Shelf): Map<unknown, object> => shelves.get(shelf) ?? shelves.set(shelf, new Map()).get(shelf)!;
  return {
    lasting: false,
    all: <T>(shelf: Shelf) => Promise.resolve([...of(shelf).values()] as T[]),
    write: (steps) => {
      for (const { shelf, put, remove } of steps) {
        if (put) of(shelf).set((put as Record<string, unknown>)[keys[shelf]], put);
        else of(shelf).delete(remove);
      }
      return Promise.resolve();
    },
  };
}

export async function keep(): Promise<Kept> {
  try {
    const kept = lasting(await database());
    void navigator.storage?.persist?.().catch(() => false);
    return kept;
  } catch {
    return passing();
  }
}
