// What is told besides the enquiry itself: what could not be sent, the homeowner's copy, how to delete it later, and what stays of a job.
import assert from "node:assert/strict";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { PHONE, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { answer, goOn, openForm } from "./lib/form.mjs";
import { mailServer } from "./lib/mail-server.mjs";
import { serve } from "./lib/serve.mjs";

const SETUP = JSON.parse(await readFile(new URL("../../src/model/config/demo-setup.json", import.meta.url), "utf8"));
const PERSON = { name: "Invented Homeowner", telephone: "01632 960 125", email: "person@example.invalid" };

let browser, folder;
const running = [];
before(async () => {
  browser = await launch();
  folder = await mkdtemp(join(tmpdir(), "presurvey-telling-"));
  await mkdir(PICTURES, { recursive: true });
});
after(async () => {
  await browser?.close();
  await Promise.all(running.map((one) => one.stop()));
  await rm(folder, { recursive: true, force: true });
});

let services = 0;
/** A service that mails by `host`; with `copies` it offers homeowners a copy. */
async function serving(host, copies) {
  const setup = join(folder, `setup-${services++}.json`);
  await writeFile(setup, JSON.stringify({ ...SETUP, mail: { ...host.setup, copies } }));
  const service = await serve({ setup, data: await mkdtemp(join(folder, "data-")) });
  running.push(service);
  return service;
}

async function mailHost() {
  const host = await mailServer();
  running.push(host);
  return host;
}

/** Sends a plain form, as a website does. */
async function post(service, fields = {}) {
  const form = new FormData();
  for (const [name, value] of Object.entries({ ...PERSON, postcode: "ZZ1 1AA", ...fields })) form.append(name, value);
  const sent = await fetch(`${service.origin}/api/enquiries`, { method: "POST", body: form, headers: { accept: "application/json" } });
  assert.equal(sent.status, 201);
  return sent.json();
}

/** The installer's page, signed in. */
async function desk(service, viewport = PHONE) {
  const page = await openPage(browser, { viewport });
  await page.goto(service.triage);
  await page.fill("#password", service.password);
  await page.keyboard.press("Enter");
  await page.waitForSelector("a[data-row]");
  return page;
}

const noOverflow = async (page) => assert.equal(await page.evaluate(() => Math.max(0, document.documentElement.scrollWidth - innerWidth)), 0);

async function leave(page) {
  assert.deepEqual(page.problems.filter((problem) => !/401/.test(problem)), []);
  await page.context().close();
}

async function until(holds, what) {
  for (const late = Date.now() + 60_000; ; await new Promise((wait) => setTimeout(wait, 100))) {
    const found = await holds();
    if (found) return found;
    if (Date.now() > late) throw new Error(`not in time: ${what}`);
  }
}

test("what could not be sent is said at the top of the installer's page, with the reason", async () => {
  const host = await mailServer();
  await host.stop(); // away
  const service = await serving(host, false);
  for (const name of ["One", "Another"]) await post(service, { name });
  const page = await desk(service);
  await until(async () => {
    await page.reload();
    await page.waitForSelector("a[data-row]");
    return /2 mails could not be sent: localhost does not answer/.test((await page.locator(".unsent").allTextContents()).join());
  }, "both are said");
  assert.match(await page.textContent(".unsent"), /The service goes on trying/);
  assert.equal(await page.locator(".unsent").count(), 1, "of webhooks nothing is said");
  const above = await page.evaluate(() => document.querySelector(".unsent").getBoundingClientRect().top < document.querySelector("a[data-row]").getBoundingClientRect().top);
  assert.ok(above);
  await noOverflow(page);
  assert.deepEqual(await axe(page), []);
  await page.screenshot({ path: `${PICTURES}/installer-unsent.png` });
  await leave(page);
});

test("a copy comes to whoever ticks for one, and the form shows a link that deletes what was sent", async () => {
  const host = await mailHost();
  const service = await serving(host, true);
  const page = await openPage(browser);
  await openForm(page, `${service.origin}/`);
  await answer(page, "hazard", ["discolouration"]);
  await answer(page, "hazard-place", "board");
  await goOn(page);
  await page.locator("#c-name").fill(PERSON.name);
  await page.locator("#c-note").fill("typed-marker");
  assert.equal(await page.locator("#c-copy").count(), 0, "there is no address yet");
  await page.locator("#c-email").fill(PERSON.email);
  assert.equal(await page.locator("#c-copy").isChecked(), false);
  await page.locator("#c-copy").check();
  assert.deepEqual(await axe(page), []);
  await noOverflow(page);
  await page.locator("#c-email").scrollIntoViewIfNeeded();
  await page.screenshot({ path: `${PICTURES}/form-copy.png` });
  await goOn(page);
  const reference = (await page.locator(".sent .reference").textContent()).trim();
  await until(() => host.handed.length === 2, "the mail and the copy");
  const copy = host.handed.find((mail) => mail.envelope.rcptTo[0].address === PERSON.email);
  assert.equal(copy.envelope.rcptTo.length, 1);
  const raw = copy.raw.replace(/=\r\n/g, "").replaceAll("\r", "");
  assert.match(raw, new RegExp(`^Subject: Copy of your enquiry \\(${reference}\\)$`, "m"));
  assert.match(raw, /^Reply-To: enquiries@installer\.invalid$/m);
  assert.ok(!/typed-marker|Invented Homeowner/.test(raw), raw);

  const link = page.locator(".adding .link a");
  await link.waitFor();
  const href = await link.evaluate((one) => one.href);
  assert.match(href, new RegExp(`^${service.origin}/api/enquiries/[0-9a-f]{32}/deletion#[0-9a-f]{32}$`));
  assert.deepEqual(await axe(page), []);
  await noOverflow(page);
  await link.scrollIntoViewIfNeeded();
  await page.screenshot({ path: `${PICTURES}/form-sent-delete.png` });
  const back = await openPage(browser);
  await back.goto(href);
  await back.click("button");
  await back.waitForSelector("h1:has-text('It is deleted')");
  assert.ok((await back.textContent("body")).includes(reference));
  await leave(back);
  await leave(page);
});

test("the plain form offers the copy, says how long it took, and shows the link that deletes", async () => {
  const host = await mailHost();
  const service = await serving(host, true);
  const page = await openPage(browser);
  await page.route("**/*.wasm", (route) => route.abort());
  let sent;
  page.on("request", (request) => {
    if (request.method() === "POST") sent = request.postData();
  });
  await openForm(page, `${service.origin}/`);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator("form.contact #c-note").waitFor({ timeout: 60_000 });
  await page.locator("#c-name").fill(PERSON.name);
  await page.locator("#c-email").fill(PERSON.email);
  await page.locator("#c-copy").check();
  await page.screenshot({ path: `${PICTURES}/plain-copy.png`, fullPage: true });
  await page.locator("button.main").click();
  await page.locator(".sent .reference").waitFor();
  assert.match(sent, /name="seconds"\r\n\r\n\d+\r\n/);
  await until(() => host.handed.some((mail) => mail.envelope.rcptTo[0].address === PERSON.email) || host.handed.length === 1, "a mail");
  const href = await page.locator(".taking-back a").evaluate((one) => one.href);
  assert.match(href, /\/api\/enquiries\/[0-9a-f]{32}\/deletion#[A-Z2-8-]{29}$/);
  assert.deepEqual(await axe(page), []);
  await page.screenshot({ path: `${PICTURES}/plain-sent.png`, fullPage: true });
  const back = await openPage(browser);
  await back.goto(href);
  await back.click("button");
  await back.waitForSelector("h1:has-text('It is deleted')");
  await leave(back);
  page.problems = page.problems.filter((problem) => !/wasm|ERR_FAILED/.test(problem));
  await leave(page);
});

test("a job is marked, what stays of it is said at deleting, and it is listed apart", async () => {
  const host = await mailHost();
  const service = await serving(host, false);
  await post(service, { name: "Invented Other" });
  const { reference, deletion_secret: secret } = await post(service);
  const page = await desk(service);
  await page.click(`a[data-row]:has-text("${PERSON.name}")`).catch(() => page.click(`li.row:has-text("${PERSON.name}") a[data-row]`));
  await page.waitForSelector(".keeping");
  await page.click(".job summary");
  await page.check('.job label:has-text("An invoice") input');
  await page.check('.job label:has-text("A certificate") input');
  const year = new Date().getFullYear() + 6;
  await page.fill("#job-until", `${year}-04-05`);
  assert.deepEqual(await axe(page), []);
  await noOverflow(page);
  await page.locator(".job").scrollIntoViewIfNeeded();
  await page.screenshot({ path: `${PICTURES}/installer-job.png` });
  await page.click("#job-store");
  await page.waitForFunction((year) => document.querySelector(".job").textContent.includes(`until 5 April ${year}`), year);
  await page.reload();
  await page.waitForSelector(".job[open]");
  assert.equal(await page.isChecked('.job label:has-text("An invoice") input'), true);

  // The whole question stands above the main button at the foot.
  await page.setViewportSize({ width: 360, height: 640 });
  await page.click("#delete");
  await page.waitForFunction(() => document.activeElement.id === "delete-ask");
  const [buttons, bar] = await page.evaluate(() => ["#delete-now", ".act"].map((one) => document.querySelector(one).getBoundingClientRect().toJSON()));
  assert.ok(buttons.bottom <= bar.top, `${buttons.bottom} above ${bar.top}`);
  assert.match(await page.textContent("#delete-ask"), /As it became a job/);
  await page.screenshot({ path: `${PICTURES}/installer-delete-whole.png` });
  await page.click(".keeping .notice button"); // keep it

  // The homeowner deletes it.
  const key = new URL(page.url()).hash.match(/[0-9a-f]{32}/)[0];
  const back = await openPage(browser);
  await back.goto(`${service.origin}/api/enquiries/${key}/deletion#${secret}`);
  await back.click("button");
  await back.waitForSelector("h1:has-text('It is deleted')");
  const told = await back.textContent("body");
  assert.ok(told.includes(`until 5 April ${year}`) && /an invoice; a certificate/.test(told), told);
  await back.screenshot({ path: `${PICTURES}/deleted-kept.png` });
  await leave(back);

  await page.click(".back a");
  await page.reload();
  await page.waitForSelector(".apart");
  await page.click(".apart summary");
  assert.match(await page.textContent(".apart"), new RegExp(`${PERSON.name}, ZZ1 1AA, ${reference}: An invoice; A certificate, until 5 April ${year}`));
  assert.deepEqual(await axe(page), []);
  await noOverflow(page);
  await page.screenshot({ path: `${PICTURES}/installer-apart.png` });
  await leave(page);
});
