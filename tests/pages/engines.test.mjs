// The form in the three engines that people's browsers are made of: start, take-over, a whole journey with a reload in
// the middle, Send; and two hundred homes worked out, the same bytes in each and natively.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, describe, test } from "node:test";
import { ENGINES } from "./lib/engines.mjs";
import { answer, asked, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 123" };

let service;
before(async () => {
  service = await serve();
});
after(() => service?.stop());

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
  });
}
