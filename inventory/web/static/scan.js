// The scan page: every line goes through the queue, each with the key of the one before it.
import { element, show } from "./answers.js";
import { keep, kept, onChange, put } from "./queue.js";

const SAME_SHIFT = 12 * 3600 * 1000;
const kit = document.body.dataset.kit;
const place = document.querySelector("#answer");
const set = document.querySelector("#set");
const field = document.querySelector("#text");
const session = document.querySelector("#session");
const chain = `after ${kit}`;
let last = null;
let lastWords = "";
let turn = Promise.resolve();

// One after another, so that each knows the key of the one before it.
export function scan(text, words = text) {
  turn = turn.then(() => take(text, words));
  return turn;
}

async function take(text, words) {
  const before = await kept(chain);
  const after = before && Date.now() - before.at < SAME_SHIFT ? before.key : "";
  lastWords = words;
  last = await put("scan", { text, after, at: Date.now() }, words);
  await keep(chain, { key: last, at: Date.now() });
}

onChange(async ({ queued, waits, why, answered, answer, ok }) => {
  if (queued?.act === "scan") log(queued);
  const item = waits ?? answered;
  if (item?.act !== "scan" || item.kit !== kit) return;
  if (waits) {
    mark(item, why === "pair" ? "PAIR AGAIN" : "WAITING");
    // All behind it wait as well, the newest too: they are sent in order.
    if (why === "pair") show(place, "PAIR AGAIN", ["This device was shut out. What waits is kept.", "Scan the code at the computer that serves."]);
    else show(place, "WAITING, not checked", [lastWords || item.words, "It is kept here and sent as soon as the server answers."]);
    return;
  }
  const word = ok ? answer.answer : "NOT OK";
  const lines = ok ? [...answer.words, answer.remedy] : [answer.refused, answer.remedy];
  mark(item, word, lines[0]);
  if (item.key !== last && last !== null) return;
  show(place, word, lines);
  if (ok) set.textContent = answer.next;
  if (ok) await keep(`set ${kit}`, answer.next);
});

function log(item) {
  const line = element("li", "");
  line.dataset.key = item.key;
  line.append(element("span", item.words, "number"), element("b", "…"));
  session.prepend(line);
  while (session.children.length > 30) session.lastChild.remove();
}

function mark(item, word, words = "") {
  const line = session.querySelector(`[data-key="${item.key}"]`);
  if (!line) return;
  line.lastChild.textContent = word;
  if (words) line.firstChild.textContent = `${item.words}: ${words}`;
}

for (const form of document.querySelectorAll("#typed, #controls")) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const text = event.submitter?.name === "text" ? event.submitter.value : field.value;
    if (!text.trim()) return;
    scan(text, event.submitter?.name === "text" ? event.submitter.textContent : text);
    field.value = "";
    field.focus();
  });
}

const photo = document.querySelector("#photo");
photo.addEventListener("change", async () => {
  const [file] = photo.files;
  if (!file) return;
  const body = new FormData();
  body.append("photo", file);
  try {
    const reply = await fetch(`/api/v1/${kit}/read-photo`, { method: "POST", body, signal: AbortSignal.timeout(20000) });
    const answer = await reply.json();
    if (reply.ok) await scan(answer.text);
    else show(place, "NOT OK", [answer.refused, answer.remedy]);
  } catch {
    show(place, "NOT OK", ["The picture couldn't be sent: the server doesn't answer.", "Type the text under the code; typed scans wait here."]);
  }
  photo.value = "";
});

const live = document.querySelector("#live");
live.addEventListener("click", async () => {
  const { start } = await import("./camera.js");
  await start({ button: live, view: document.querySelector("#view"), words: document.querySelector("#live-words"),
    take: scan, refuse: (lines) => show(place, "NOT OK", lines) });
});

// What was set stays in the answers of the server; after a reload it is shown again.
if (!place.firstElementChild) {
  const [before, words] = [await kept(chain), await kept(`set ${kit}`)];
  if (before && words && Date.now() - before.at < SAME_SHIFT) set.textContent = words;
}
