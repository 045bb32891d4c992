// The route, stretch by stretch: built by keyboard alone, taken up after a reload, sent, and read by the installer.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { DESK, PHONE, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { openForm, result, send, walkCore } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const picture = (page, name) => page.screenshot({ path: `${PICTURES}/${name}.png`, fullPage: true });

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

/** What has this id, where it has the focus. */
const focused = (page, id) => page.locator(`#${id}:focus`);

/** Tabs on, or back, until the focus is there. */
async function tabTo(page, id, key = "Tab") {
  for (let press = 0; press < 60; press += 1) {
    if ((await focused(page, id).count()) > 0) return;
    await page.keyboard.press(key);
  }
  throw new Error(`sixty presses of ${key} do not reach ${id}`);
}

/** Waits until the focus is there: it follows what is done to a stretch. */
const follows = (page, id) => focused(page, id).waitFor();

/** Chooses in the select that has the focus by its first letters, and types the length into the next field. */
async function say(page, along, length) {
  await page.keyboard.type(along);
  await page.keyboard.press("Tab");
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.type(length);
}

const rows = (page) =>
  page.locator(".stretches ol > li").evaluateAll((all) =>
    all.map((row) => `${row.querySelector("select").value} ${row.querySelector("input[type=text]").value}`),
  );
const total = (page) => page.locator(".stretches .total").textContent();
const lines = (page) => page.locator(".way .run").evaluateAll((all) => all.map((line) => line.getAttribute("d")).join());

/** The core by a story, and on to the stretches. */
async function toStretches(viewport) {
  const page = await openPage(browser, { viewport });
  await openForm(page, service.form);
  await walkCore(page, await storyOf("easy-detached"));
  await result(page);
  await page.locator(".result .does button", { hasText: "stretch by stretch" }).click();
  await page.locator("#s-0-along").waitFor();
  return page;
}

test("three stretches by keyboard, reordered, split, loaded again, and on the installer's page", async () => {
  const page = await toStretches(PHONE);
  const story = await storyOf("easy-detached");
  assert.deepEqual(await rows(page), [`${story["route-mostly"]} ${story["route-length"].value}`], "the rough answer");
  const before = await lines(page);
  await tabTo(page, "s-0-along");
  await say(page, "Inside", "4");
  await page.keyboard.press("Tab");
  await page.keyboard.type("metres");
  await tabTo(page, "s-0-add");
  await page.keyboard.press("Enter");
  await follows(page, "s-1-along");
  await say(page, "Under pav", "6");
  await tabTo(page, "s-1-add");
  await page.keyboard.press("Space");
  await follows(page, "s-2-along");
  await say(page, "Along an", "2.5");
  assert.deepEqual(await rows(page), ["inside 4", "paving 6", "outside-wall 2.5"]);
  assert.match(await total(page), /12\.5 m in all/);
  assert.match(await page.locator(".stretches > ul").textContent(), /armoured cable for 8\.5 m.*6 m to dig/);
  assert.equal(await page.locator("#s-2-later").getAttribute("aria-disabled"), "true");
  const built = await lines(page);
  assert.notEqual(built, before, "the drawing follows");
  assert.deepEqual(await axe(page), []);

  await tabTo(page, "s-2-earlier");
  await page.keyboard.press("Enter");
  await follows(page, "s-1-earlier");
  assert.deepEqual(await rows(page), ["inside 4", "outside-wall 2.5", "paving 6"]);
  assert.match(await page.locator(".stretches [role=status]").textContent(), /stretch 2 of 3\. 12\.5 m in all/);
  assert.notEqual(await lines(page), built);
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await follows(page, "s-1-split");
  assert.deepEqual(await rows(page), ["inside 4", "outside-wall 1.25", "outside-wall 1.25", "paving 6"]);
  await picture(page, "route-phone");
  const drawn = await lines(page);

  // A half-typed length is kept as well.
  await tabTo(page, "s-2-length");
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.type("abou");
  await page.waitForFunction(() => Object.keys(localStorage).every((name) => localStorage.getItem(name) === "begun"));
  await page.reload();
  await page.locator("[data-does=on]").click();
  await page.locator("#s-0-along").waitFor();
  assert.deepEqual(await rows(page), ["inside 4", "outside-wall 1.25", "outside-wall abou", "paving 6"]);
  await page.locator("button.main").press("Enter");
  await follows(page, "s-2-length");
  assert.deepEqual(await axe(page), []);
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.type("1.25");
  assert.equal(await lines(page), drawn);
  await tabTo(page, "s-2-out");
  await page.keyboard.press("Enter");
  await follows(page, "s-2-along");
  assert.deepEqual(await rows(page), ["inside 4", "outside-wall 1.25", "paving 6"]);
  await page.locator("button.main").press("Enter");
  await result(page);
  await page.locator("button.main").press("Enter");
  const reference = await send(page, { name: "Invented Route", telephone: "01632 960 127" });
  assert.deepEqual(page.problems, []);

  const desk = await openPage(browser, { viewport: DESK });
  await signIn(desk, service);
  const { row } = await enquiryOf(desk, service, reference);
  await desk.locator(`a[data-row][href*="${row.client_key}"]`).click();
  await desk.locator("#question-route-stretches").waitFor({ state: "attached" });
  const said = await desk.locator("li.answer:has(#question-route-stretches)").textContent();
  assert.match(said, /4 m.*1\.25 m.*6 m/);
  assert.deepEqual(desk.problems, []);
});

