// A fault of a program (a panic, which ends in a trap) leaves nobody before a page that is dead and says nothing: kind words
// appear, whatever came into the program, and after the page was loaded again one goes on where one was.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launch, openPage } from "./lib/browser.mjs";
import { until } from "./lib/driven.mjs";
import { answer, goOn, openForm, result, walkCore } from "./lib/form.mjs";
import { signIn } from "./lib/installer.mjs";
import { pagesPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";
import { functionsOf, trapAt } from "./lib/trap.mjs";

const built = (name) => readFile(join(pagesPath(), "form", name));
const WENT_WRONG = "Something went wrong on this page. Your answers are kept on this device: load the page again to go on.";
const HASH = (bytes) => `sha256-${createHash("sha256").update(bytes).digest("base64")}`;
/** What the glue calls to run a closure, one for each shape: events, timers, promises. */
const isClosure = (name) => name.includes("__closures_") && name.includes("invoke");

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

/** Serves a program with a fault at the start of this function, until `page.unrouteAll`; the first script takes it for the right one. */
async function serveFaulty(page, file, name) {
  const right = await built(file);
  const faulty = trapAt(right, name);
  const script = (await built("presurvey.js")).toString().replace(HASH(right), HASH(faulty));
  await page.route(`**/${file}`, (route) => route.fulfill({ body: faulty, contentType: "application/wasm" }));
  await page.route("**/presurvey.js", (route) => route.fulfill({ body: script, contentType: "text/javascript" }));
}

const fault = (page) => page.locator(".form.panic");

/** From now on whatever draws fails, as where something else took the page's parts away: the drawing library panics. */
const failDrawing = (page) =>
  page.evaluate(() => {
    Node.prototype.insertBefore = () => {
      throw new DOMException("It is not there.", "NotFoundError");
    };
  });

/** Loads the page again and goes on: what was answered is there. */
async function isKept(page, answered) {
  await page.unrouteAll();
  await page.reload();
  await goesOn(page, answered);
}

async function goesOn(page, answered) {
  await page.locator("[data-does=on]").click();
  await page.locator(".program h2").waitFor();
  assert.equal(await fault(page).count(), 0);
  const kept = await page.evaluate(async () => {
    const { Store } = await import("/store.js");
    const { draft } = await new Store(document.querySelector("presurvey-form").getAttribute("config")).read();
    return Object.fromEntries(JSON.parse(draft));
  });
  for (const [name, value] of Object.entries(answered)) assert.deepEqual(JSON.parse(kept[`answer ${name}`]), value, name);
}

test("a panic while the form draws: kind words, and after a reload everything is there", async () => {
  const page = await openPage(browser);
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator(".program h2").waitFor();
  const { tenure, postcode } = await storyOf("easy-detached");
  await answer(page, "tenure", tenure);
  await answer(page, "postcode", postcode);
  assert.equal(await fault(page).count(), 0);
  await failDrawing(page);
  await goOn(page);
  await fault(page).first().waitFor();
  assert.equal(await fault(page).count(), 1);
  assert.equal((await fault(page).textContent()).trim(), WENT_WRONG);
  assert.equal(await fault(page).getAttribute("role"), "alert");
  assert.ok(page.problems.some((problem) => problem.includes("unreachable")), "the console has it too");
  await isKept(page, { "hazard.signs": [], "home.tenure": tenure, "home.postcode": postcode });
  await page.context().close();
});

/** Another page with the same draft changes the name: this one hears of it, or fails on hearing of it. */
async function isTold(page, name) {
  const other = await page.context().newPage();
  await other.goto(service.form);
  await other.locator("[data-does=on]").click();
  await other.locator("#c-name").fill(name);
  const hears = async () => (await fault(page).count()) > 0 || (await page.locator("#c-name").inputValue()) === name;
  await until("the other page's name, or the fault", hears);
  await other.close();
}

test("whatever came into the form's program when it failed, it is said", async () => {
  const closures = functionsOf(await built("form_bg.wasm")).filter(isClosure);
  assert.ok(closures.length >= 3, "events, timers, promises");
  for (const name of closures) {
    const page = await openPage(browser);
    await serveFaulty(page, "form_bg.wasm", name);
    await openForm(page, service.form);
    await answer(page, "hazard", ["discolouration"]);
    await answer(page, "hazard-place", "meter");
    // Nothing can be sent: then there is a pause, and it is tried again.
    await page.route("**/api/enquiries**", (route) => route.abort());
    // Each step waits for the form or for the fault, whichever comes first.
    const steps = [
      () => goOn(page),
      () => page.locator("#c-name").fill("Invented Homeowner"),
      () => page.locator("#c-telephone").fill("01632 960 135"),
      () => isTold(page, "Invented Person"),
      () => goOn(page),
    ];
    for (const step of steps) {
      await step();
      await page.locator("#c-name").or(fault(page)).first().waitFor();
      if ((await fault(page).count()) > 0) break;
    }
    await fault(page).first().waitFor();
    assert.equal((await fault(page).first().textContent()).trim(), WENT_WRONG, name);
    await page.unrouteAll();
    await page.reload();
    // What waited to be sent goes by itself, also while one is about to go on.
    const sent = page.locator(".sent .reference").waitFor();
    await Promise.any([sent, goesOn(page, { "hazard.signs": ["discolouration"], "hazard.place": "meter" })]);
    await page.context().close();
  }
});

test("the engine fails: the result says who works it out, and after a reload it is worked out here", async () => {
  const page = await openPage(browser);
  await serveFaulty(page, "engine_bg.wasm", "assess_shown");
  await openForm(page, service.form);
  const story = await storyOf("easy-detached");
  await walkCore(page, story);
  await page.locator(".result", { hasText: "could not be worked out here. You can still send this" }).waitFor();
  assert.equal(await fault(page).count(), 0, "the form itself goes on");
  await isKept(page, { "hazard.signs": [], "home.postcode": story.postcode, "home.tenure": story.tenure });
  assert.equal(await result(page), "straightforward");
  await page.context().close();
});

test("a panic of the installer's page is said on it", async () => {
  const page = await openPage(browser, { viewport: { width: 1280, height: 800 } });
  await signIn(page, service);
  await failDrawing(page);
  await page.locator("main a[href^='#']").first().click();
  await page.locator("[role=alert]", { hasText: "This page has stopped. What was stored is safe with the service" }).first().waitFor();
  await page.context().close();
});
