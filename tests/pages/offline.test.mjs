// A page of our own without a network, by itself: the service worker, a page of three files, and a site that changes under it.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { launch } from "./lib/browser.mjs";

const WORKER = fileURLToPath(new URL("../../www/form/offline.js", import.meta.url));

let browser, worker;
before(async () => {
  worker = await readFile(WORKER, "utf8");
  browser = await launch();
});
after(() => browser?.close());

const hash = (text) => `sha384-${createHash("sha384").update(text).digest("base64")}`;

/** The page of one build: it says its build, and fetches its second script when asked. */
const build = (number) => ({
  "./": `<!doctype html><title>${number}</title><link rel="icon" href="data:,"><script type="module" src="first.js"></script>`,
  "first.js": `document.title += " ${number}"; window.later = async () => (await import("./later.js")).build;
    navigator.serviceWorker.register("offline.js?config=/config");`,
  "later.js": `export const build = ${number};`,
});

/** A site that serves `site.files`, counts what it is asked for, and takes what is posted. */
async function serveSite() {
  const site = { files: build(1), config: "one", asked: [], listed: undefined };
  const server = createServer((request, answer) => {
    const path = new URL(request.url, "http://x").pathname.slice(1) || "./";
    site.asked.push(`${request.method} ${path}`);
    const list = Object.fromEntries(Object.entries(site.listed ?? site.files).map(([name, text]) => [name, hash(text)]));
    const text =
      path === "offline.js" ? worker.replace("__FILES__", JSON.stringify(list))
      : path === "config" ? site.config
      : site.files[path];
    const kind = path === "./" ? "text/html" : path.endsWith(".js") ? "text/javascript" : "text/plain";
    answer.writeHead(text === undefined ? 404 : 200, { "content-type": kind, "cache-control": "no-cache" });
    answer.end(text);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  site.address = `http://127.0.0.1:${server.address().port}/`;
  site.close = () => server.close();
  return site;
}

const configOf = (page) => page.evaluate(async () => (await fetch("/config")).text());
/** Waits until the page's own worker is the active one and no other is on its way. */
const settled = (page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update().catch(() => {});
    const coming = registration.installing;
    if (coming) {
      await new Promise((yes) => {
        coming.onstatechange = () => ["installed", "activated", "redundant"].includes(coming.state) && yes();
      });
    }
  });
const caches = (page) => page.evaluate(async () => (await window.caches.keys()).length);

test("without a network the page opens, and has its last config; what is sent goes past it", async () => {
  const site = await serveSite();
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(site.address);
  await settled(page);
  await page.goto(`${site.address}?from=somewhere`);
  assert.equal(await page.title(), "1 1");
  assert.equal(await configOf(page), "one");
  site.config = "two";
  assert.equal(await configOf(page), "two", "a newer one as long as there is a network");
  await page.evaluate(() => fetch("/config", { method: "POST", body: "an enquiry" }));
  assert.ok(site.asked.includes("POST config"));
  await context.setOffline(true);
  await page.reload();
  assert.equal(await page.title(), "1 1");
  assert.equal(await page.evaluate(() => window.later()), 1);
  assert.equal(await configOf(page), "two");
  const refused = await page.evaluate(() => fetch("/config", { method: "POST" }).then(() => "answered", () => "no network"));
  assert.equal(refused, "no network");
  const kept = await page.evaluate(async () => {
    const [name] = await window.caches.keys();
    return (await (await window.caches.open(name)).keys()).map(({ method, url }) => `${method} ${new URL(url).pathname}`);
  });
  assert.deepEqual(kept.sort(), ["GET /", "GET /config", "GET /first.js", "GET /later.js"]);
  await context.close();
  site.close();
});

test("an update waits for the pages that are open, and no page runs on files of two builds", async () => {
  const site = await serveSite();
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(site.address);
  await settled(page);
  await page.reload();
  site.files = build(2);
  await settled(page);
  assert.equal(await page.evaluate(() => window.later()), 1, "what a page fetches late is of its own build");
  await page.reload();
  assert.equal(await page.title(), "1 1", "whole of the build before");
  assert.equal(await page.evaluate(() => window.later()), 1);
  await page.goto("about:blank"); // no page is open any more
  await page.goto(site.address);
  await page.waitForFunction(async (address) => {
    if (document.title === "2 2") return true;
    if (document.title) location.href = address; // the worker that waited may take its turn a moment later
    return false;
  }, site.address, { polling: 500 });
  assert.equal(await page.evaluate(() => window.later()), 2);
  await page.waitForFunction(async () => (await window.caches.keys()).length === 1);
  await context.setOffline(true);
  await page.reload();
  assert.equal(await page.title(), "2 2");
  await context.close();
  site.close();
});

test("a site that is half uploaded changes nothing", async () => {
  const site = await serveSite();
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(site.address);
  await settled(page);
  site.listed = build(2);
  site.files = { ...build(2), "later.js": build(1)["later.js"] };
  await settled(page);
  await context.setOffline(true);
  await page.reload();
  assert.equal(await page.title(), "1 1");
  assert.equal(await page.evaluate(() => window.later()), 1);
  assert.equal(await caches(page), 1, "nothing of it is left lying about");
  await context.close();
  site.close();
});