test("a finger is enough, nothing sticks out, and not sure goes back to the rough answer", async () => {
  for (const viewport of [{ width: 320, height: 640 }, DESK]) {
    const page = await toStretches(viewport);
    for (const button of await page.locator(".does button").all()) {
      const { width, height } = await button.boundingBox();
      assert.ok(width >= 44 && height >= 44, `${width} by ${height}`);
    }
    await page.locator("#s-0-split").click();
    await page.locator("#s-0-split").click();
    await page.locator("#s-1-along").selectOption("soft-ground");
    await page.locator("#s-2-along").selectOption("fence");
    // What somebody chose by hand stays with its stretch.
    await page.locator("#s-2-earlier").click();
    assert.deepEqual((await rows(page)).map((row) => row.split(" ")[0]).slice(1), ["fence", "soft-ground"]);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), 0);
    await picture(page, `route-${viewport.width}`);
    await page.locator("#f-route-stretches input[value=not-sure]").check();
    await page.locator(".stretches ol > li").nth(1).waitFor({ state: "detached" });
    assert.equal((await rows(page)).length, 1);
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
});

/** The core by a story that wants a lead, changed where told, and on to a question of its own from the result. */
async function toReach({ story = {}, before = async () => {} } = {}) {
  const page = await openPage(browser, { viewport: PHONE });
  await before(page);
  await openForm(page, service.form);
  await walkCore(page, { ...(await storyOf("easy-detached")), outlet: "lead", ...story });
  await result(page);
  await page.locator(".result .does button", { hasText: "which lead" }).click();
  await page.locator("#f-spot-to-car").waitFor();
  return page;
}

test("which lead reaches: the car turned round, the inlet moved, and taken as the answer", async () => {
  const page = await toReach({ story: { inlet: "not-known-yet" } });
  const said = (text) => page.locator(".reach", { hasText: text }).waitFor();
  const drawn = () => page.locator(".above").innerHTML();
  await said("A 5 m lead reaches some cars: it depends on the inlet.");
  await said("As if the car stood 1 m from the charge point.");
  await page.locator("#f-spot-to-car input[type=text]").fill("0.5");
  await said("takes 2 m nose in, 8.5 m backed in");
  const nose = await drawn();
  await page.locator(".reach [data-does=turn]").press("Enter");
  await said("Drawn backed in. Inlet: At the nose.");
  assert.notEqual(await drawn(), nose);
  await page.locator(".reach [data-does=move]").press("Enter");
  await said("Inlet: Front, right side");
  await said("A 5 m lead reaches only nose in.");
  assert.equal(await page.locator(".reach [data-does=take]").count(), 0, "no choice of the inlet is on this screen");
  assert.deepEqual(await axe(page), []);
  await picture(page, "reach-phone");
  await page.locator("button.main").click();
  await result(page);

  // Where the inlet itself is asked, what is tried can be taken.
  await page.locator(".said summary").click();
  await page.locator("[data-said=inlet]").click();
  await page.locator(".reach [data-does=move]").click();
  await page.locator(".reach [data-does=take]").click();
  await page.waitForFunction(
    () => document.querySelector("presurvey-form").shadowRoot.querySelector("#f-inlet input:checked").value === "front-right",
  );
  await page.locator(".reach [data-does=take]").waitFor({ state: "detached" });
  assert.deepEqual(page.problems, []);
});

test("a plan that can't be had says so, holds nothing up, and comes with the next answer once it can", async () => {
  let gone = true;
  const page = await toReach({
    before: (page) => page.route("**/plans_bg.wasm", (route) => (gone ? route.abort() : route.fallback())),
  });
  await page.locator("text=The drawing comes as soon as there is a signal.").waitFor();
  await page.locator("#f-spot-to-car input[type=text]").fill("1");
  assert.equal(await page.locator("[data-draws]").innerHTML(), "");
  gone = false;
  await page.locator("#f-spot-to-car input[type=text]").fill("1.5");
  await page.locator(".reach .above").waitFor();
  assert.equal(await page.locator("text=The drawing comes as soon as there is a signal.").isVisible(), false);
  const refused = page.problems.filter((problem) => !problem.includes("net::ERR_FAILED"));
  assert.deepEqual(refused, []);
});

test("an installer's own words are said in a plan, each in its language", async () => {
  const wording = { "stretch-split": "Cut in two", "pl.stretch-split": "Przetnij" };
  const changed = async (route) => {
    const answer = await route.fetch();
    const config = await answer.json();
    await route.fulfill({ response: answer, json: { ...config, wording } });
  };
  const page = await openPage(browser);
  await page.route("**/api/config", changed);
  await openForm(page, service.form);
  await walkCore(page, await storyOf("easy-detached"));
  await result(page);
  await page.locator(".result .does button").first().click();
  assert.equal(await page.locator("#s-0-split").textContent(), "Cut in two");
  assert.equal(await page.locator("#s-0-add").textContent(), "Add after");
  assert.deepEqual(page.problems, []);
});
