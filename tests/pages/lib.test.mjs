// The helpers of these tests themselves: that they notice what they are there to notice.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { launch, openPage } from "./lib/browser.mjs";
import { fits, tall, uncut } from "./lib/fits.mjs";
import { readStart } from "./lib/serve.mjs";

let browser;
before(async () => (browser = await launch()));
after(() => browser?.close());

const WHOLE = `<!doctype html><html lang="en"><title>Whole</title><main><h1>Whole</h1></main></html>`;

test("axe looks into an open shadow root", async () => {
  const page = await openPage(browser);
  await page.setContent(WHOLE);
  assert.deepEqual(await axe(page), []);
  await page.evaluate(() => {
    const host = document.querySelector("main").appendChild(document.createElement("div"));
    host.attachShadow({ mode: "open" }).innerHTML = "<input>";
  });
  const found = await axe(page);
  assert.equal(found.length, 1);
  assert.match(found[0], /^label \(critical\)/);
});

test("an uncaught error and a refused inline script are remembered", async () => {
  const page = await openPage(browser);
  await page.route("http://form.test/", (route) =>
    route.fulfill({
      contentType: "text/html",
      headers: { "content-security-policy": "script-src 'self'" },
      body: `${WHOLE}<script>document.title = "ran"</script>`,
    }),
  );
  await page.goto("http://form.test/");
  assert.equal(await page.title(), "Whole");
  assert.equal(page.problems.length, 1);
  assert.match(page.problems[0], /Content Security Policy/);
  await Promise.all([
    page.waitForEvent("pageerror"),
    page.evaluate(() => void setTimeout(() => Promise.reject(new Error("dropped")), 0)),
  ]);
  assert.match(page.problems[1], /uncaught: .*dropped/s);
});

test("a request to another origin is remembered", async () => {
  const page = await openPage(browser);
  const fulfil = (route) => route.fulfill({ contentType: "text/html", body: WHOLE });
  await page.route("http://form.test/", fulfil);
  await page.route("http://elsewhere.test/", fulfil);
  await page.goto("http://form.test/");
  assert.deepEqual(page.problems, []);
  await page.evaluate(() => fetch("http://elsewhere.test/", { mode: "no-cors" }));
  assert.deepEqual(page.problems, ["another origin: http://elsewhere.test/"]);
});

test("what is too wide, too low or cut off is found", async () => {
  const page = await openPage(browser);
  await page.setContent(WHOLE);
  const holds = async (inside) => {
    await page.evaluate((inside) => {
      const host = document.createElement("presurvey-form");
      host.attachShadow({ mode: "open" }).innerHTML = `<div class="form">${inside}</div>`;
      document.querySelector("main").replaceChildren(host);
    }, inside);
    const all = await Promise.allSettled([fits, tall, uncut].map((look) => look(page)));
    return all.map(({ status }) => status === "fulfilled");
  };
  const box = "position: relative; width: 100px; height: 50px; overflow: hidden; white-space: nowrap";
  assert.deepEqual(await holds(`<button style="${box}">Short</button><label style="${box}; display: block"><input type="radio">One</label>`), [true, true, true]);
  assert.deepEqual(await holds(`<p style="width: 500px; position: absolute">Wide</p>`), [false, true, true]);
  assert.deepEqual(await holds(`<button style="height: 30px">Low</button>`), [true, false, true]);
  assert.deepEqual(await holds(`<input type="radio">`), [true, false, true]);
  assert.deepEqual(await holds(`<p style="${box}">Far more than fits into it</p>`), [true, true, false]);
  assert.deepEqual(await holds(`<svg width="50" height="50"><text x="30" y="20">Beyond</text></svg>`), [true, true, false]);
});

test("the service's start is read once all three lines are there", () => {
  const addresses = "homeowner's page: http://127.0.0.1:4000/\ninstaller's page: http://127.0.0.1:4000/installer/\n";
  assert.equal(readStart(addresses), undefined);
  assert.deepEqual(readStart(`${addresses}password: three-word-phrase\n`), {
    form: "http://127.0.0.1:4000/",
    triage: "http://127.0.0.1:4000/installer/",
    password: "three-word-phrase",
  });
});
