// Counting: big keys, and a record that waits where the network is poor.
import { show } from "./answers.js";
import { onChange, put } from "./queue.js";

const form = document.querySelector("#count");
const place = document.querySelector("#answer");
let mine = null;

for (const key of form.querySelectorAll("[data-step]")) {
  key.addEventListener("click", () => {
    const field = form.elements[key.dataset.for];
    field.value = Math.max(0, (Number.parseInt(field.value, 10) || 0) + Number(key.dataset.step));
  });
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const fields = Object.fromEntries(new FormData(form));
  const then = fields.then;
  delete fields.slip;
  delete fields.then;
  const said = ["left", "right"].filter((side) => fields[`${side}_pieces`]).map((side) => `${fields[`${side}_pieces`]} ${side.toUpperCase()}`);
  const words = `${fields.part}: ${said.join(", ") || fields.pieces || "nothing typed"}, crate ${fields.crate}`;
  form.querySelector("button.act").disabled = true;
  mine = { key: await put(form.dataset.queued, fields, words), then, words };
});

onChange(({ waits, why, answered, answer, ok }) => {
  if (mine === null) return;
  if (waits?.key === mine.key) {
    if (why === "pair") show(place, "PAIR AGAIN", ["This device was shut out. What waits is kept."]);
    else show(place, "WAITING, not checked", [mine.words, "It is kept here and sent as soon as the server answers."]);
  }
  if (answered?.key !== mine.key) return;
  if (ok) {
    location.assign(`${mine.then}${mine.then.includes("?") ? "&" : "?"}done=${mine.key}`);
    return;
  }
  show(place, "NOT RECORDED", [answer.refused, answer.remedy]);
  form.querySelector("button.act").disabled = false;
});
