// Forms of earlier versions, copied to a website then, with the service of today: configured by it, sending to it.
import assert from "node:assert/strict";
import { cp, mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { brotliDecompressSync } from "node:zlib";
import { launch, openPage } from "./lib/browser.mjs";
import { asked, goOn, result, send, walkCore } from "./lib/form.mjs";
import { host, sitePage } from "./lib/host.mjs";
import { keptOf } from "./lib/installer.mjs";
import { pasted } from "./lib/readme.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 131" };
const keptOfVersion = (version, path) => fileURLToPath(new URL(`../earlier/${version}/${path}`, import.meta.url));
const kept = (path) => keptOfVersion("0.1.0", path);

let browser, folder, folders;
before(async () => {
  browser = await launch();
  folders = {};
  for (const version of ["0.1.0", "0.2.0"]) {
    folders[version] = await mkdtemp(join(tmpdir(), "presurvey-earlier-"));
    const form = keptOfVersion(version, "form");
    for (const file of await readdir(form)) {
      await writeFile(join(folders[version], file.replace(/\.br$/, "")), brotliDecompressSync(await readFile(join(form, file))));
    }
  }
  folder = folders["0.1.0"];
});
after(async () => {
  await browser?.close();
  for (const one of Object.values(folders)) await rm(one, { recursive: true, force: true });
});

/** A setup with what no form of then knows: a charge point that is not listed, assumptions by age and by buttons. */
async function newerSetup() {
  const setup = JSON.parse(await readFile(kept("setups/demo.json"), "utf8"));
  for (const point of setup.charge_points) point.listed = false;
  const device_by_buttons = { none: 0.1, one: 0.4, two: 0.6, each_way: 0.8, metal_case: 0.9, no_name: 0.7 };
  const loop_at_age = { before_1967: 0.9, to_1999: 0.3, since_2000: 0.1, unknown: 0.7 };
  setup.priors = { device_by_buttons, loop_at_age };
  const file = join(folder, "setup.json");
  await writeFile(file, JSON.stringify(setup));
  return file;
}

for (const newer of [false, true]) {
  test(`it is configured and sends, ${newer ? "by a setup with what it does not know" : "on data that was kept then"}`, async () => {
    const data = await mkdtemp(join(tmpdir(), "presurvey-earlier-data-"));
    if (!newer) await cp(kept("data"), data, { recursive: true });
    const service = await serve({ data, setup: newer ? await newerSetup() : undefined });
    const site = await host({ pages: { "/": sitePage(pasted("copied", service.origin)) }, folders: { "/presurvey/": folder } });
    try {
      const page = await openPage(browser);
      await page.goto(site.origin);
      await page.locator("#f-hazard").waitFor();
      assert.ok(!(await page.locator("#f-hazard input[value=heat]").count()), "it is the form of then");
      const story = { ...(await storyOf("easy-detached")), "follow-solar": "no" };
      await walkCore(page, story);
      assert.equal(await result(page), "straightforward");
      assert.match(await page.locator(".result .range").innerText(), /£/, "configured");
      await goOn(page);
      await page.locator("#c-name").waitFor();
      const reference = await send(page, PERSON);
      const { enquiry, own_assessment, row } = await keptOf(service, reference);
      assert.deepEqual([enquiry.payload.engine, enquiry.payload.assessment.complexity], ["0.1.0", "straightforward"]);
      assert.notEqual(own_assessment.engine, "0.1.0", "and assessed by today's");
      assert.equal(row.complexity, own_assessment.complexity);

      // Photos may be added by the link that the form of then shows.
      const link = await page.locator(".adding .link input").inputValue();
      const late = await openPage(browser);
      await late.goto(link);
      await late.locator(".page.adding").waitFor();
      await page.context().close();
      await late.context().close();
      if (newer) return;

      // And the link that an installer handed out then opens in the form of then.
      const { fragment } = JSON.parse(await readFile(kept("data/link.json"), "utf8"));
      const settled = await openPage(browser);
      await settled.goto(`${site.origin}/#${fragment}`);
      await settled.locator(".page.adding #f-carrier-rating").waitFor();
      assert.deepEqual(await asked(settled), ["carrier-rating", "switch-after"]);
      await settled.context().close();
    } finally {
      await site.stop();
      await service.stop();
      await rm(data, { recursive: true, force: true });
    }
  });
}

/** The demo's setup as it is today: charge points with their maker's device, what a form of then has no field for. */
test("a form of 0.2.0 is configured by today's setup and sends", async () => {
  const service = await serve({});
  const published = await (await fetch(`${service.origin}/api/config`, { headers: { accept: "application/json;format=2" } })).json();
  assert.ok(!published.charge_points.some((point) => "device" in point), "format 2 has no such field");
  const site = await host({
    pages: { "/": sitePage(pasted("copied", service.origin)) },
    folders: { "/presurvey/": folders["0.2.0"] },
  });
  try {
    const page = await openPage(browser);
    await page.goto(site.origin);
    await page.locator("#f-hazard input[value=heat]").waitFor();
    await walkCore(page, await storyOf("easy-detached"));
    assert.equal(await result(page), "straightforward");
    assert.match(await page.locator(".result .range").innerText(), /£/, "configured");
    await goOn(page);
    await page.locator("#c-name").waitFor();
    const { enquiry, own_assessment } = await keptOf(service, await send(page, PERSON));
    assert.equal(enquiry.payload.engine, "0.2.0");
    assert.notEqual(own_assessment.engine, "0.2.0", "and assessed by today's");
    await page.context().close();
  } finally {
    await site.stop();
    await service.stop();
  }
});
