// From asking for a page to its first question, its first answer in effect, and the program live.
import { NOTE, WATCH, share, slowPage } from "./slow.mjs";

/** Runs in the page before anything else: answers once the first question has been painted, and notes when. */
const START = () => {
  globalThis.seen = {};
  const { all, shown, until } = globalThis.watch;
  const run = async () => {
    seen.question = await until(() => shown("#f-hazard legend"));
    seen.shift = watch.shifts.reduce((sum, one) => sum + one.value, 0);
    all("#f-hazard input")[0].click();
    seen.answer = await until(() => shown(".emergency"));
  };
  run();
  // Live: compiled, linked and begun to run, so that it could draw the next screen.
  const { instantiate } = WebAssembly;
  WebAssembly.instantiate = async (...given) => {
    const made = await instantiate.apply(WebAssembly, given);
    setTimeout(() => (seen.live ??= performance.now()));
    return made;
  };
};

async function once(browser, address) {
  const page = await slowPage(browser);
  await page.addInitScript(WATCH);
  await page.addInitScript(NOTE);
  await page.addInitScript(START);
  await page.goto(address, { waitUntil: "commit" });
  const live = !address.endsWith("plain.html");
  await page.waitForFunction((live) => seen.question && seen.answer && (!live || seen.live), live, { polling: 100, timeout: 60_000 });
  const seen = await page.evaluate(() => ({
    ...seen,
    paint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime,
  }));
  await page.context().close();
  return seen;
}

/**
 * Opens each page so many times, one after the other and round again, so that what else the machine does meets all alike;
 * `pages` is address by name. Returns by name the medians, in milliseconds.
 */
export async function measureStart(browser, pages, times) {
  const seen = Object.fromEntries(Object.keys(pages).map((name) => [name, []]));
  for (let time = 0; time <= times; time += 1) {
    for (const [name, address] of Object.entries(pages)) {
      const one = await once(browser, address);
      if (time > 0) seen[name].push(one); // the first round warms the machine
    }
  }
  const middle = (list, what) => share(list.map((one) => one[what]).filter((value) => value !== undefined));
  return Object.fromEntries(
    Object.entries(seen).map(([name, list]) => [
      name,
      {
        paint: middle(list, "paint"),
        question: middle(list, "question"),
        answer: middle(list, "answer"),
        live: middle(list, "live"),
        shift: Math.max(...list.map((one) => one.shift)),
      },
    ]),
  );
}
