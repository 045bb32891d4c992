// What is kept on the device, by itself: a bare page of each tab, and the store's own module.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { after, before, test } from "node:test";
import { join } from "node:path";
import { launch } from "./lib/browser.mjs";
import { pagesPath } from "./lib/serve.mjs";

const STORE = join(pagesPath(), "form/store.js");
const DAY = 86_400_000;

let browser, site, origin;
before(async () => {
  const store = await readFile(STORE);
  site = createServer((asked, answer) => {
    answer.setHeader("content-type", asked.url === "/store.js" ? "text/javascript" : "text/html");
    answer.end(asked.url === "/store.js" ? store : "<!doctype html><title>Bare</title>");
  });
  await new Promise((done) => site.listen(0, "127.0.0.1", done));
  origin = `http://127.0.0.1:${site.address().port}`;
  browser = await launch();
});
after(async () => {
  await browser?.close();
  site?.close();
});

/** A bare page with the store of one form in `store`; `said` are lines by name, written with their version. */
async function tab(context, { beforehand, page } = {}) {
  page ??= await context.newPage();
  if (beforehand) await page.addInitScript(beforehand);
  await page.goto(origin);
  await page.evaluate(async () => {
    const { Store } = await import("/store.js");
    const text = (lines) => JSON.stringify([["version", "3"], ...Object.entries(lines)]);
    window.store = new Store("/api/config");
    window.lines = ({ draft, trouble }) => ({ ...(draft && Object.fromEntries(JSON.parse(draft))), ...(trouble && { trouble }) });
    window.knew = {};
    window.read = async () => window.lines(await window.store.read());
    window.keep = (mine) => {
      const kept = window.store.keep(text(window.knew), text(mine));
      window.knew = mine;
      return kept.then(window.lines);
    };
  });
  return page;
}

/** The lines that are there, without those that the store writes for itself. */
const read = (page) =>
  page.evaluate(async () => {
    const { version, kept, late, ...lines } = await window.read();
    return lines;
  });
const keep = (page, mine) => page.evaluate((mine) => window.keep(mine), mine);

/** Puts something straight into the database, as another version would have. */
const plant = (page, store, key, value) =>
  page.evaluate(
    ([store, key, value]) =>
      new Promise((yes, no) => {
        const asked = indexedDB.open("presurvey", 1);
        asked.onsuccess = () => {
          const transaction = asked.result.transaction(store, "readwrite");
          transaction.objectStore(store).put(value, key);
          transaction.oncomplete = () => (asked.result.close(), yes());
          transaction.onabort = no;
        };
      }),
    [store, key, value],
  );
const planted = (page, store, key) =>
  page.evaluate(
    ([store, key]) =>
      new Promise((yes) => {
        const asked = indexedDB.open("presurvey", 1);
        asked.onsuccess = () => {
          const request = asked.result.transaction(store).objectStore(store).get(key);
          request.onsuccess = () => (asked.result.close(), yes(request.result));
        };
      }),
    [store, key],
  );

test("what is kept is there on the next page, and gone when thrown away", async () => {
  const context = await browser.newContext();
  const page = await tab(context);
  assert.deepEqual(await read(page), {});
  const kept = await keep(page, { "answer home.kind": '"semi"', step: "screen home" });
  assert.equal(kept["answer home.kind"], '"semi"');
  const next = await tab(context);
  assert.deepEqual(await read(next), { "answer home.kind": '"semi"', step: "screen home" });
  assert.equal(await next.evaluate(() => Object.keys(localStorage).length), 1, "the mark alone: nothing is left noted");
  assert.equal(await next.evaluate(() => window.store.drop()), undefined);
  assert.deepEqual(await read(page), {});
  assert.equal(await page.evaluate(() => Object.keys(localStorage).length), 0);
  await context.close();
});

test("two pages keep what each was told", async () => {
  const context = await browser.newContext();
  const [one, two] = [await tab(context), await tab(context)];
  await keep(one, { "answer a.a": "1" });
  await keep(two, { "answer b.b": "2" }); // it never heard of the first
  assert.deepEqual(await read(one), { "answer a.a": "1", "answer b.b": "2" });
  await keep(one, { "answer a.a": "3" });
  await keep(two, {});
  assert.deepEqual(await read(two), { "answer a.a": "3" }, "each changes and takes back its own lines alone");
  // What makes an enquiry one stays the first.
  await keep(one, { "answer a.a": "3", secrets: "first first" });
  const heard = await keep(two, { secrets: "second second" });
  assert.equal(heard.secrets, "first first");
  await context.close();
});

test("many changes at the same time from both pages are all kept", async () => {
  const context = await browser.newContext();
  const pages = [await tab(context), await tab(context)];
  await Promise.all(
    pages.map((page, at) =>
      page.evaluate(async (at) => {
        const mine = {};
        const all = [];
        for (let number = 0; number < 40; number += 1) {
          mine[`answer ${at}.${number}`] = String(number);
          all.push(window.keep({ ...mine }));
        }
        await Promise.all(all);
      }, at),
    ),
  );
  assert.equal(Object.keys(await read(pages[0])).length, 80);
  await context.close();
});

