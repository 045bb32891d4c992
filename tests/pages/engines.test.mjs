// The form in the three engines that people's browsers are made of: start, take-over, a whole journey with a reload in
// the middle, Send; the ways that lead elsewhere; and two hundred homes worked out, the same bytes in each and natively.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, before, beforeEach, describe, test } from "node:test";
import { ENGINES } from "./lib/engines.mjs";
import { fits, uncut } from "./lib/fits.mjs";
import { answer, asked, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { host } from "./lib/host.mjs";
import { keptOf } from "./lib/installer.mjs";
import { printed } from "./lib/paper.mjs";
import { isPolish } from "./lib/polish.mjs";
import { presurvey } from "./lib/program.mjs";
import { publishedBy, pagesPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 123" };

const homes = (await readFile(new URL("../homes/two-hundred.jsonl", import.meta.url), "utf8")).trim().split("\n");

let service, workshop, native;
before(async () => {
  service = await serve();
  const config = await (await publishedBy(service)).text();
  workshop = await host({ pages: { "/": page(homes, config) }, folders: { "/form/": join(pagesPath(), "form") } });
  native = [];
  for (const home of homes) native.push((await presurvey(["assess", "-"], home)).trimEnd());
});
after(async () => {
  await workshop?.stop();
  await service?.stop();
});

/** A page whose own script has the engine work out every home. */
const page = (homes, config) => `<!doctype html>
<title>Two hundred homes</title>
<script type="application/json">${JSON.stringify({ homes, config }).replaceAll("<", "\\u003c")}</script>
<script type="module">
  import init, { assess_json } from "/form/engine.js";
  await init({ module_or_path: "/form/engine_bg.wasm" });
  const { homes, config } = JSON.parse(document.querySelector("script").textContent);
  document.body.textContent = JSON.stringify(homes.map((home) => assess_json(home, config)));
</script>
<body>`;

/** A story in which nobody is sure of anything but of this. */
const unsure = (known = {}) => new Proxy(known, { has: () => true, get: (known, id) => known[id] ?? "not-sure" });

/** Takes a question up again from the result's "What you told us". */
async function takeUp(page, id) {
  await page.locator(".said > summary").click();
  await page.locator(`.said [data-said="${id}"]`).click();
  await page.locator(`#f-${id}`).waitFor();
}

/** The danger takes the screen: what to do, and the one number that is right there, as wide as the screen lets it be. */
async function rings(page, number, said) {
  assert.match(await page.locator(".emergency").innerText(), said);
  const seen = await page.locator(".emergency a.ring").evaluateAll((all) =>
    all.filter((one) => one.checkVisibility()).map((one) => ({ href: one.getAttribute("href"), or: one.classList.contains("or"), wide: one.getBoundingClientRect().width / one.parentElement.getBoundingClientRect().width, high: one.getBoundingClientRect().height })),
  );
  const [main, ...others] = seen.filter((one) => !one.or);
  assert.deepEqual([main.href, others], [number, []]);
  assert.ok(main.wide > 0.99 && main.high >= 56, JSON.stringify(main));
  assert.ok(await page.locator(".after .tell").isVisible(), "sending is there, and quiet");
  const loud = await page.locator("button.main").evaluateAll((all) => all.filter((one) => one.checkVisibility()).length);
  assert.equal(loud, 0);
  const shown = await page.locator("#f-hazard").evaluateAll((all) => all.filter((one) => one.checkVisibility()).length);
  assert.equal(shown, 0, "the list of signs is a press away");
}

/** From a danger to an enquiry that is sent, nobody sent to look on the way or afterwards; gives back what was recorded of it. */
async function onToAnEnquiry(page) {
  const looks = async () => {
    assert.equal(await page.locator("#p-meter, #p-board, #p-other, .wrong, #f-fuse-carriers, #f-protection").count(), 0);
    assert.doesNotMatch(await shown(page), /£/);
  };
  await looks();
  await goOn(page);
  await page.locator("#c-name").waitFor();
  assert.ok(await page.locator(".emergency").isVisible(), "the advice stays");
  await looks();
  if ((await page.locator("#f-postcode").count()) > 0) await answer(page, "postcode", "ZZ2 3CC");
  const reference = await send(page, PERSON);
  await looks();
  await page.locator(".adding button").first().click();
  await page.locator(".page.adding").waitFor();
  await page.locator("#p-parking").waitFor();
  await looks();
  assert.match(await shown(page), /stay away from the meter|leave the meter/i);
  assert.deepEqual(await page.problems, []);
  const kept = await keptOf(service, reference);
  assert.equal(kept.row.complexity, "look-first");
  assert.equal(kept.own_assessment.band, null);
  return kept.enquiry.payload.answers.hazard;
}

const shown = (page) => page.locator(".form").first().innerText();

const chosen = (page, id) => page.locator(`#f-${id} input:checked`).evaluateAll((all) => all.map((one) => one.value));

for (const [name, start] of Object.entries(ENGINES)) {
  describe(name, () => {
    let engine, page;
    before(async () => (engine = await start()));
    beforeEach(async () => (page = await engine.page()));
    after(() => engine?.stop());

    test(`${name}: the form starts, is taken over, is loaded anew in the middle, and is sent`, async () => {
      const story = await storyOf("easy-detached");
      await openForm(page, service.form);
      assert.deepEqual(await asked(page), ["hazard"], "the first question is shown");
      await answer(page, "hazard", story.hazard);
      await goOn(page);

      // The program goes on from the first screen's answer.
      await page.locator("#f-postcode").waitFor();
      for (const id of await asked(page)) await answer(page, id, story[id]);
      // No charge point yet: whether a builder left a cable comes up beside it.
      await answer(page, "builders-cable", story["builders-cable"]);
      await goOn(page);
      await page.locator("#f-parking").waitFor();
      await answer(page, "parking", story.parking);
      await goOn(page);
      await page.locator("#f-home").waitFor();

      await page.reload();
      await page.locator("[data-does=on]").click();
      await page.locator("#f-home").waitFor();
      await page.locator("button.back").click();
      await page.locator("#f-parking").waitFor();
      assert.deepEqual(await chosen(page, "parking"), [story.parking], "what was answered is there again");
      await goOn(page);
      await page.locator("#f-home").waitFor();

      await walkCore(page, story);
      assert.equal(await result(page), "straightforward");
      await goOn(page);
      const reference = await send(page, PERSON);
      assert.match(reference, /^[BCDFGHJKMNPQRTVWXZ234678]{4}-[BCDFGHJKMNPQRTVWXZ234678]{4}$/);
      assert.deepEqual(await page.problems, []);
    });

    test(`${name}: nobody sure of anything comes to a result; one thing changed there, what hangs on it is asked and no more`, async () => {
      await openForm(page, service.form);
      const first = await walkCore(page, unsure());
      assert.ok(first.includes("postcode") && first.includes("route-length"), first.join());
      const looks = ["meter-place", "fuse-carriers", "street-cables", "head-conductors", "protection", "test-buttons", "spare-ways"];
      assert.deepEqual(first.filter((id) => looks.includes(id)), [], "unsure of a danger nobody is sent to the meter");
      assert.equal(await result(page), "look-first", "whoever is not sure of a danger");
      const before = await shown(page);
      assert.match(before, /no price yet/, "nor has anybody said where the car stands");

      await takeUp(page, "hazard");
      assert.deepEqual(await chosen(page, "hazard"), ["not-sure"]);
      const again = await walkCore(page, unsure({ hazard: "none" }));
      // At one place what tells most comes first: there the order hangs on what the engine had worked out by then.
      assert.deepEqual(again.toSorted(), ["hazard", ...looks].toSorted());
      assert.deepEqual([0, 1, 5].map((at) => again[at]), ["hazard", "meter-place", "protection"], "the places keep theirs");
      await result(page);
      assert.notEqual(await shown(page), before);

      // Nothing hangs on this one.
      await takeUp(page, "outlet");
      assert.deepEqual(await walkCore(page, { outlet: "socket" }), ["outlet"]);
      await result(page);
      assert.deepEqual(await page.problems, []);
    });

    test(`${name}: a danger ticked on the first screen leads to the number that is rung, and on to an enquiry without a look`, async () => {
      await openForm(page, service.form);
      await answer(page, "hazard", ["discolouration"]);
      await page.locator(".emergency[role=alert]").waitFor();
      // Nobody knows yet where it is.
      await rings(page, "tel:105", /touch[^]*105/);
      await answer(page, "hazard-place", "service-head");
      await rings(page, "tel:105", /sealed fuse box[^]*105/);
      const hazard = { signs: ["discolouration"], place: "service-head" };
      assert.deepEqual(await onToAnEnquiry(page), hazard);
    });

    for (const [place, first, number, said] of [
      ["meter", "#f-meter-place", "tel:105", /Don.t touch the meter[^]*105/],
      ["board", "#f-protection", "tel:01632960000", /Don.t touch the fuse board[^]*leave the room/],
    ]) {
      test(`${name}: what looks wrong at the ${place} leads to the number that is rung, and on to an enquiry without another look`, async () => {
        await openForm(page, service.form);
        await walkCore(page, await storyOf("easy-detached"), undefined, first);
        await page.locator("button.wrong").click();
        await page.locator("#f-hazard").waitFor();
        assert.match(await shown(page), /Step well back, and touch nothing/);
        await answer(page, "hazard", ["heat"]);
        await page.locator(".emergency[role=alert]").waitFor();
        await rings(page, number, said);
        const { signs, place: at, when, found_at } = await onToAnEnquiry(page);
        assert.deepEqual({ signs, at, when, found_at }, { signs: ["heat"], at: place, when: "now", found_at: place });
      });
    }

    test(`${name}: what may end the matter is told by the third screen, where it was said`, async () => {
      await openForm(page, service.form);
      await answer(page, "hazard", "none");
      await goOn(page);
      await page.locator("#f-postcode").waitFor();
      assert.equal(await page.locator(".ending").count(), 0);
      await answer(page, "postcode", "ZX1 1AA");
      assert.match(await page.locator("#f-postcode .ending").innerText(), /outside the area/);
      await answer(page, "other-point", "kept");
      await answer(page, "tenure", "rent");
      assert.match(await page.locator("#f-tenure .ending").innerText(), /owns the building/);
      await goOn(page);
      await page.locator("#f-parking").waitFor();
      await answer(page, "parking", "street");
      assert.match(await page.locator("#f-parking .ending").innerText(), /pavement/);
      await goOn(page);
      await page.locator("#f-home").waitFor();
      assert.deepEqual(await page.problems, []);
    });

    test(`${name}: in Polish to the result, and to the copy that is printed of it`, async () => {
      await openForm(page, new URL("pl.html", service.form).href);
      await walkCore(page, await storyOf("easy-detached"), async (_, number) => {
        assert.equal(await page.locator(".form").first().getAttribute("lang"), "pl");
        // Its words are longer.
        for (const holds of [isPolish, fits, uncut]) await holds(page, `screen ${number}`);
      });
      assert.equal(await result(page), "straightforward");
      for (const holds of [isPolish, fits, uncut]) await holds(page, "result");
      const price = /od (\d+ )?\d+ £ do (\d+ )?\d+ £/;
      assert.match((await shown(page)).replaceAll("\u00a0", " "), price);

      const { html, sheet, folded } = await printed(page);
      assert.match(html, /lang="pl"/);
      assert.match(html.replaceAll(/&nbsp;|\u00a0/g, " "), price);
      assert.match(html, /class="whose"[^>]*>Invented Installer · 01632 960 000 · \d+ \p{L}+ 20\d\d/u);
      assert.equal(folded, 0, "all of it is unfolded");
      assert.match(sheet, /@media print/);
      assert.deepEqual(await page.problems, []);
    });

    test(`${name}: two hundred homes give the same bytes as natively`, async () => {
      await page.goto(workshop.origin);
      await page.waitForFunction(() => document.body.textContent.endsWith("]"));
      const assessed = JSON.parse(await page.evaluate(() => document.body.textContent));
      assert.equal(assessed.length, 200);
      for (const [at, json] of assessed.entries()) assert.equal(json, native[at], `home ${at}`);
      assert.ok(new Set(assessed).size > 190, "they are two hundred different homes");
      assert.equal(new Set(assessed.map((json) => JSON.parse(json).complexity)).size, 5, "of every complexity");
    });
  });
}
