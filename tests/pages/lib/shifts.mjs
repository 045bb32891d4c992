// Layout shifts: what moved on a page by itself, as Chromium reports it; the other engines report nothing of the kind.
import { painted } from "./fits.mjs";

/** Starts recording, from the page's first moment on. */
export async function watchShifts(page) {
  await page.addInitScript(() => {
    globalThis.shifts = [];
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) if (!entry.hadRecentInput) globalThis.shifts.push(entry.value);
    }).observe({ type: "layout-shift", buffered: true });
  });
}

/** Waits until a press no longer excuses a shift, half a second later; what moves after that moves by itself. */
export async function longAfterPress(page) {
  await page.waitForFunction((since) => performance.now() > since + 600, await page.evaluate(() => performance.now()));
}

/** The layout shifts so far, in order. */
export async function shifts(page) {
  await painted(page);
  return page.evaluate(() => globalThis.shifts);
}