test("another page hears of a change, with and without channels between pages", async () => {
  for (const beforehand of [undefined, () => delete window.BroadcastChannel]) {
    const context = await browser.newContext();
    const [one, two] = [await tab(context, { beforehand }), await tab(context, { beforehand })];
    await two.evaluate(() => {
      window.heard = [];
      window.store.listen((draft) => window.heard.push(window.lines({ draft })["answer a.a"] ?? "gone"));
    });
    await keep(one, { "answer a.a": "1" });
    if (beforehand) await two.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
    await two.waitForFunction(() => window.heard.includes("1"));
    await one.evaluate(() => window.store.drop());
    if (beforehand) await two.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
    await two.waitForFunction(() => window.heard.at(-1) === "gone");
    await context.close();
  }
});

test("a change outlives a page that goes before the database has it", async () => {
  const context = await browser.newContext();
  const page = await tab(context, {
    // A database that never answers: what a page that dies at once sees of it.
    beforehand: () => {
      const open = IDBFactory.prototype.open;
      IDBFactory.prototype.open = function (...said) {
        return sessionStorage.getItem("slow") ? new EventTarget() : open.apply(this, said);
      };
    },
  });
  await keep(page, { "answer a.a": "1" });
  await page.evaluate(() => sessionStorage.setItem("slow", "yes"));
  await tab(context, { page });
  await page.evaluate(() => void window.keep({ "answer b.b": "2" }));
  await page.evaluate(() => sessionStorage.clear());
  await tab(context, { page });
  assert.deepEqual(await read(page), { "answer a.a": "1", "answer b.b": "2" });
  await context.close();
});

test("a draft of the version before is opened, and of a version to come left alone", async () => {
  const context = await browser.newContext();
  const page = await tab(context);
  await read(page);
  const before = JSON.stringify([
    ["version", "2"],
    ["answers", '{"as_of":"2026-11-02","hazard":{"signs":[]},"home":{"kind":"semi"}}'],
    ["step", "screen home"],
    ["typed postcode", "zz1"],
    ["photo ab", "board 1600 1200 70000"],
  ]);
  await plant(page, "drafts", "/api/config ", before);
  await plant(page, "photos", "/api/config ab", "bytes");
  const toCome = JSON.stringify([["version", "4"], ["something", "else"]]);
  await plant(page, "drafts", `4 ${origin}/api/config`, toCome);
  const found = {
    "answer hazard.signs": "[]", "answer home.kind": '"semi"', step: "screen home", "typed postcode": "zz1",
    "photo ab": "board 1600 1200 70000",
  };
  assert.deepEqual(await read(page), found);
  assert.equal(await page.evaluate(() => window.store.photo("ab").then(String)), "bytes");
  await page.evaluate((found) => (window.knew = found), found);
  await keep(page, { ...found, "answer home.age": '"before-1930"' });
  assert.equal((await read(page))["answer home.age"], '"before-1930"');
  assert.equal(await planted(page, "drafts", "/api/config "), before, "an old script on this site still finds its own");
  await page.evaluate(() => window.store.drop());
  assert.deepEqual(await read(page), {}, "thrown away is thrown away: the old one does not come back");
  assert.equal(await planted(page, "drafts", `4 ${origin}/api/config`), toCome);
  assert.equal(await planted(page, "photos", "/api/config ab"), undefined);
  await context.close();
});

test("forbidden storage: a note is enough for answers, and where nothing is kept it is said", async () => {
  const noDatabase = () => Object.defineProperty(window, "indexedDB", { get() { throw new DOMException("no", "SecurityError"); } });
  const nothing = () => {
    const refuse = { get() { throw new DOMException("no", "SecurityError"); } };
    Object.defineProperty(window, "indexedDB", refuse);
    Object.defineProperty(window, "localStorage", refuse);
  };
  const context = await browser.newContext();
  const page = await tab(context, { beforehand: noDatabase });
  assert.deepEqual(await read(page), {});
  await keep(page, { "answer a.a": "1" });
  await keep(page, { "answer a.a": "1", "answer b.b": "2" });
  await tab(context, { page });
  assert.deepEqual(await read(page), { "answer a.a": "1", "answer b.b": "2" });
  await page.evaluate(() => (window.knew = { "answer a.a": "1", "answer b.b": "2" }));
  await keep(page, { "answer a.a": "1" });
  await tab(context, { page });
  assert.deepEqual(await read(page), { "answer a.a": "1" });
  assert.equal(await page.evaluate(() => window.store.keepPhoto("ab", new Blob(["x"]))), "refused");
  await page.evaluate(() => window.store.drop());
  await tab(context, { page });
  assert.deepEqual(await read(page), {});

  const bare = await tab(await browser.newContext(), { beforehand: nothing });
  assert.deepEqual(await read(bare), { trouble: "refused" });
  assert.equal((await keep(bare, { "answer a.a": "1" })).trouble, "refused");
  assert.equal((await keep(bare, { "answer a.a": "1" }))["answer a.a"], "1", "the page itself goes on");
  await bare.context().close();
  await context.close();
});

