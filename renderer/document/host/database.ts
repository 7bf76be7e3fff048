import { HostError } from "./contract.ts";

const stores = ["picked", "working", "settings"] as const;
type Store = (typeof stores)[number];

/** What a browser keeps for this app by itself (IndexedDB): values by key in a few stores. */
export interface Database {
  get(store: Store, key: string): Promise<unknown>;
  all(store: Store): Promise<unknown[]>;
  put(store: Store, key: string, value: unknown): Promise<void>;
  remove(store: Store, key: string): Promise<void>;
}

export function database(): Database {
  let opened: Promise<IDBDatabase> | undefined;
  const inStore = async <T>(
    store: Store,
    mode: IDBTransactionMode,
    work: (s: IDBObjectStore) => IDBRequest<T>,
  ) => {
    opened ??= openDatabase();
    const transaction = (await opened).transaction(store, mode);
    const request = work(transaction.objectStore(store));
    await new Promise<void>((done, fail) => {
      transaction.oncomplete = () => done();
      transaction.onabort = () => fail(inWords(transaction.error));
    });
    return request.result;
  };
  return {
    get: (store, key) => inStore(store, "readonly", (s) => s.get(key)),
    all: (store) => inStore(store, "readonly", (s) => s.getAll()),
    put: async (store, key, value) => void (await inStore(store, "readwrite", (s) => s.put(value, key))),
    remove: (store, key) => inStore(store, "readwrite", (s) => s.delete(key)),
  };
}

function openDatabase(): Promise<IDBDatabase> {
  return new Promise((done, fail) => {
    const request = indexedDB.open("ribband", 1);
    request.onupgradeneeded = () => {
      for (const store of stores) request.result.createObjectStore(store);
    };
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(inWords(request.error));
  });
}

function inWords(error: DOMException | null): HostError {
  return new HostError(
    error?.name === "QuotaExceededError"
      ? "The browser has no room left for what is not saved."
      : `The browser keeps nothing for Ribband: ${error?.message ?? "the reason is not known"}.`,
  );
}
