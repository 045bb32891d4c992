// Runs on the build's own pages only, before the page is painted (`blocking` in index.html). It styles the prerendered first screen, or
// hides it where the device has a draft, because the offer to continue that comes first (see page.css). It then operates the first screen
// until the browser is idle and the form's own script takes over. Later it registers the service worker, so that the page opens without a
// network.
import { EVENT_STEP } from "./declared.js";
import { Screen, dress } from "./screen.js";

const hosts = document.querySelectorAll("presurvey-form");
for (const { shadowRoot, dataset } of hosts) if (shadowRoot && dress(shadowRoot)) dataset.dressed = "";

// There can only be a draft if the service worker is there, which is registered after the first screen, or if this is a reload. Otherwise
// the storage is not read, because that takes time.
let begun = false;
if (navigator.serviceWorker?.controller || performance.getEntriesByType("navigation")[0]?.type !== "navigate") {
  try {
    begun = Object.keys(localStorage).some((name) => name.startsWith("presurvey "));
  } catch {
    begun = true; // access is refused: only the form's database can tell
  }
}
if (begun) document.documentElement.dataset.begun = "";

const takeOver = () => import("./presurvey.js");

/** Starts the work of the page once it is painted. */
function work() {
  for (const { shadowRoot } of begun ? [] : hosts) {
    const form = shadowRoot?.querySelector(".form[data-version]");
    if (form) new Screen(form);
  }
  // The program takes longest on a slow line, so its download has started already (`preload` in index.html). presurvey.js checks its bytes.
  if (hosts[0]) (hosts[0].program = fetch("form_bg.wasm")).catch(() => {});
  if (begun) takeOver();
  else if (globalThis.requestIdleCallback) requestIdleCallback(takeOver, { timeout: 500 });
  else setTimeout(takeOver, 100);
}

// A hidden page gets no animation frame.
if (begun || document.hidden) work();
else requestAnimationFrame(() => setTimeout(work));

const keep = () => {
  const config = hosts[0]?.getAttribute("config") ?? "";
  const language = hosts[0]?.language ?? "en";
  // If it is refused, the page works as before.
  navigator.serviceWorker?.register(`offline.js?${new URLSearchParams({ config, language })}`).catch(() => {});
};

// Not while the form is still being downloaded: once its first screen is left, or after some time.
addEventListener(EVENT_STEP, ({ detail }) => detail.step !== "hazard" && keep());
addEventListener("load", () => setTimeout(keep, 20_000));
