// Two hundred homes by chance, worked out by the form's own engine in the browser and by the native program: the same bytes.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { launch, openPage } from "./lib/browser.mjs";
import { openForm } from "./lib/form.mjs";
import { presurvey } from "./lib/program.mjs";
import { serve } from "./lib/serve.mjs";

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

test("two hundred homes give the same bytes in the browser and natively", async () => {
  const file = await readFile(new URL("../homes/two-hundred.jsonl", import.meta.url), "utf8");
  const homes = file.trim().split("\n");
  assert.equal(homes.length, 200);
  const page = await openPage(browser);
  await openForm(page, service.form);
  const config = await (await page.request.get(`${service.origin}/api/config`)).text();
  const inBrowser = await page.evaluate(
    async ({ homes, config }) => {
      const { default: init, assess_json } = await import("/engine.js");
      await init({ module_or_path: "/engine_bg.wasm" });
      return homes.map((home) => assess_json(home, config));
    },
    { homes, config },
  );
  for (const [at, home] of homes.entries()) {
    const native = await presurvey(["assess", "-"], home);
    assert.equal(inBrowser[at], native.trimEnd(), `home ${at}`);
  }
  assert.ok(new Set(inBrowser).size > 190, "they are two hundred different homes");
  const kinds = new Set(inBrowser.map((json) => JSON.parse(json).complexity));
  assert.equal(kinds.size, 4, "of every complexity");
  assert.deepEqual(page.problems, []);
});
