// The form on somebody else's website, under the strictest policy that README.md names for it: the lines there, pasted.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launch, openPage, problemsBeside } from "./lib/browser.mjs";
import { answer, goOn, result, send, walkCore } from "./lib/form.mjs";
import { heard, listen, tellTales } from "./lib/heard.mjs";
import { host, sitePage } from "./lib/host.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { engineAtWork } from "./lib/policies.mjs";
import { pasted, pastedHeader } from "./lib/readme.mjs";
import { pagesPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 131" };
const UPLOAD = join(pagesPath(), "upload");

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

/** A website with the lines and the policy of README.md on its first page. */
const siteWith = (way, more = {}) =>
  host({
    pages: { "/": sitePage(pasted(way, service.origin)) },
    headers: pastedHeader(`${way}-policy`, service.origin),
    folders: { "/presurvey/": UPLOAD },
    ...more,
  });

/** A page that remembers where its requests went; those to the service are expected. */
async function visitor() {
  const page = await openPage(browser);
  page.asked = new Set();
  page.on("request", (request) => {
    const { protocol, origin } = new URL(request.url());
    if (protocol.startsWith("http")) page.asked.add(origin);
  });
  await listen(page);
  return page;
}

const problems = (page) => problemsBeside(page, service.origin);

for (const way of ["copied", "served"]) {
  test(`${way}: a whole journey with a photo, under the policy of README.md`, async () => {
    const site = await siteWith(way);
    try {
      const page = await visitor();
      await page.goto(site.origin);
      await page.locator("#f-hazard").waitFor();
      const picture = { name: "meter.jpg", mimeType: "image/jpeg", buffer: await page.screenshot({ type: "jpeg" }) };
      let taken = 0;
      await walkCore(page, await storyOf("easy-detached"), async () => {
        const choose = page.locator(".photos input[type=file]").last();
        if (taken > 0 || (await choose.count()) === 0) return;
        await choose.setInputFiles(picture);
        await page.locator(".photos figure img").waitFor();
        assert.ok(await page.locator(".photos figure img").evaluate((img) => img.decode().then(() => img.naturalWidth > 0)));
        taken += 1;
      });
      assert.equal(await result(page), "straightforward");
      await engineAtWork(page);
      await goOn(page);
      await page.locator("#c-name").waitFor();
      const reference = await send(page, PERSON);

      assert.deepEqual(problems(page), []);
      assert.deepEqual([...page.asked].sort(), [service.origin, site.origin].sort(), "nobody else was asked for anything");
      assert.deepEqual(await page.context().cookies(), []);
      assert.ok(way === "copied" || !site.requests.some((path) => path.startsWith("/presurvey/")));

      const events = await heard(page);
      assert.deepEqual(tellTales(events), []);
      const names = events.map((event) => event.type);
      for (const name of ["presurvey-ready", "presurvey-step", "presurvey-result", "presurvey-sent"]) {
        assert.ok(names.includes(name), `${name} was heard`);
      }
      const desk = await openPage(browser);
      await signIn(desk, service);
      const kept = await enquiryOf(desk, service, reference);
      assert.equal(kept.enquiry.payload.contact.name, PERSON.name);
      assert.equal(kept.photos_arrived.length, 1);
    } finally {
      await site.stop();
    }
  });

  test(`${way}: nothing of a hazard or of who sends it is in any event`, async () => {
    const site = await siteWith(way);
    try {
      const page = await visitor();
      await page.goto(site.origin);
      await page.locator("#f-hazard").waitFor();
      await answer(page, "hazard", ["discolouration"]);
      await page.locator(".emergency[role=alert]").waitFor();
      await answer(page, "hazard-place", "service-head");
      await goOn(page);
      await page.locator("#c-name").waitFor();
      await answer(page, "postcode", "ZZ2 3CC");
      await refuse(page);
      await page.locator("#c-name").fill(PERSON.name);
      await page.locator("#c-telephone").fill(PERSON.telephone);
      await goOn(page);
      await page.waitForFunction(() => globalThis.heardSoFar().some((event) => event.type === "presurvey-failed"));
      await page.unrouteAll();
      await goOn(page);
      await page.locator(".sent .reference").waitFor();

      const events = await heard(page);
      assert.deepEqual(tellTales(events), []);
      const text = JSON.stringify(events);
      for (const told of ["Invented", "01632", "960", "ZZ2", "discolouration", "service-head"]) {
        assert.ok(!text.includes(told), `${told} is in an event`);
      }
      assert.equal(events.filter((event) => event.type === "presurvey-sent").length, 1);
    } finally {
      await site.stop();
    }
  });
}

/** The lines that README.txt of the folder to upload has for this very folder: with the hash of the first script. */
async function linesWithIntegrity() {
  const text = await readFile(join(UPLOAD, "README.txt"), "utf8");
  const lines = text.slice(text.indexOf("<script"), text.indexOf("</presurvey-form>") + "</presurvey-form>".length);
  assert.match(lines, /integrity="sha384-/);
  return lines.replaceAll("https://presurvey.example", service.origin);
}

/** One byte of a file changed on its way: a letter of a script's first line, or a byte in the middle of a program. */
const changed = (name) => (path, bytes) => {
  if (path !== `/presurvey/${name}`) return bytes;
  const other = Buffer.from(bytes);
  other[name.endsWith(".wasm") ? bytes.length >> 1 : bytes.length - 2] ^= 1;
  return other;
};

test("copied, with the first script's hash: it runs, and one changed byte of it is refused in words", async () => {
  const pages = { "/": sitePage(await linesWithIntegrity()) };
  for (const alter of [undefined, changed("presurvey.js")]) {
    const site = await siteWith("copied", { pages, ...(alter && { alter }) });
    try {
      const page = await visitor();
      await page.goto(site.origin);
      if (!alter) {
        await page.locator("#f-hazard").waitFor();
        assert.deepEqual(problems(page), []);
        continue;
      }
      await page.waitForFunction(() => document.readyState === "complete");
      assert.match(await page.locator("presurvey-form").innerText(), /ring 01632 960 000/);
      assert.equal(await page.evaluate(() => customElements.get("presurvey-form")), undefined);
      assert.ok(problems(page).length === 1 && /integrity/.test(problems(page)[0]), problems(page).join());
    } finally {
      await site.stop();
    }
  }
});

for (const name of ["form.js", "form_bg.wasm", "store.js", "assess.js", "lazy.js"]) {
  test(`one changed byte of ${name} is refused, and the form goes on plainly`, async () => {
    const site = await siteWith("copied", { alter: changed(name) });
    try {
      const page = await visitor();
      await page.goto(site.origin);
      await page.locator("#f-hazard").waitFor();
      await answer(page, "hazard", ["none"]);
      await goOn(page);
      await page.locator("#c-name").waitFor();
      const failed = (await heard(page)).filter((event) => event.type === "presurvey-failed");
      assert.deepEqual(failed.map((event) => event.detail), [{ reason: "blocked" }]);
      assert.ok(problems(page).some((problem) => /integrity/.test(problem)));
      assert.equal(await page.locator(".program").count(), 0);
    } finally {
      await site.stop();
    }
  });
}

/** Makes the service refuse what is sent to it, once. */
async function refuse(page) {
  await page.route(`${service.origin}/api/enquiries`, (route) =>
    route.request().method() === "POST"
      ? route.fulfill({
          status: 422,
          headers: { "access-control-allow-origin": "*", "content-type": "application/json" },
          body: JSON.stringify({ error: "this is a test", fields: [] }),
        })
      : route.continue(),
  );
}
