// Chromium for the tests: the one that the set-up found, headless; every call opens one page.
//
// To run one file alone: `cargo xtask pages`, `cargo build --bin presurvey`, then `node --test tests/pages/FILE.test.mjs`. Without the
// variables that `cargo xtask test` sets, the defaults below apply.
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

/** The folder of screenshots. */
export const PICTURES = process.env.PRESURVEY_PICTURES || fileURLToPath(new URL("../../../target/pictures", import.meta.url));

/** The arguments with which Chromium is started for every test. */
export const ARGUMENTS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** The path of Chromium: named by CHROMIUM, or one of the usual ones. */
export function chromiumPath() {
  const usual = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const found = process.env.CHROMIUM || usual.find((path) => existsSync(path));
  if (!found) throw new Error("Chromium was not found: name it by CHROMIUM, or run `cargo xtask setup`");
  return found;
}

/** Starts the browser; close it in `after`. */
export async function launch() {
  return chromium.launch({ executablePath: chromiumPath(), args: ARGUMENTS });
}

const OPTIONS = { locale: "en-GB", timezoneId: "Europe/London", reducedMotion: "reduce" };

/** Starts the browser with a profile folder; it has what an earlier start stored there. */
export async function launchOn(profile) {
  return chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath(),
    args: ARGUMENTS,
    viewport: PHONE,
    ...OPTIONS,
  });
}

export const PHONE = { width: 360, height: 740 };
export const DESK = { width: 1280, height: 800 };

/**
 * Opens a page in a context of its own, with nothing stored, and records what goes wrong in it.
 *
 * `page.problems` collects uncaught errors, console errors (such as refusals by the content security policy) and requests that left the
 * page's own origin: a test ends with `assert.deepEqual(page.problems, [])`.
 */
export async function openPage(browser, { viewport = PHONE, ...options } = {}) {
  const context = await browser.newContext({
    viewport,
    serviceWorkers: "block", // tests that alter network responses must get those, not copies kept by a service worker
    ...OPTIONS,
    ...options,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.problems = [];
  page.on("pageerror", (error) => page.problems.push(`uncaught: ${error.stack || error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error") page.problems.push(`console: ${message.text()} (${message.location().url})`);
  });
  let home;
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (!url.protocol.startsWith("http")) return; // data: and blob: addresses stay on the page
    home ??= url.origin;
    if (url.origin !== home) page.problems.push(`another origin: ${request.url()}`);
  });
  return page;
}

/** What went wrong on a page, leaving out that it asked this origin for something, which is expected there. */
export const problemsBeside = (page, origin) => page.problems.filter((problem) => !problem.startsWith(`another origin: ${origin}/`));
