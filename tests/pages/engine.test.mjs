// The engine beside the form: reached in three ways with the same bytes, replaced where it breaks, and never waited for.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { after, before, test } from "node:test";
import { launch, openPage } from "./lib/browser.mjs";
import { goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { publishedBy, pagesPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const KINDS = { ".js": "text/javascript", ".wasm": "application/wasm", ".html": "text/html" };

let service, browser, copy, elsewhere, homes, config;
before(async () => {
  [service, browser, copy, elsewhere] = await Promise.all([serve(), launch(), files(), files()]);
  homes = (await readFile(new URL("../homes/two-hundred.jsonl", import.meta.url), "utf8")).trim().split("\n");
  config = await (await publishedBy(service)).text();
});
after(async () => {
  await browser?.close();
  await service?.stop();
  for (const server of [copy, elsewhere]) server?.close();
});

/** The form's files and an empty page, as any web host serves them, to pages of other origins too. */
async function files() {
  const server = createServer(async (request, response) => {
    const { pathname } = new URL(request.url, "http://host");
    response.setHeader("access-control-allow-origin", "*");
    try {
      const body = pathname === "/" ? "<!doctype html><title>empty</title>" : await readFile(join(pagesPath(), "form", pathname));
      response.setHeader("content-type", KINDS[extname(pathname)] ?? "text/html");
      response.end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  server.unref(); // a test that fails early ends all the same
  server.origin = `http://127.0.0.1:${server.address().port}`;
  return server;
}

/** All homes worked out by `assess.js` of one origin in a page of another; and the addresses of the workers it ran. */
async function worked(from, { without } = {}) {
  const page = await openPage(browser);
  if (without) await page.addInitScript((name) => delete globalThis[name], without);
  await page.goto(copy.origin);
  const json = await page.evaluate(
    async ({ from, homes, config }) => {
      const { assess } = await import(`${from}/assess.js`);
      const all = [];
      for (const home of homes) all.push((await assess(home, config))[0]);
      return all;
    },
    { from, homes, config },
  );
  const workers = page.workers().map((worker) => worker.url());
  await page.context().close();
  return { json, workers };
}

test("a worker, a worker for another origin and the page's thread give the same bytes", async () => {
  const own = await worked(copy.origin);
  assert.deepEqual(own.workers, [`${copy.origin}/worker.js`]);
  assert.equal(own.json.length, 200);
  assert.ok(own.json.every((json) => typeof json === "string" && json.startsWith('{"as_of":')));
  const other = await worked(elsewhere.origin);
  assert.ok(other.workers.length === 1 && other.workers[0].startsWith("blob:"), `${other.workers}`);
  assert.deepEqual(other.json, own.json);
  const thread = await worked(copy.origin, { without: "Worker" });
  assert.deepEqual(thread.workers, []);
  assert.deepEqual(thread.json, own.json);
});

test("what can't be read is said with its place, and what comes after is worked out", async () => {
  const page = await openPage(browser);
  await page.goto(copy.origin);
  const said = await page.evaluate(
    async ({ home, config }) => {
      const { assess } = await import("/assess.js");
      return [await assess(home, config.replace('"hour":', '"hours":')), await assess("{", config), await assess(home, config)];
    },
    { home: homes[0], config },
  );
  assert.match(said[0], /config, `rates[^`]*`: unknown field `hours`/);
  assert.match(said[1], /answers/);
  assert.ok(Array.isArray(said[2]));
});

for (const [name, script] of [
  ["breaks", "postMessage({ ready: true }); onmessage = () => { throw Error('broken on purpose'); };"],
  ["falls silent", "postMessage({ ready: true });"],
  ["never says that it is ready", ""],
]) {
  test(`a worker that ${name} is replaced by the page's own thread`, async () => {
    const page = await openPage(browser);
    await page.route("**/worker.js", (route) => route.fulfill({ contentType: "text/javascript", body: script }));
    await openForm(page, service.form);
    await walkCore(page, await storyOf("easy-detached"));
    assert.equal(await result(page), "straightforward");
    assert.deepEqual(page.workers(), []);
  });
}

test("an engine that never comes keeps nobody waiting: the form goes on, says so, and sends", async () => {
  const page = await openPage(browser);
  for (const file of ["worker.js", "engine.js", "engine_bg.wasm"]) await page.route(`**/${file}`, () => {});
  await openForm(page, service.form);
  await walkCore(page, await storyOf("looped-terrace"));
  await page.locator(".result .working", { hasText: "as soon as there is a signal" }).waitFor();
  assert.equal(await page.locator(".result [data-complexity]").count(), 0);
  await goOn(page);
  const reference = await send(page, { name: "Invented Homeowner", telephone: "01632 960 125" });
  assert.deepEqual(page.problems, []);
  await page.context().close();

  const desk = await openPage(browser);
  await signIn(desk, service);
  const kept = await enquiryOf(desk, service, reference);
  assert.ok(!("assessment" in kept.enquiry.payload));
  assert.equal(kept.own_assessment.complexity, "depends-on-others");
  assert.equal(kept.row.complexity, "depends-on-others");
  await desk.locator(`a[href*="${kept.client_key}"]`).first().click();
  await desk.locator(".agreement", { hasText: "before its own result was worked out" }).waitFor();
});

test("an engine that could not be fetched is fetched when there is a signal again", async () => {
  const page = await openPage(browser);
  const gone = (route) => route.abort("internetdisconnected");
  await page.route("**/worker.js", gone);
  await page.route("**/engine*", gone);
  await openForm(page, service.form);
  await walkCore(page, await storyOf("easy-detached"));
  await page.locator(".result .working", { hasText: "as soon as there is a signal" }).waitFor();
  await page.unrouteAll();
  await page.evaluate(() => globalThis.dispatchEvent(new Event("online")));
  assert.equal(await result(page), "straightforward");
});
