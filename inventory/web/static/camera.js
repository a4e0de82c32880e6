// The live camera: the decoder is served from here, and a text counts after two equal reads.
const FORMATS = ["Code128", "QRCode", "DataMatrix"];
const EVERY = 120;
const GONE = 8;
let reading = null;

async function decoder() {
  if (!reading) {
    reading = await import("./vendor/zxing-wasm/reader/index.js");
    reading.prepareZXingModule({
      overrides: { locateFile: () => new URL("./vendor/zxing-wasm/zxing_reader.wasm", import.meta.url).href },
      fireImmediately: true,
    });
  }
  return reading;
}

export async function start({ button, view, words, take, refuse }) {
  if (!navigator.mediaDevices) {
    words.textContent = "The live camera works at the computer itself or by https only (kitwright serve --tls). The picture button above works here.";
    return;
  }
  button.disabled = true;
  let stream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment", width: { ideal: 1280 } } });
  } catch {
    words.textContent = "The camera wasn't allowed, or there is none. The picture button above works here.";
    button.disabled = false;
    return;
  }
  view.srcObject = stream;
  view.hidden = false;
  await view.play();
  words.textContent = "Hold one label still before the camera.";
  loop(await decoder(), view, { take, refuse });
}

// A text must be read twice in a row; then it must leave the view before it counts again.
function loop({ readBarcodes }, view, { take, refuse }) {
  const canvas = document.createElement("canvas");
  const brush = canvas.getContext("2d", { willReadFrequently: true });
  let once = "", taken = "", missing = 0;
  const look = async () => {
    if (view.hidden || !view.srcObject?.active) return;
    canvas.width = view.videoWidth;
    canvas.height = view.videoHeight;
    if (canvas.width) {
      brush.drawImage(view, 0, 0);
      const found = await readBarcodes(brush.getImageData(0, 0, canvas.width, canvas.height), { formats: FORMATS, tryHarder: false, maxNumberOfSymbols: 8, textMode: "Plain" });
      const texts = [...new Set(found.filter((each) => each.isValid).map((each) => each.text))].sort();
      const key = texts.join("\n");
      if (!key) {
        once = "";
        if (++missing >= GONE) taken = "";
      } else {
        missing = 0;
        if (key !== taken && key === once) {
          taken = key;
          if (texts.length === 1) take(texts[0]);
          else refuse([`${texts.length} different codes are in view.`, "Hold one label alone before the camera."]);
        }
        once = key;
      }
    }
    setTimeout(look, EVERY);
  };
  look();
}