test("a full device: a photo that finds no room leaves the answers", async () => {
  const context = await browser.newContext();
  const page = await tab(context);
  const devtools = await context.newCDPSession(page);
  await devtools.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 1_000_000 });
  await keep(page, { "answer a.a": "1" });
  assert.equal(await page.evaluate(() => window.store.keepPhoto("ab", new Blob([new Uint8Array(2_000_000)]))), "full");
  const kept = await keep(page, { "answer a.a": "1", "answer b.b": "2" });
  assert.equal(kept.trouble, undefined);
  await tab(context, { page });
  assert.deepEqual(await read(page), { "answer a.a": "1", "answer b.b": "2" });
  // When nothing finds room any more it is said.
  await devtools.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 1 });
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await page.evaluate(() => (window.knew = { "answer a.a": "1" }));
  const more = await keep(page, { "answer a.a": "1", "answer c.c": "3".repeat(2_000_000) });
  assert.equal(more.trouble, "full");
  assert.equal(more["answer c.c"].length, 2_000_000);
  await context.close();
});

/** A page whose own clock goes wrong by so many days from the next load on; the service's clock says `service`. */
async function withClocks(context, page, { device = 0, service = 0 }) {
  await page.unrouteAll();
  await page.route("**/store.js", async (route) => {
    if (route.request().method() !== "HEAD") return route.continue();
    if (service === null) return route.abort();
    return route.fulfill({ status: 200, headers: { date: new Date(Date.now() + service * DAY).toUTCString() } });
  });
  await tab(context, {
    page,
    beforehand: `{ const now = Date.now; Date.now = () => now() + ${device - (page.ahead ?? 0)} * ${DAY}; }`,
  });
  page.ahead = device;
}

test("a draft goes when its time has passed by both clocks, and by one alone only at a second late visit", async () => {
  const fresh = async (mine) => {
    const context = await browser.newContext();
    const page = await tab(context);
    await read(page);
    await keep(page, mine);
    await page.evaluate(() => window.store.keepPhoto("ab", new Blob(["x"])));
    return { context, page };
  };
  const mine = { "answer a.a": "1", "photo ab": "board 1 1 1" };
  {
    const { context, page } = await fresh(mine);
    await withClocks(context, page, { device: 29, service: 29 });
    assert.deepEqual(await read(page), mine);
    await withClocks(context, page, { device: 31, service: 31 });
    assert.deepEqual(await read(page), {});
    assert.equal(await page.evaluate(() => window.store.photo("ab")), undefined);
    await context.close();
  }
  {
    const { context, page } = await fresh({ ...mine, days: "2" });
    await withClocks(context, page, { device: 3, service: 3 });
    assert.deepEqual(await read(page), {}, "the installer's own number of days");
    await context.close();
  }
  {
    // This device's clock has jumped ahead by years: the service's does not agree.
    const { context, page } = await fresh(mine);
    await withClocks(context, page, { device: 4_000, service: 0 });
    assert.deepEqual(await read(page), mine);
    await withClocks(context, page, { device: -4_000, service: 0 });
    assert.deepEqual(await read(page), mine, "and back by years");
    await withClocks(context, page, { device: 0, service: 0 });
    assert.deepEqual(await read(page), mine);
    await context.close();
  }
  {
    // Written while the clock was years behind (an empty battery); then it is right again.
    const { context, page } = await fresh({});
    await withClocks(context, page, { device: -4_000, service: 0 });
    await keep(page, mine);
    await withClocks(context, page, { device: 0, service: 0 });
    assert.deepEqual(await read(page), mine);
    // From now on its time counts.
    await withClocks(context, page, { device: 31, service: 31 });
    assert.deepEqual(await read(page), {});
    await context.close();
  }
  {
    // Written while the clock was years ahead: it does not stay for years.
    const { context, page } = await fresh({});
    await withClocks(context, page, { device: 4_000, service: 0 });
    await keep(page, mine);
    await withClocks(context, page, { device: 0, service: 0 });
    assert.deepEqual(await read(page), mine);
    await withClocks(context, page, { device: 31, service: 31 });
    assert.deepEqual(await read(page), {});
    await context.close();
  }
  {
    // No other clock to be had.
    const { context, page } = await fresh(mine);
    await withClocks(context, page, { device: 40, service: null });
    assert.deepEqual(await read(page), mine, "offered once more");
    await withClocks(context, page, { device: 40.5, service: null });
    assert.deepEqual(await read(page), mine);
    await withClocks(context, page, { device: 42, service: null });
    assert.deepEqual(await read(page), {});
    await context.close();
  }
});
