// For a page of our own, never for a stranger's. Runs before the page is painted (`blocking` in index.html): dresses the first
// screen, which stands in the page, or leaves it unshown where a half-done form lies on this device, for the offer to go on comes
// first (see page.css). Then works it until the form's own script takes it over in a moment when nothing else is to be done, and
// later asks the browser to keep the page itself, so that it opens without a network.
import { EVENT_STEP } from "./declared.js";
import { Screen, dress } from "./screen.js";

const hosts = document.querySelectorAll("presurvey-form");
for (const { shadowRoot, dataset } of hosts) if (shadowRoot && dress(shadowRoot)) dataset.dressed = "";

// Whoever left the first screen once has the page itself kept, or loads it again; nobody else waits for a look at the storage.
let begun = false;
if (navigator.serviceWorker?.controller || performance.getEntriesByType("navigation")[0]?.type !== "navigate") {
  try {
    begun = Object.keys(localStorage).some((name) => name.startsWith("presurvey "));
  } catch {
    begun = true; // refused: only the form's own database can tell
  }
}
if (begun) document.documentElement.dataset.begun = "";

const takeOver = () => import("./presurvey.js");

/** Once the page is painted. */
function work() {
  for (const { shadowRoot } of begun ? [] : hosts) {
    const form = shadowRoot?.querySelector(".form[data-version]");
    if (form) new Screen(form);
  }
  // On a slow line the program takes longest: it is on its way already (`preload` in index.html). presurvey.js checks what comes.
  if (hosts[0]) (hosts[0].program = fetch("form_bg.wasm")).catch(() => {});
  if (begun) takeOver();
  else if (globalThis.requestIdleCallback) requestIdleCallback(takeOver, { timeout: 500 });
  else setTimeout(takeOver, 100);
}

// A hidden page is given no frame.
if (begun || document.hidden) work();
else requestAnimationFrame(() => setTimeout(work));

const keep = () => {
  const config = hosts[0]?.getAttribute("config") ?? "";
  const language = hosts[0]?.language ?? "en";
  // Refused, the page is as it was.
  navigator.serviceWorker?.register(`offline.js?${new URLSearchParams({ config, language })}`).catch(() => {});
};

// Not while the form is still being fetched: once its first screen is left, or when some time has passed.
addEventListener(EVENT_STEP, ({ detail }) => detail.step !== "hazard" && keep());
addEventListener("load", () => setTimeout(keep, 20_000));
