// An answer on the screen: a word, a sign and a frame of its own; it stays until the next one.
const LOOKS = {
  OK: ["ok", "✔"], "NOT OK": ["no", "✖"], QUESTION: ["question", "?"], UNDONE: ["undone", "↶"],
  NOTED: ["noted", "·"], RECORDED: ["ok", "✔"], "NOT RECORDED": ["no", "✖"],
  "WAITING, not checked": ["waits", "…"], "PAIR AGAIN": ["question", "?"],
};
const TONES = { ok: [880], no: [220, 180], question: [330, 330] };
let sound = null;
addEventListener("pointerdown", () => (sound ??= new AudioContext()), { once: true });

export function element(name, text, className = "") {
  const made = document.createElement(name);
  made.textContent = text;
  if (className) made.className = className;
  return made;
}

export function show(place, word, lines) {
  const [look, sign] = LOOKS[word];
  const box = element("div", "", `verdict ${look}`);
  const head = element("p", "", "word");
  const mark = element("span", `${sign} `);
  mark.setAttribute("aria-hidden", "true");
  head.append(mark, word);
  box.append(head, ...lines.filter(Boolean).map((line) => element("p", line)));
  place.replaceChildren(box);
  play(look);
}

function play(look) {
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.(look === "ok" ? 60 : look === "no" ? [120, 80, 120] : 30);
  if (!sound) return;
  (TONES[look] ?? []).forEach((tone, place) => {
    const voice = sound.createOscillator();
    voice.frequency.value = tone;
    voice.connect(sound.destination);
    voice.start(sound.currentTime + place * 0.2);
    voice.stop(sound.currentTime + place * 0.2 + 0.12);
  });
}
