// What a device asks for is written down here first, with a key of its own, and sent in order.
// It is struck out only on a definite answer: a lost reply is asked for again under the same key.

const TIMEOUT = 5000;
const RETRY = 3000;
const BASE = "kitwright";
const listeners = new Set();
let opened = null;
let flushing = false;
let again = false;

function open() {
  opened ??= new Promise((resolve, reject) => {
    const asking = indexedDB.open(BASE, 1);
    asking.onupgradeneeded = () => {
      asking.result.createObjectStore("queue", { keyPath: "n", autoIncrement: true });
      asking.result.createObjectStore("refused", { keyPath: "n", autoIncrement: true });
      asking.result.createObjectStore("kept");
    };
    asking.onsuccess = () => resolve(asking.result);
    asking.onerror = () => reject(asking.error);
  });
  return opened;
}

async function run(store, mode, act) {
  const base = await open();
  return new Promise((resolve, reject) => {
    const transaction = base.transaction(store, mode);
    const asking = act(transaction.objectStore(store));
    transaction.oncomplete = () => resolve(asking?.result);
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}

export const waiting = () => run("queue", "readonly", (store) => store.getAll());
export const refused = () => run("refused", "readonly", (store) => store.getAll());
export const settle = (n) => run("refused", "readwrite", (store) => store.delete(n)).then(tell);
export const kept = (name) => run("kept", "readonly", (store) => store.get(name));
export const keep = (name, value) => run("kept", "readwrite", (store) => store.put(value, name));

export function onChange(listener) {
  listeners.add(listener);
}

async function tell(event = {}) {
  for (const listener of listeners) await listener(event);
}

// crypto.randomUUID is missing on plain http; random bytes are there everywhere.
export function newKey() {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) =>
    byte.toString(16).padStart(2, "0")).join("");
}

export async function put(act, fields, words) {
  const key = newKey();
  const before = (await waiting()).length;
  const item = { key, act, fields, words, kit: document.body.dataset.kit, made: Date.now(), waited: before > 0 };
  await run("queue", "readwrite", (store) => store.add(item));
  navigator.storage?.persist?.();
  await tell({ queued: item });
  flush();
  return key;
}

export async function flush() {
  if (flushing) {
    again = true;
    return;
  }
  flushing = true;
  try {
    do {
      again = false;
      for (let item = await first(); item; item = await first()) {
        if (!(await send(item))) return;
      }
    } while (again);
  } finally {
    flushing = false;
  }
}

const first = async () => (await waiting())[0];

// Returns whether the next one may be sent.
async function send(item) {
  let reply, answer;
  try {
    reply = await fetch(`/api/v1/${item.kit}/${item.act}`, {
      method: "POST",
      headers: { "Content-Type": "application/json", "Kitwright-Version": document.body.dataset.version },
      body: JSON.stringify({ slip: item.key, ...item.fields }),
      signal: AbortSignal.timeout(TIMEOUT),
    });
    answer = await reply.json();
  } catch {
    await waited(item);
    return false;
  }
  if (reply.status === 412) {
    location.reload();
    return false;
  }
  if (reply.status === 401 || reply.status === 429 || reply.status >= 500) {
    await waited(item, reply.status === 401 ? "pair" : "");
    return false;
  }
  await answered(item, answer, reply.ok);
  return true;
}

async function waited(item, why = "") {
  if (!item.waited) {
    item.waited = true;
    await run("queue", "readwrite", (store) => store.put(item));
  }
  await tell({ waits: item, why });
}

// A refusal that comes later is listed until somebody has dealt with it.
async function answered(item, answer, ok) {
  const accepted = ok && !["NOT OK", "QUESTION"].includes(answer.answer);
  const { n, ...rest } = item;
  const base = await open();
  await new Promise((resolve, reject) => {
    const transaction = base.transaction(["queue", "refused"], "readwrite");
    transaction.objectStore("queue").delete(n);
    if (!accepted && item.waited) transaction.objectStore("refused").add({ ...rest, answer });
    transaction.oncomplete = resolve;
    transaction.onerror = transaction.onabort = () => reject(transaction.error);
  });
  await tell({ answered: item, answer, ok });
}

addEventListener("online", flush);
setInterval(flush, RETRY);
flush();
