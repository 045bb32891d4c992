// Signing in on the installer's page: by password alone as before, with a code where one is asked for, and what a colleague is not offered.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { createHmac } from "node:crypto";
import { once } from "node:events";
import { mkdir } from "node:fs/promises";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { DESK, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { programPath, serve } from "./lib/serve.mjs";

const PHONE = { width: 360, height: 740 };
const STEP = 30; // seconds that a code lasts: RFC 6238, 5.2
const PASSWORD = "an invented password";

let browser, service;
before(async () => {
  [browser, service] = await Promise.all([launch(), serve()]);
  await mkdir(PICTURES, { recursive: true });
  for (const [name, role] of [["sam", "colleague"], ["alex", "owner"]]) account(["add", "--name", name, "--role", role], PASSWORD);
});
after(() => Promise.all([browser?.close(), service?.stop()]));

/** Runs `presurvey account` on the data of the service that runs. */
const account = (words, input = "") => execFileSync(programPath(), ["account", ...words, "--data", service.data], { input });

/** The secret in the base32 of RFC 4648, as bytes. */
function bytesOf(base32) {
  const bits = [...base32].map((sign) => "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".indexOf(sign).toString(2).padStart(5, "0")).join("");
  return Buffer.from(bits.match(/.{8}/g).map((byte) => parseInt(byte, 2)));
}

/** The code of a secret, so many steps from now: RFC 4226, 5.3 and RFC 6238, 4.2. */
function code(secret, ahead = 0) {
  const counter = Buffer.alloc(8);
  counter.writeBigUInt64BE(BigInt(Math.floor(Date.now() / 1000 / STEP) + ahead));
  const digest = createHmac("sha1", secret).update(counter).digest();
  const number = digest.readUInt32BE(digest[19] & 15) & 0x7fffffff;
  return String(number % 1e6).padStart(6, "0");
}

/** Has codes asked for, as an app that takes the printed address does; returns its secret. */
async function turnOn(name) {
  const child = spawn(programPath(), ["account", "totp", "--data", service.data, "--name", name]);
  let printed = "";
  child.stdout.setEncoding("utf8");
  while (!/secret: .*\n/.test(printed)) printed += (await once(child.stdout, "data"))[0];
  const secret = bytesOf(new URL(printed.split("\n")[0]).searchParams.get("secret"));
  const ended = once(child, "close");
  child.stdin.end(`${code(secret)}\n`);
  assert.equal((await ended)[0], 0);
  return secret;
}

async function opened(viewport = PHONE) {
  const page = await openPage(browser, { viewport });
  await page.goto(service.triage);
  await page.waitForSelector("#password");
  return page;
}

/** Closes the page; what went wrong in it besides a refused sign-in is a failure. */
async function leave(page) {
  assert.deepEqual(page.problems.filter((problem) => !/401/.test(problem)), []);
  await page.context().close();
}

const focused = (page) => page.evaluate(() => document.activeElement.id);
const said = (page) => page.textContent("[role=status]");
const noOverflow = async (page) => assert.equal(await page.evaluate(() => Math.max(0, document.documentElement.scrollWidth - innerWidth)), 0);

async function looksWell(page, name) {
  assert.deepEqual(await axe(page), []);
  await noOverflow(page);
  const low = await page.$$eval("button, input", (all) => all.filter((one) => one.offsetParent && (one.closest("label") ?? one).getBoundingClientRect().height < 43.5).map((one) => one.id));
  assert.deepEqual(low, []);
  for (const [size, viewport] of [["phone", PHONE], ["desk", DESK]]) {
    await page.setViewportSize(viewport);
    await page.screenshot({ path: `${PICTURES}/installer-${name}-${size}.png` });
  }
  await page.setViewportSize(PHONE);
}

test("the owner signs in by the password alone, and browsers know which field is which", async () => {
  const page = await opened();
  assert.equal(await focused(page), "password");
  assert.equal(await page.inputValue("#name"), "owner");
  assert.deepEqual(
    await page.$$eval(".sign-in input", (all) => all.map((one) => one.autocomplete)),
    ["username", "current-password"],
  );
  await looksWell(page, "sign-in");
  await page.keyboard.type(service.password);
  await page.keyboard.press("Enter");
  await page.waitForSelector("a[data-row]");
  await page.click("a[data-row]");
  await page.waitForSelector("#delete");
  assert.ok(await page.$(".keeping a[download]"));
  await leave(page);
});

test("a code is asked for, a wrong one is said at its field, the right one opens the list and is taken once", async () => {
  const secret = await turnOn("alex");
  const page = await opened();
  await page.fill("#name", "alex");
  await page.focus("#password");
  await page.keyboard.type(PASSWORD);
  await page.keyboard.press("Enter");
  await page.waitForSelector("#code");
  await page.waitForFunction(() => document.activeElement.id === "code");
  assert.match(await said(page), /code from your app/);
  assert.deepEqual(await page.$eval("#code", (one) => [one.inputMode, one.autocomplete]), ["numeric", "one-time-code"]);
  await looksWell(page, "code");
  const near = [-2, -1, 0, 1, 2].map((ahead) => code(secret, ahead));
  const wrong = [...Array(9).keys()].map((digit) => `${digit}`.repeat(6)).find((guess) => !near.includes(guess));
  await page.keyboard.type(wrong);
  await page.keyboard.press("Enter");
  await page.waitForSelector("#code-error");
  assert.match(await said(page), /not right/);
  assert.match(await page.getAttribute("#code", "aria-describedby"), /code-error/);
  await page.waitForFunction(() => document.activeElement.id === "code" && document.activeElement.value === "");
  await looksWell(page, "wrong-code");
  const right = code(secret, 1); // the one of now was taken when codes were turned on
  await page.keyboard.type(`${right.slice(0, 3)} ${right.slice(3)}`);
  await page.keyboard.press("Enter");
  await page.waitForSelector("a[data-row]");
  await leave(page);

  const another = await opened();
  await another.fill("#name", "alex");
  await another.fill("#password", PASSWORD);
  await another.keyboard.press("Enter");
  await another.waitForSelector("#code");
  await another.fill("#code", right);
  await another.keyboard.press("Enter");
  await another.waitForSelector("#code-error");
  // A password that is changed to a wrong one is said at its own field, which has the focus then.
  await another.fill("#code", right);
  await another.fill("#password", "not this one at all");
  await another.keyboard.press("Enter");
  await another.waitForSelector("#password-error");
  await another.waitForFunction(() => document.activeElement.id === "password");
  assert.equal(await another.$("#code-error"), null);
  await leave(another);
});

test("a colleague is offered neither Delete nor export, and goes on by their own name when the session ends", async () => {
  const page = await opened();
  await page.fill("#name", "Sam");
  await page.fill("#password", PASSWORD);
  await page.keyboard.press("Enter");
  await page.waitForSelector("a[data-row]");
  await page.click("a[data-row]");
  await page.waitForSelector(".keeping");
  assert.equal(await page.$("#delete"), null);
  assert.equal(await page.$(".keeping a"), null);
  assert.match(await page.textContent(".keeping"), /Only an owner can/);
  await page.locator(".keeping").scrollIntoViewIfNeeded();
  await looksWell(page, "colleague");
  const where = page.url();
  account(["reset", "--name", "sam"]);
  await page.click(".act button");
  await page.waitForSelector("#password");
  assert.equal(await page.inputValue("#name"), "sam");
  await page.fill("#password", PASSWORD);
  await page.keyboard.press("Enter");
  await page.waitForSelector(".keeping");
  assert.equal(page.url(), where);
  await leave(page);
});
