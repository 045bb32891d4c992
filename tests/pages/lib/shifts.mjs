// What moved on a page by itself, as Chromium tells it (layout shifts); the other engines tell nothing of it.
import { painted } from "./fits.mjs";

/** Begins to note it, from the page's first moment on. */
export async function watchShifts(page) {
  await page.addInitScript(() => {
    globalThis.shifts = [];
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) if (!entry.hadRecentInput) globalThis.shifts.push(entry.value);
    }).observe({ type: "layout-shift", buffered: true });
  });
}

/** A press explains a move for half a second; what comes by itself after that must not move anything. */
export async function longAfterPress(page) {
  await page.waitForFunction((since) => performance.now() > since + 600, await page.evaluate(() => performance.now()));
}

/** How much moved so far, move by move. */
export async function shifts(page) {
  await painted(page);
  return page.evaluate(() => globalThis.shifts);
}
