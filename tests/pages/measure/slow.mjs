// A page on a slow phone and a slow line, and what is watched in it from its first moment on.
import { openPage } from "../lib/browser.mjs";

/** The conditions of every measurement, as Chromium's own debugging door sets them. */
export const SLOWER = 4; // times
const LINE = 1.6e6 / 8; // bytes a second, both ways
const LATENCY = 150; // milliseconds, each request

export const CONDITIONS = `processor ${SLOWER} times slower, ${(LINE * 8) / 1e6} Mbit/s, ${LATENCY} ms, an empty cache`;

/** A page whose processor is slow and, unless `line` is false, whose line is too; `page.door` is the debugging door. */
export async function slowPage(browser, { line = true } = {}) {
  const page = await openPage(browser);
  const door = await page.context().newCDPSession(page);
  page.door = door;
  await door.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  if (line) {
    await door.send("Network.enable");
    await door.send("Network.emulateNetworkConditions", {
      offline: false,
      latency: LATENCY,
      downloadThroughput: LINE,
      uploadThroughput: LINE,
    });
  }
  return page;
}

/** The middle of these numbers, or the one below which this share of them lies. */
export function share(numbers, part = 0.5) {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)];
}

/**
 * Runs in the page before anything else: finds things in the page or in the form's shadow root, and tells when what a
 * frame holds has been painted.
 */
export const WATCH = () => {
  const form = () => document.querySelector("presurvey-form")?.shadowRoot;
  const all = (what) => [...document.querySelectorAll(what), ...(form()?.querySelectorAll(what) ?? [])];
  const shown = (what) => all(what).find((one) => one.getClientRects().length > 0 && getComputedStyle(one).visibility === "visible");
  const channel = new MessageChannel();
  const waiting = [];
  channel.port1.onmessage = () => waiting.shift()(performance.now());
  /** In a frame's callback: the time after that frame has been painted. */
  const painted = () => new Promise((tell) => (waiting.push(tell), channel.port2.postMessage(0)));
  const frame = () => new Promise((tell) => requestAnimationFrame(tell));
  /** Waits, frame by frame, until something is there, and tells when it was painted. */
  const until = async (is) => {
    do await frame();
    while (!is());
    return painted(); // what is there in a frame's callback is painted with that frame
  };
  globalThis.watch = { form, all, shown, frame, painted, until };
};

/** Runs in the page after that: remembers long tasks and frames, and shifts of the layout. */
export const NOTE = () => {
  const tasks = [];
  const shifts = [];
  new PerformanceObserver((list) => {
    for (const { startTime, duration, scripts, blockingDuration } of list.getEntries()) {
      const worst = [...scripts].sort((a, b) => b.duration - a.duration)[0];
      const by = worst ? `${worst.invoker} ${worst.sourceURL.split("/").pop()} ${worst.sourceFunctionName}` : "layout and paint";
      tasks.push({ startTime, duration, blockingDuration, by });
    }
  }).observe({ type: "long-animation-frame", buffered: true });
  const long = [];
  new PerformanceObserver((list) => long.push(...list.getEntries().map(({ startTime, duration }) => ({ startTime, duration })))).observe({
    type: "longtask",
    buffered: true,
  });
  new PerformanceObserver((list) => {
    for (const { startTime, value, hadRecentInput, sources } of list.getEntries()) {
      const what = sources.map(({ node }) => node?.className || node?.nodeName || "?").join();
      shifts.push({ startTime, value, hadRecentInput, what });
    }
  }).observe({ type: "layout-shift", buffered: true });
  Object.assign(globalThis.watch, { tasks, long, shifts });
};
