// Starts the program that stands beside this script. A module of its own, so that a strict content policy lets it pass.
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
