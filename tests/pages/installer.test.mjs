// The installer's page in a real browser: keyboard, focus, address, corrections, and what happens when the line or the session ends.
import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { DESK, PHONE, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { serve } from "./lib/serve.mjs";

let browser, service;
before(async () => {
  [browser, service] = await Promise.all([launch(), serve()]);
  await mkdir(PICTURES, { recursive: true });
});
after(() => Promise.all([browser?.close(), service?.stop()]));

/** A page signed in by keyboard alone, with the list on it. */
async function signedIn(viewport = PHONE) {
  const page = await openPage(browser, { viewport });
  await page.goto(service.triage);
  await page.waitForSelector("#password");
  await page.keyboard.type(service.password); // the field has the focus already
  await page.keyboard.press("Enter");
  await page.waitForSelector("a[data-row]");
  return page;
}

/** Closes the page; what went wrong in it besides a refused session and a cut line is a failure. */
async function leave(page) {
  const meant = /401|ERR_INTERNET_DISCONNECTED/;
  assert.deepEqual(page.problems.filter((problem) => !meant.test(problem)), []);
  await page.context().close();
}

const focused = (page) => page.evaluate(() => ({ id: document.activeElement.id, tag: document.activeElement.tagName, href: document.activeElement.getAttribute("href") }));
const said = (page) => page.textContent("[role=status]");
const noOverflow = async (page) => assert.equal(await page.evaluate(() => Math.max(0, document.documentElement.scrollWidth - innerWidth)), 0);

/** Opens the demo's enquiry whose row says so. */
async function open(page, text) {
  await page.click(`a[data-row]:has-text("${text}")`);
  await page.waitForSelector(".decision");
}

test("a wrong password is said at its field, and the page passes axe", async () => {
  const page = await openPage(browser, { viewport: PHONE });
  await page.goto(service.triage);
  await page.fill("#password", "not this one");
  await page.keyboard.press("Enter");
  await page.waitForSelector("#password-error");
  assert.equal(await page.getAttribute("#password", "aria-describedby"), "password-error");
  assert.deepEqual(await axe(page), []);
  await leave(page);
});

test("the list is walked by arrows, an enquiry opens by Enter, back returns to its row, a reload stays", async () => {
  const page = await signedIn(DESK);
  assert.match(await said(page), /enquiries/);
  await page.focus("a[data-row]");
  await page.keyboard.press("ArrowDown");
  const { href } = await focused(page);
  assert.equal(href, await page.getAttribute("li.row:nth-child(2) a[data-row]", "href"));
  await page.keyboard.press("Enter");
  await page.waitForSelector(".decision");
  await page.waitForFunction(() => document.activeElement.tagName === "H1");
  await page.reload();
  await page.waitForSelector(".decision");
  assert.ok(page.url().endsWith(href));
  assert.deepEqual(await axe(page), []);
  await leave(page);
});

test("back from an enquiry puts the focus on the row one came from", async () => {
  const page = await signedIn();
  const href = await page.getAttribute("li.row:nth-child(3) a[data-row]", "href");
  await page.click("li.row:nth-child(3) a[data-row]");
  await page.waitForSelector(".decision");
  await page.goBack();
  await page.waitForFunction((href) => document.activeElement.getAttribute("href") === href, href);
  await leave(page);
});

test("a look-first row and its enquiry show no price", async () => {
  const page = await signedIn();
  await open(page, "Look first");
  assert.doesNotMatch(await page.textContent(".decision"), /£/);
  await noOverflow(page);
  assert.deepEqual(await axe(page), []);
  await leave(page);
});

test("a corrected answer shows its new price at once, says what changed, and is stored", async () => {
  const page = await signedIn();
  await open(page, "Straightforward");
  const before = await page.textContent(".decision .figures");
  await page.click("#correct-route-length");
  await page.waitForFunction(() => document.activeElement.matches(".correct input"));
  await page.fill(".correct input", "a long way");
  await page.keyboard.press("Enter");
  assert.match(await page.textContent(".correct .error"), /number/);
  assert.deepEqual(await axe(page), []);
  await page.fill(".correct input", "31");
  await page.keyboard.press("Enter");
  await page.waitForSelector(".changed ins");
  assert.notEqual(await page.textContent(".decision .figures"), before);
  await page.waitForFunction(() => document.querySelector(".changed").textContent.includes("Stored"));
  assert.match(await said(page), /Price before: £.*; now: £/);
  await page.waitForFunction(() => document.activeElement.id === "correct-route-length");
  await page.reload();
  await page.waitForSelector("#question-route-length");
  assert.match(await page.textContent("li.answer:has(#question-route-length)"), /31 m.*The homeowner said/);
  await leave(page);
});

test("an operator that has not answered in time is said in the enquiry and in its row of the list", async () => {
  const page = await signedIn();
  // It is asked on paper: an answer is usual within two weeks.
  await open(page, "More involved, once");
  const row = page.url().replace(/.*(?=#)/, "");
  // What the installer alone records lies folded.
  await page.click("details:has(#correct-operator-asked-on) > summary");
  await page.click("#correct-operator-asked-on");
  await page.fill(".correct input", "2026-01-05");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.querySelector(".changed")?.textContent.includes("Stored"));
  assert.match(await page.textContent("body"), /overdue: ask how it stands/);
  await page.click(".back a");
  await page.waitForSelector(`a[data-row][href="${row}"]`);
  await page.waitForFunction((href) => /overdue: ask how it stands/.test(document.querySelector(`li.row:has(a[href="${href}"])`).textContent), row);
  await noOverflow(page);
  assert.deepEqual(await axe(page), []);
  await page.screenshot({ path: `${PICTURES}/installer-overdue.png` });
  await leave(page);
});

test("the installer records a route row by row, by keyboard, and the price follows", async () => {
  const page = await signedIn();
  await open(page, "More involved");
  const before = await page.textContent(".decision .figures");
  await page.click("#correct-route-stretches");
  await page.waitForSelector(".stretches li");
  await page.selectOption("#stretch-0-along", "inside");
  await page.fill(".stretches li:nth-child(1) input[type=text]", "4");
  await page.focus("#stretch-0-add");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.id === "stretch-1-along");
  await page.selectOption("#stretch-1-along", "paving");
  await page.fill(".stretches li:nth-child(2) input[type=text]", "18");
  await page.focus("#stretch-1-split");
  await page.keyboard.press("Enter");
  await page.waitForSelector(".stretches li:nth-child(3)");
  const lengths = await page.locator(".stretches input[type=text]").evaluateAll((all) => all.map((one) => one.value));
  assert.deepEqual(lengths.slice(0, 3), ["4", "9", "9"], "what was there before follows");
  assert.deepEqual(await axe(page), []);
  await noOverflow(page);
  await page.screenshot({ path: `${PICTURES}/installer-stretches.png`, fullPage: true });
  await page.click(".correct button[type=submit]");
  await page.waitForFunction(() => document.querySelector(".changed")?.textContent.includes("Stored"));
  assert.notEqual(await page.textContent(".decision .figures"), before);
  await leave(page);
});

test("without a line a correction is shown, said not to be stored, kept, and stored at the next try", async () => {
  const page = await signedIn();
  await open(page, "More involved");
  await page.waitForSelector("#correct-wifi-bars");
  await page.context().setOffline(true);
  await page.click("#correct-wifi-bars");
  await page.selectOption(".correct select", "0");
  await page.click(".correct button[type=submit]");
  await page.waitForSelector(".changed .notice");
  await page.click(".back a");
  await page.waitForSelector("a[data-row]"); // the list that was there is kept
  await page.waitForFunction(() => document.body.textContent.includes("is not stored yet"));
  assert.deepEqual(await axe(page), []);
  await page.context().setOffline(false);
  await page.click(".notice:has-text('not stored') button");
  await page.waitForFunction(() => !document.body.textContent.includes("is not stored yet"));
  await leave(page);
});

test("a session that ends asks for the password and comes back to where one was", async () => {
  const page = await signedIn();
  await open(page, "Look first");
  const where = page.url();
  await page.context().clearCookies();
  await page.click(".act button");
  await page.waitForSelector("#password");
  await page.keyboard.type(service.password);
  await page.keyboard.press("Enter");
  await page.waitForSelector(".decision");
  assert.equal(page.url(), where);
  await leave(page);
});

test("handled moves an enquiry from one list to the other, and a reference finds it in both", async () => {
  const page = await signedIn();
  const waiting = (await page.$$("a[data-row]")).length;
  await open(page, "Depends on others");
  const reference = (await page.textContent(".facts-line")).match(/[A-Z2-8]{4}-[A-Z2-8]{4}/)[0];
  await page.click(".act button");
  await page.waitForFunction(() => document.querySelector("[role=status]").textContent.includes("handled"));
  await page.click(".back a");
  await page.waitForSelector("a[data-row]");
  await page.waitForFunction((n) => document.querySelectorAll("a[data-row]").length === n, waiting - 1);
  await page.fill("#search", reference.toLowerCase().replace("-", " ").slice(2));
  await page.waitForFunction(() => document.querySelectorAll("a[data-row]").length === 1);
  await leave(page);
});

test("the list and an enquiry fit 320 pixels, every target is 44 pixels high", async () => {
  const page = await signedIn({ width: 320, height: 640 });
  await noOverflow(page);
  assert.deepEqual(await axe(page), []);
  await page.click("a[data-row]");
  await page.waitForSelector(".decision");
  await noOverflow(page);
  const low = await page.$$eval("button, select, summary, .reach, .strip a, .back a", (all) =>
    all.filter((one) => one.offsetParent && one.getBoundingClientRect().height < 43.5).map((one) => one.outerHTML.slice(0, 80)),
  );
  assert.deepEqual(low, []);
  await leave(page);
});

test("an enquiry is deleted by a second press elsewhere, by keyboard alone, and the list says what it was", async () => {
  const page = await signedIn();
  const before = (await page.$$("a[data-row]")).length;
  await page.click("li.row:last-child a[data-row]");
  await page.waitForSelector(".keeping");
  const name = (await page.textContent("h1")).trim().split("  ")[0];
  const reference = (await page.textContent(".facts-line")).match(/[A-Z2-8]{4}-[A-Z2-8]{4}/)[0];
  const where = page.url();
  assert.match(await page.textContent(".keeping"), /kept until \d+ \w+ \d{4}/);
  const file = page.waitForEvent("download");
  await page.click(".keeping a");
  assert.equal((await file).suggestedFilename(), `${reference}.zip`);

  await page.focus("#delete");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.id === "delete-ask");
  assert.match(await page.textContent("#delete-ask"), new RegExp(reference));
  // The same key again does nothing: deleting takes another press at another place.
  await page.keyboard.press("Enter");
  assert.deepEqual(await axe(page), []);
  await noOverflow(page);
  await page.screenshot({ path: `${PICTURES}/installer-delete.png` });
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter"); // keep it
  await page.waitForFunction(() => document.activeElement.id === "delete");

  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.id === "delete-ask");
  await page.context().setOffline(true);
  for (const key of ["Tab", "Tab", "Enter"]) await page.keyboard.press(key);
  await page.waitForSelector(".keeping .error");
  await page.context().setOffline(false);
  await page.focus("#delete-now");
  await page.keyboard.press("Enter");
  await page.waitForSelector("#deleted");
  await page.waitForFunction(() => document.activeElement.id === "deleted");
  const told = await page.textContent("#deleted");
  assert.ok(told.includes(reference) && /photo/.test(told) && told.includes(name.split(" ")[0]), told);
  await page.waitForFunction((n) => document.querySelectorAll("a[data-row]").length === n, before - 1);
  assert.doesNotMatch(page.url(), /enquiry/);
  assert.deepEqual(await axe(page), []);
  await page.evaluate((where) => (location.href = where), where);
  await page.waitForFunction(() => document.body.textContent.includes("There is no such enquiry"));
  page.problems = page.problems.filter((problem) => !/404/.test(problem)); // it is gone
  await leave(page);
});

test("where the program itself fails, the page says how to go on", async () => {
  const page = await signedIn();
  await page.evaluate(() => document.querySelector("[role=status]").remove()); // as an extension might
  await page.evaluate(() => (location.hash = `#/enquiry/${"0".repeat(32)}`));
  await page.waitForSelector("body > .notice[role=alert]");
  assert.match(await page.textContent("body > .notice"), /load the page again/);
  await page.context().close();
});
