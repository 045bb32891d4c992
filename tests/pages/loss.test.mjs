// Nothing that was answered is lost: a whole journey, and at each of its steps the page is loaded again at once, the browser is
// killed, the network is taken away; storage that is refused or full; two pages with one draft.
import assert from "node:assert/strict";
import { mkdtemp, readFile, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launch, launchOn, openPage } from "./lib/browser.mjs";
import { until } from "./lib/driven.mjs";
import { answer, asked, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { serve } from "./lib/serve.mjs";
import { answersOf, storyOf } from "./lib/stories.mjs";

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

/** "Go on where you were", until the form is there again. */
async function takeUp(page) {
  await page.locator("[data-does=on]").click();
  await page.locator(".program h2").waitFor();
}

/** "Start again", and yes, clear it all. */
async function clear(page) {
  await page.locator("details summary", { hasText: "Start again" }).click();
  await page.locator("[data-does=again]").click();
  await page.locator("#f-hazard").waitFor();
  // What is thrown away is gone once the device has done so: a page that leaves before that is offered it again.
  await until("the device to have nothing", async () => Object.keys(await kept(page)).length === 0);
}

/** What the device has of the answers, by the path of each in an answers file. */
const kept = (page) =>
  page.evaluate(async () => {
    const { Store } = await import("/store.js");
    const { draft } = await new Store(document.querySelector("presurvey-form").getAttribute("config")).read();
    const lines = JSON.parse(draft ?? "[]").filter(([name]) => name.startsWith("answer "));
    return Object.fromEntries(lines.map(([name, value]) => [name.slice("answer ".length), JSON.parse(value)]));
  });

/** Whether the database has everything: nothing is noted beside it any more. */
const hasAll = (page) =>
  page.waitForFunction(() => Object.keys(localStorage).every((name) => localStorage.getItem(name) === "begun"));

/** Does this in the page, which is loaded again in the same breath. */
async function andLoadAgain(page, work, given) {
  const loaded = page.waitForEvent("load");
  await page.locator("presurvey-form").evaluate(
    (form, [work, given]) => {
      new Function("root", "given", work)(form.shadowRoot, given);
      location.reload();
    },
    [work, given],
  );
  await loaded;
}

const PRESS = "root.querySelector('button.main').click()";
const CHOOSE = "root.querySelector(`#f-${given.id} input[value='${given.word}']`).click()";
const TYPE = `const input = root.querySelector(given.field);
  input.value = given.text;
  input.dispatchEvent(new Event("input", { bubbles: true, composed: true }));`;

/** Answers a question as `answer` does, and its last touch is followed by a reload at once. */
async function answerAndLoadAgain(page, id, given) {
  if (given !== null && typeof given === "object" && !Array.isArray(given)) {
    await page.locator(`#f-${id} select`).selectOption(given.unit);
    return andLoadAgain(page, TYPE, { field: `#i-${id}`, text: String(given.value) });
  }
  const types = !Array.isArray(given) && given !== "not-sure" && (await page.locator(`#f-${id} input[type=text]`).count()) > 0;
  if (types) return andLoadAgain(page, TYPE, { field: `#i-${id}`, text: String(given) });
  const words = [given].flat();
  for (const word of words.slice(0, -1)) await answer(page, id, [word]);
  return andLoadAgain(page, CHOOSE, { id, word: words.at(-1) });
}

/** Whether a question shows what was answered. */
async function shows(page, id, given) {
  const field = page.locator(`#f-${id}`);
  if (given !== null && typeof given === "object" && !Array.isArray(given)) {
    assert.equal(await field.locator("input[type=text]").inputValue(), String(given.value), id);
    assert.equal(await field.locator("select").inputValue(), given.unit, id);
  } else if (!Array.isArray(given) && given !== "not-sure" && (await field.locator("input[type=text]").count()) > 0) {
    assert.equal(await field.locator("input[type=text]").inputValue(), String(given), id);
  } else {
    for (const word of [given].flat()) assert.ok(await field.locator(`input[value="${word}"]`).isChecked(), `${id} ${word}`);
  }
}

/** The processes that a browser on this profile consists of; the first is the browser's own. */
async function browserOn(profile) {
  for (const name of await readdir("/proc")) {
    if (!/^\d+$/.test(name)) continue;
    const words = (await readFile(`/proc/${name}/cmdline`, "utf8").catch(() => "")).split("\0");
    if (words.includes(`--user-data-dir=${profile}`) && !words.some((word) => word.startsWith("--type="))) return Number(name);
  }
  throw new Error(`no browser runs on ${profile}`);
}

test("at every step of a journey: loaded again at once, killed, without a network", async (t) => {
  const profile = await mkdtemp(join(tmpdir(), "presurvey-loss-"));
  let context = await launchOn(profile);
  t.after(async () => {
    await context.close().catch(() => {});
    await rm(profile, { recursive: true, force: true });
  });
  let page = await context.newPage();
  const story = await storyOf("easy-detached");
  const answers = await answersOf("easy-detached");
  const met = new Set();

  const killAndStartAgain = async () => {
    await hasAll(page);
    process.kill(await browserOn(profile), "SIGKILL");
    await context.close().catch(() => {});
    context = await launchOn(profile);
    page = await context.newPage();
    await page.goto(service.form);
  };
  const loadWithoutNetwork = async () => {
    await context.setOffline(true);
    await page.reload();
  };
  /** Everything answered so far is there, and this is where one was. */
  const isAllThere = async (check) => {
    await takeUp(page);
    await check();
    const there = await kept(page);
    assert.equal(Object.keys(there).length, met.size);
    for (const [path, value] of Object.entries(there)) {
      const [topic, field] = path.split(".");
      assert.deepEqual(value, answers[topic][field], path);
    }
  };
  const throughAll = async (check) => {
    await isAllThere(check); // it was loaded again just now
    await killAndStartAgain();
    await isAllThere(check);
    await loadWithoutNetwork();
    await isAllThere(check);
    await context.setOffline(false);
  };

  /** Goes on, and the page is loaded again in the same breath. */
  const takeStep = async () => {
    await andLoadAgain(page, PRESS);
    await takeUp(page);
  };

  // The page itself is kept from an earlier visit, of which nothing is left.
  await openForm(page, service.form);
  await answer(page, "hazard", story.hazard);
  await goOn(page);
  await page.locator(".program h2").waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.reload();
  await clear(page);
  await page.goto(service.form);
  await page.locator("#f-hazard").waitFor();

  for (let number = 1; number <= 30; number += 1) {
    // What is asked may depend on what was said a moment ago: the last question is the one that brings no other.
    let last;
    for (let turn = 0; ; turn += 1) {
      assert.ok(turn < 20, "a screen asks without end");
      const open = (await asked(page)).filter((id) => !met.has(id));
      if (open.length === 0) break;
      last = open[0];
      met.add(last);
      if (open.length > 1) await answer(page, last, story[last]);
      else await answerAndLoadAgain(page, last, story[last]);
      if (open.length === 1) {
        await takeUp(page);
      }
    }
    const here = await asked(page);
    await page.reload();
    await throughAll(async () => {
      assert.deepEqual(await asked(page), here);
      for (const id of here) await shows(page, id, story[id]);
    });
    await takeStep();
    if ((await page.locator(".result").count()) > 0) break;
    assert.notDeepEqual(await asked(page), here, "a step that was taken is kept");
  }
  assert.equal(await result(page), "straightforward");
  await page.reload();
  await throughAll(() => page.locator(".result").waitFor());

  await takeStep();
  const person = { name: "Invented Homeowner", telephone: "01632 960 130" };
  await page.locator("#c-name").fill(person.name);
  await andLoadAgain(page, TYPE, { field: "#c-telephone", text: person.telephone });
  await throughAll(async () => {
    assert.equal(await page.locator("#c-name").inputValue(), person.name);
    assert.equal(await page.locator("#c-telephone").inputValue(), person.telephone);
  });
  const reference = await send(page, person);

  const desk = await openPage(browser);
  await signIn(desk, service);
  const { enquiry } = await enquiryOf(desk, service, reference);
  const { as_of, ...told } = enquiry.payload.answers;
  assert.ok(as_of);
  assert.deepEqual(told, answers);
  await desk.context().close();
});

/** Two pages of one browser, side by side, both past the first screen. */
async function twoPages(first) {
  const one = await openPage(browser);
  await openForm(one, service.form);
  await answer(one, "hazard", first);
  if (first[0] !== "none") await answer(one, "hazard-place", "meter");
  await goOn(one);
  await one.locator(".program h2").waitFor();
  await hasAll(one);
  const two = await one.context().newPage();
  await two.goto(service.form);
  await takeUp(two);
  return [one, two];
}

test("two pages with one draft: each takes over what the other was told, and nobody is moved", async () => {
  const [one, two] = await twoPages(["none"]);
  const first = await asked(one);
  assert.deepEqual(await asked(two), first);
  await answer(one, "postcode", "ZZ1 1AA");
  await two.waitForFunction(() => document.querySelector("presurvey-form").shadowRoot.querySelector("#i-postcode").value === "ZZ1 1AA");
  // What is being typed stays as it is, with its caret, whatever is said elsewhere.
  await two.locator("#i-postcode").fill("ZZ1 1A");
  await two.locator("#i-postcode").press("ArrowLeft");
  const story = await storyOf("easy-detached");
  await answer(one, "other-point", "kept");
  await answer(one, "tenure", story.tenure);
  await two.locator(`#f-tenure input[value="${story.tenure}"]:checked`).waitFor();
  await two.locator("#i-postcode").pressSequentially("2");
  assert.equal(await two.locator("#i-postcode").inputValue(), "ZZ1 12A");
  await two.locator("#i-postcode").fill("ZZ1 2AA");
  await one.waitForFunction(() => document.querySelector("presurvey-form").shadowRoot.querySelector("#i-postcode").value === "ZZ1 2AA");
  await goOn(one);
  await one.waitForFunction(
    (before) => !document.querySelector("presurvey-form").shadowRoot.querySelector(`#f-${before}`),
    first[0],
  );
  await hasAll(one);
  assert.deepEqual(await asked(two), first, "one page goes on, the other stays");
  const all = await kept(two);
  assert.deepEqual(all["home.postcode"], "ZZ1 2AA");
  assert.deepEqual(all["home.tenure"], story.tenure);
  assert.deepEqual(all["hazard.signs"], []);
  // Thrown away on one page it is gone from both.
  await one.reload();
  await clear(one);
  await two.locator("#f-hazard").waitFor();
  assert.equal(await two.locator("#f-hazard input:checked").count(), 0);
  await one.context().close();
});

test("two pages with one draft send one enquiry, and both know it", async () => {
  const [one, two] = await twoPages(["discolouration"]);
  const name = "Invented Twice Over";
  for (const page of [one, two]) await page.locator("#c-name").waitFor();
  await one.locator("#c-name").fill(name);
  await one.locator("#c-telephone").fill("01632 960 131");
  await until("the other page's telephone number", () => two.locator("#c-telephone").inputValue());
  assert.equal(await two.locator("#c-name").inputValue(), name);
  await Promise.all([one, two].map((page) => page.evaluate((press) => new Function("root", press)(document.querySelector("presurvey-form").shadowRoot), PRESS)));
  const references = await Promise.all([one, two].map((page) => page.locator(".sent .reference").textContent()));
  assert.equal(references[0].trim(), references[1].trim());
  const desk = await openPage(browser);
  await signIn(desk, service);
  const { enquiries } = await (await desk.request.get(`${service.origin}/api/installer/enquiries?limit=200`)).json();
  assert.equal(enquiries.filter((row) => row.reference === references[0].trim()).length, 1);
  assert.equal(enquiries.filter((row) => JSON.stringify(row).includes(name)).length, 1);
  await desk.context().close();
  await one.context().close();
});

test("where the browser keeps nothing it is said, and the form goes on to its end", async () => {
  const page = await openPage(browser);
  await page.addInitScript(() => {
    const refuse = { get() { throw new DOMException("refused", "SecurityError"); } };
    Object.defineProperty(window, "indexedDB", refuse);
    Object.defineProperty(window, "localStorage", refuse);
  });
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator(".notice", { hasText: "keeps nothing" }).waitFor();
  await walkCore(page, await storyOf("easy-detached"));
  assert.equal(await result(page), "straightforward");
  assert.ok(await page.locator(".notice", { hasText: "keeps nothing" }).isVisible());
  await goOn(page);
  await page.locator("#c-name").waitFor();
  await send(page, { name: "Invented Homeowner", telephone: "01632 960 132" });
  await page.context().close();
});

test("on a full device the photo that finds no room is said, and every answer is kept", async () => {
  const page = await openPage(browser);
  const devtools = await page.context().newCDPSession(page);
  await devtools.send("Storage.overrideQuotaForOrigin", { origin: service.origin, quotaSize: 700_000 });
  await openForm(page, service.form);
  const story = await storyOf("easy-detached");
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  let said = 0;
  await walkCore(page, story, async (questions) => {
    const choose = page.locator(".photos input[type=file]").last();
    if (questions[0] === "hazard" || (await choose.count()) === 0 || said > 0) return;
    await page.evaluate(async () => {
      // Noise is what a camera's picture packs like: this one does not fit.
      const canvas = new OffscreenCanvas(1600, 1200);
      const pixels = new ImageData(1600, 1200);
      for (let at = 0; at < pixels.data.length; at += 60_000) crypto.getRandomValues(pixels.data.subarray(at, at + 60_000));
      canvas.getContext("2d").putImageData(pixels, 0, 0);
      const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: 0.95 });
      const files = new DataTransfer();
      files.items.add(new File([blob], "noise.jpg", { type: "image/jpeg" }));
      const input = [...document.querySelector("presurvey-form").shadowRoot.querySelectorAll(".photos input[type=file]")].at(-1);
      input.files = files.files;
      input.dispatchEvent(new Event("change", { bubbles: true }));
    });
    await page.locator(".photos figure img").waitFor();
    await page.locator(".notice", { hasText: "no room left on your device for your photos" }).waitFor();
    said += 1;
  });
  assert.equal(said, 1);
  await page.reload();
  await takeUp(page);
  assert.equal(await result(page), "straightforward");
  assert.equal(Object.keys(await kept(page)).length, Object.values(await answersOf("easy-detached")).flatMap(Object.keys).length);
  await page.context().close();
});

test("a clock that is years off loses nothing", async () => {
  const page = await openPage(browser);
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await answer(page, "postcode", "ZZ1 1AA");
  await hasAll(page);
  const inYears = async (years) => {
    await page.addInitScript(`{ const now = Date.now; const at = performance.timeOrigin; Date.now = () => at + performance.now() + ${years} * 31557600000; }`);
    await page.reload();
    await takeUp(page);
    assert.equal(await page.locator("#i-postcode").inputValue(), "ZZ1 1AA");
  };
  await inYears(10);
  await inYears(-20);
  await inYears(0);
  await page.context().close();
});
