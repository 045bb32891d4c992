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

/** Puts a draft on the device as an earlier build left it there, and has it touched last just now: it would be too old otherwise. */
async function plant(page, config, text) {
  const lines = JSON.parse(text).map(([name, value]) => [name, name === "kept" ? String(Date.now()) : value]);
  await page.evaluate(
    async ([config, text, mark]) => {
      const { Store } = await import("/store.js");
      await new Store(config).read(); // the database is there after it
      await new Promise((yes, no) => {
        indexedDB.open("presurvey", 1).onsuccess = ({ target: { result } }) => {
          const transaction = result.transaction("drafts", "readwrite");
          transaction.objectStore("drafts").put(text, `3 ${new URL(config, location)}`);
          transaction.oncomplete = () => (result.close(), yes());
          transaction.onabort = no;
        };
      });
      localStorage.setItem(`presurvey 3 ${new URL(config, location)}`, mark);
    },
    [config, JSON.stringify(lines), lines.some(([name]) => name === "queued") ? "queued" : "begun"],
  );
}

test("what 0.3.0 kept on a device and a link that it made open in today's form", async () => {
  const service = await serve({});
  const field = (id) => async (page) => page.locator(`#f-${id}`).waitFor();
  const opens = {
    "first-screen": field("hazard"),
    "postcode-half-typed": async (page) => {
      await field("postcode")(page);
      assert.equal(await page.locator("#i-postcode").inputValue(), "ZZ1 1A");
    },
    danger: (page) => page.locator(".emergency").waitFor(),
    "half-way": field("fuse-carriers"),
    "at-the-result": async (page) => assert.equal(await result(page), "straightforward"),
    contact: async (page) => {
      await page.locator("#c-name").waitFor();
      assert.equal(await page.locator("#c-name").inputValue(), "Invented Homeowner");
    },
    "waiting-to-be-sent": (page) => page.locator(".sent .reference").waitFor(),
    sent: (page) => page.locator(".sent .reference").waitFor(),
    "plain-form": field("hazard"),
  };
  try {
    for (const [name, check] of Object.entries(opens)) {
      const page = await openPage(browser);
      await page.goto(service.form);
      await page.locator("#f-hazard").waitFor();
      await plant(page, "/api/config", await readFile(keptOfVersion("0.3.0", `drafts/${name}.json`), "utf8"));
      await page.reload();
      if (name !== "waiting-to-be-sent") await page.locator("[data-does=on]").click();
      await check(page);
      assert.deepEqual(page.problems, [], name);
      await page.context().close();
    }
    const page = await openPage(browser);
    await page.goto(`${service.form}#${(await readFile(keptOfVersion("0.3.0", "drafts/moving-link.txt"), "utf8")).trim()}`);
    assert.equal(await result(page), "straightforward");
    await page.context().close();
  } finally {
    await service.stop();
  }
});
