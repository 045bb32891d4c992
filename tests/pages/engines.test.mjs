// The form in the three engines that people's browsers are made of: start, take-over, a whole journey with a reload in
// the middle, Send; and two hundred homes worked out, the same bytes in each and natively.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { ENGINES } from "./lib/engines.mjs";
import { answer, asked, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { host } from "./lib/host.mjs";
import { presurvey } from "./lib/program.mjs";
import { pagesPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 123" };

const homes = (await readFile(new URL("../homes/two-hundred.jsonl", import.meta.url), "utf8")).trim().split("\n");

let service, workshop, native;
before(async () => {
  service = await serve();
  const config = await (await fetch(`${service.origin}/api/config`)).text();
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

const chosen = (page, id) => page.locator(`#f-${id} input:checked`).evaluateAll((all) => all.map((one) => one.value));

for (const [name, start] of Object.entries(ENGINES)) {
  describe(name, () => {
    let engine, page;
    before(async () => {
      engine = await start();
      page = await engine.page();
    });
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

    test(`${name}: two hundred homes give the same bytes as natively`, async () => {
      await page.goto(workshop.origin);
      await page.waitForFunction(() => document.body.textContent.endsWith("]"));
      const assessed = JSON.parse(await page.evaluate(() => document.body.textContent));
      assert.equal(assessed.length, 200);
      for (const [at, json] of assessed.entries()) assert.equal(json, native[at], `home ${at}`);
      assert.ok(new Set(assessed).size > 190, "they are two hundred different homes");
      assert.equal(new Set(assessed.map((json) => JSON.parse(json).complexity)).size, 4, "of every complexity");
    });
  });
}
