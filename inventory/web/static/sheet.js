// On every page: shows that scripts run, how much waits to be sent, and keeps the page for offline.
import { onChange, refused, waiting } from "./queue.js";

document.documentElement.classList.add("scripted");

const badge = document.querySelector("#waiting");
if (badge) {
  const count = async () => {
    const [queued, notAccepted] = [await waiting(), await refused()];
    const number = queued.length + notAccepted.length;
    badge.hidden = number === 0;
    document.querySelector("#waiting-number").textContent = number;
    badge.lastChild.textContent = queued.length ? " waiting" : " not accepted";
  };
  onChange(count);
  count();
}
// A picture that was taken is sent at once; without scripts a button does it.
for (const form of document.querySelectorAll("form[data-sends]")) {
  form.querySelector("input[type=file]").addEventListener("change", (event) => {
    if (event.target.files.length) form.requestSubmit();
  });
}
if ("serviceWorker" in navigator && document.body.dataset.kit) {
  navigator.serviceWorker.register("/sw.js").catch(() => {}); // offline: the one that is there goes on
}
