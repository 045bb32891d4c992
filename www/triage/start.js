// Starts the triage page's program, which is beside this script. A script file of its own, so that a strict Content Security Policy allows
// it.
import init from "./triage.js";

const tell = (message) => {
  const place = document.querySelector("[data-failed]");
  if (place) place.hidden = false;
  console.error(message);
};

try {
  await init({ module_or_path: new URL("./triage_bg.wasm", import.meta.url) });
} catch (error) {
  tell(error);
}
