// What waits, and what was refused after it had waited: it stays listed until dealt with.
import { element } from "./answers.js";
import { flush, onChange, refused, settle, waiting } from "./queue.js";

const time = (made) => new Date(made).toLocaleString();

async function draw() {
  const [queued, notAccepted] = [await waiting(), await refused()];
  document.querySelector("#queue-none").hidden = queued.length > 0;
  document.querySelector("#refused-none").hidden = notAccepted.length > 0;
  document.querySelector("#queue").replaceChildren(...queued.map((item) => {
    const line = element("li", "");
    const words = element("div", item.words);
    words.append(document.createElement("br"), element("small", `${item.act}, ${time(item.made)}`));
    line.append(words);
    return line;
  }));
  document.querySelector("#refused").replaceChildren(...notAccepted.map((item) => {
    const line = element("li", "");
    const words = element("div", "");
    const why = item.answer.refused ? [item.answer.refused, item.answer.remedy] : [...item.answer.words, item.answer.remedy];
    words.append(element("b", item.words), document.createElement("br"), why.filter(Boolean).join(" "),
      document.createElement("br"), element("small", `${item.act}, ${time(item.made)}`));
    const key = element("button", "Dealt with");
    key.type = "button";
    key.setAttribute("aria-label", `Dealt with: ${item.words}`);
    key.addEventListener("click", () => settle(item.n));
    line.append(words, key);
    return line;
  }));
}

document.querySelector("#send").addEventListener("click", flush);
onChange(draw);
draw();
