// Long tasks and shifts of the layout over a whole journey, on a slow processor.
import { storyOf } from "../lib/stories.mjs";
import { NOTE, WATCH, slowPage } from "./slow.mjs";
import { WALKER, walk } from "./walk.mjs";

/** What was long and what moved, by part of the journey: the start, the hand-over, and what follows. */
export async function measureJourney(browser, address) {
  const page = await slowPage(browser, { line: false });
  await page.addInitScript(WATCH);
  await page.addInitScript(NOTE);
  await page.addInitScript(WALKER, await storyOf("easy-detached"));
  await page.goto(address);
  await page.locator("#f-hazard").waitFor();
  await page.waitForLoadState("networkidle"); // the program has come
  let handOver;
  await walk(page, (did) => {
    if (!handOver && did.startsWith("left ")) handOver = Number(did.split(" at ")[1]);
  });
  await page.locator(".result [data-complexity]").waitFor();
  await page.waitForFunction(() => watch.all(".result .working")[0].textContent.trim() === "");
  const { tasks, long, shifts, after } = await page.evaluate(async () => {
    await watch.frame();
    const after = await watch.painted();
    return { after, tasks: watch.tasks, long: watch.long, shifts: watch.shifts };
  });
  await page.context().close();
  // The hand-over is over within a second of the press, at any speed that would pass.
  const part = ({ startTime }) => (startTime < handOver - 1 ? "start" : startTime < handOver + 1000 ? "hand-over" : "after");
  const by = (list, name) => list.filter((one) => part(one) === name);
  const longest = (name) => Math.max(0, ...by(long, name).map((one) => one.duration));
  return {
    longest: { start: longest("start"), handOver: longest("hand-over"), after: longest("after") },
    tasks: Object.fromEntries(["start", "hand-over", "after"].map((name) => [name, by(tasks, name)])),
    shift: shifts.reduce((sum, one) => sum + one.value, 0),
    shiftAtStart: [...by(shifts, "start"), ...by(shifts, "hand-over")].reduce((sum, one) => sum + one.value, 0),
    shifts,
    lasted: after,
  };
}
