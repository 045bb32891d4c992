// Sending over a bad line: tried until it is through, once, and nothing half kept; and the ways that need no service.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { execFile } from "node:child_process";
import { mkdir, mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { promisify } from "node:util";
import { fileURLToPath } from "node:url";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { PICTURES, launch, openPage } from "./lib/browser.mjs";
import { badLine } from "./lib/cut.mjs";
import { answer, goOn, openForm, result, walkCore } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { receiver } from "./lib/receiver.mjs";
import { presurvey } from "./lib/program.mjs";
import { pasted } from "./lib/readme.mjs";
import { programPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";
import { filesOf } from "./lib/zip.mjs";

const run = promisify(execFile);
const PERSON = { name: "Invented Homeowner", telephone: "01632 960 125" };
const drawing = (name) => fileURLToPath(new URL(`../../src/service/demo/drawings/${name}.jpg`, import.meta.url));

let service, browser;
const closing = [];
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
  await mkdir(PICTURES, { recursive: true });
});
after(async () => {
  await browser?.close();
  await Promise.all(closing.map((one) => one.stop()));
  await service?.stop();
});

const line = async () => (closing.push(await badLine(service.origin)), closing.at(-1));
const isSending = ({ method, url }) => (method === "POST" && url.endsWith("/api/enquiries")) || method === "PUT";
const sha256 = (bytes) => createHash("sha256").update(bytes).digest("hex");

/** The shortest way to Send: something was noticed. */
async function toContact(page, address) {
  await openForm(page, address);
  await answer(page, "hazard", ["discolouration"]);
  await answer(page, "hazard-place", "board");
  await goOn(page);
  await page.locator("#c-name").waitFor();
  await fillIn(page);
}

async function fillIn(page) {
  await page.locator("#c-name").fill(PERSON.name);
  await page.locator("#c-telephone").fill(PERSON.telephone);
}

/** Says again and again that the line is back, as a browser does that finds one, until it has gone through. */
async function untilSent(page) {
  const through = () => {
    dispatchEvent(new Event("online"));
    return document.querySelector("presurvey-form").shadowRoot.querySelector(".sent .reference")?.textContent.trim();
  };
  return (await page.waitForFunction(through, undefined, { polling: 50, timeout: 120_000 })).jsonValue();
}

/** What the service keeps under this reference; that there is one enquiry of this key, and that its photos are whole. */
async function kept(reference) {
  const desk = await openPage(browser);
  await signIn(desk, service);
  const found = await enquiryOf(desk, service, reference);
  await desk.context().close();
  const listed = found.enquiry.payload.photos.map((photo) => photo.sha256);
  assert.deepEqual([...found.photos_arrived].sort(), [...listed].sort(), "every photo arrived");
  const folder = join(service.data, "photos");
  const stored = listed.length ? await readdir(join(folder, found.client_key)) : [];
  assert.deepEqual(stored.sort(), [...listed].sort(), "nothing else lies beside them");
  for (const name of stored) assert.equal(sha256(await readFile(join(folder, found.client_key, name))), name);
  assert.deepEqual(await readdir(join(folder, ".arriving")).catch(() => []), [], "nothing is half stored");
  return found;
}

/** The enquiries of this key that the service has; asked past the page, of the installer's list. */
async function countOf(person) {
  const desk = await openPage(browser);
  await signIn(desk, service);
  const list = await (await desk.request.get(`${service.origin}/api/installer/enquiries?limit=200`)).json();
  await desk.context().close();
  return list.enquiries.filter((row) => row.name === person).length;
}

test("cut at each tenth of the enquiry and of each photo it is one enquiry with whole photos", async () => {
  const bad = await line();
  const page = await openPage(browser);
  const failures = [];
  await page.exposeFunction("heardFailure", (detail) => failures.push(detail));
  await page.addInitScript(() => addEventListener("presurvey-failed", (event) => heardFailure(event.detail)));
  await openForm(page, `${bad.origin}/`);
  const drawings = ["drive", "head-plain", "board-spare"];
  await walkCore(page, await storyOf("easy-detached"), async () => {
    const choose = page.locator(".photos input[type=file]").last();
    if ((await choose.count()) === 0) return;
    await choose.setInputFiles(drawing(drawings.shift()));
    await page.locator(".photos figure img").waitFor();
  });
  assert.deepEqual(drawings, [], "three photos were taken");
  await goOn(page);
  await page.locator("#c-name").waitFor();
  await fillIn(page);
  await page.locator("#c-name").fill("Invented Homeowner on a bad line");

  const tries = new Map();
  bad.plan = (request) => {
    if (!isSending(request)) return undefined;
    const before = tries.get(request.url) ?? 0;
    tries.set(request.url, before + 1);
    // Nothing of the body, each tenth of it, and all of it without an answer.
    return before < 10 ? Math.floor((Number(request.headers["content-length"]) * before) / 10) : before === 10 ? "after" : undefined;
  };
  await goOn(page);
  await page.locator(".waiting-to-go").waitFor();
  const reference = await untilSent(page);
  assert.equal(tries.size, 4, "the enquiry and three photos");
  for (const [url, count] of tries) assert.ok(count >= 11, `${url} was tried ${count} times`);
  const found = await kept(reference);
  assert.equal(found.enquiry.payload.photos.length, 3);
  assert.equal(await countOf("Invented Homeowner on a bad line"), 1);
  assert.ok(failures.length >= 1 && failures.every((detail) => JSON.stringify(detail) === '{"reason":"no-answer"}'), JSON.stringify(failures));
});

test("what waits to go says so, goes by itself at the next visit, and is one enquiry", async () => {
  const bad = await line();
  const page = await openPage(browser);
  await toContact(page, `${bad.origin}/`);
  await page.locator("#c-name").fill("Invented Homeowner without signal");
  // It is taken in, but the answer never comes back: the homeowner's device can't know.
  bad.plan = (request) => (isSending(request) ? "after" : undefined);
  await goOn(page);
  const waiting = page.locator(".waiting-to-go");
  await waiting.waitFor();
  assert.match(await waiting.innerText(), /kept on this device/);
  assert.match(await waiting.innerText(), /when you open it again/);
  assert.deepEqual(await axe(page), []);
  await page.screenshot({ path: `${PICTURES}/sending-waiting.png`, fullPage: true });
  await page.close();
  bad.plan = () => undefined;
  const next = await page.context().newPage();
  await next.goto(`${bad.origin}/`);
  const reference = await untilSent(next);
  await kept(reference);
  assert.equal(await countOf("Invented Homeowner without signal"), 1);
});

/** A page with an enquiry that waits for a line, which does not come. */
async function waitingToGo() {
  const bad = await line();
  const page = await openPage(browser);
  await toContact(page, `${bad.origin}/`);
  bad.plan = (request) => (isSending(request) ? 0 : undefined);
  await goOn(page);
  await page.locator(".waiting-to-go button").waitFor();
  return { bad, page };
}

/** Calls it off; then the line is back, and the page is loaded again after `meanwhile`: the enquiry is offered, and nothing was sent. */
async function callsOff({ bad, page }, meanwhile = () => {}) {
  await page.locator(".waiting-to-go button").click();
  await page.locator(".waiting-to-go").waitFor({ state: "detached" });
  bad.plan = () => undefined;
  const posts = () => bad.seen.filter((entry) => entry.method === "POST").length;
  const before = posts();
  await meanwhile();
  await page.reload();
  await page.locator("[data-does=on]").click();
  await page.locator("#c-name").waitFor();
  assert.equal(posts(), before, "nothing was sent");
}

test("called off it is not sent, and can be sent again", async () => {
  const { bad, page } = await waitingToGo();
  await callsOff({ bad, page }, async () => {
    await page.evaluate(() => dispatchEvent(new Event("online")));
    assert.ok(await page.locator("button.main").isEnabled());
  });
  await goOn(page);
  await kept(await untilSent(page));
});

test("called off and gone before the device has stored that, it is offered and not sent", async () => {
  const { bad, page } = await waitingToGo();
  await page.waitForFunction(() => Object.values(localStorage).includes("queued"));
  // From here on the database takes nothing until the page is opened again.
  await page.evaluate(() => (IDBDatabase.prototype.transaction = () => ({ objectStore: () => new Proxy({}, { get: () => () => ({}) }) })));
  await callsOff({ bad, page });
});

test("a service that asks to wait is left alone for that long", async () => {
  const bad = await line();
  const page = await openPage(browser);
  await toContact(page, `${bad.origin}/`);
  const posts = () => bad.seen.filter((entry) => entry.method === "POST").length;
  let times = 0;
  bad.plan = (request) => (isSending(request) && times++ === 0 ? { status: 503, headers: { "retry-after": "600" } } : undefined);
  await page.clock.install();
  await goOn(page);
  await page.locator(".waiting-to-go").waitFor();
  await page.evaluate(() => dispatchEvent(new Event("online")));
  await page.clock.runFor(599_000);
  assert.equal(posts(), 1);
  await page.clock.runFor(2_000);
  await page.locator(".sent .reference").waitFor();
  assert.equal(posts(), 2);
});

test("a refusal is said in the service's words, not tried again, and other ways are offered", async () => {
  const bad = await line();
  const page = await openPage(browser);
  await toContact(page, `${bad.origin}/`);
  const body = JSON.stringify({ error: "this is an invented refusal" });
  bad.plan = (request) => (isSending(request) ? { status: 422, headers: { "content-type": "application/json" }, body } : undefined);
  const heard = page.evaluate(() => new Promise((yes) => addEventListener("presurvey-failed", (event) => yes(event.detail))));
  await goOn(page);
  await page.locator(".trouble", { hasText: "this is an invented refusal" }).waitFor();
  assert.deepEqual(await heard, { reason: "refused" });
  assert.equal(bad.seen.filter((entry) => entry.method === "POST").length, 1);
  await page.locator(".ways button").first().waitFor();
  assert.deepEqual(await axe(page), []);
  await page.screenshot({ path: `${PICTURES}/sending-ways.png`, fullPage: true });
});

/** A page of an invented website with the form on it, the service's files beside it; gives back its address. */
async function hostPage(attributes) {
  const site = await line();
  const body = `<!doctype html><html lang="en"><title>Invented website</title><link rel="icon" href="data:,"><script type="module" src="/presurvey.js"></script>
    <main><h1>Invented website</h1><presurvey-form config="/api/config" installer="Invented Installer" telephone="01632 960 000"
    ${await attributes(site.origin)}></presurvey-form></main>`;
  const page = { status: 200, headers: { "content-type": "text/html" }, body };
  site.plan = (request) => (request.url === "/host.html" ? page : undefined);
  return `${site.origin}/host.html`;
}

test("where nothing takes it, it can be shared, saved whole, copied, and written", async () => {
  const page = await openPage(browser, { permissions: ["clipboard-read", "clipboard-write"], acceptDownloads: true });
  await page.addInitScript(() => {
    navigator.canShare = () => true;
    navigator.share = async ({ text, files = [] }) => {
      globalThis.shared = { text, files: files.map((file) => [file.name, file.type, file.size]) };
    };
  });
  const address = await hostPage(() => 'email="enquiries@installer.invalid"');
  await openForm(page, address);
  await answer(page, "hazard", ["none"]);
  await walkCore(page, await storyOf("easy-detached"), undefined, ".photos");
  await page.locator(".photos input[type=file]").last().setInputFiles(drawing("drive"));
  await page.locator(".photos figure img").waitFor();
  await walkCore(page, await storyOf("easy-detached"));
  await goOn(page);
  await page.locator("#c-name").waitFor();
  await fillIn(page);
  const failed = page.evaluate(() => new Promise((yes) => addEventListener("presurvey-failed", (event) => yes(event.detail))));
  await goOn(page);
  assert.deepEqual(await failed, { reason: "nowhere" });
  const ways = page.locator(".ways");
  await ways.locator("button").first().waitFor();
  assert.deepEqual(await axe(page), []);

  await ways.getByRole("button", { name: "Share it" }).click();
  const shared = await (await page.waitForFunction(() => globalThis.shared)).jsonValue();
  assert.match(shared.text, /Name: Invented Homeowner/);
  assert.deepEqual(shared.files.map(([name, type]) => [name, type]), [["photo-1.jpg", "image/jpeg"]]);

  const coming = page.waitForEvent("download");
  await ways.getByRole("button", { name: "Save it" }).click();
  const files = filesOf(await readFile(await (await coming).path()));
  assert.deepEqual(Object.keys(files), ["enquiry.txt", "enquiry.json", "photo-1.jpg"]);
  const record = JSON.parse(files["enquiry.json"]);
  assert.equal(record.payload.contact.name, PERSON.name);
  assert.equal(sha256(files["photo-1.jpg"]), record.payload.photos[0].sha256);

  await ways.getByRole("button", { name: "Copy the text" }).click();
  await ways.getByText("Copied.").waitFor();
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  assert.equal(copied, files["enquiry.txt"].toString());
  const href = (name) => ways.getByRole("link", { name }).getAttribute("href");
  assert.equal(decodeURIComponent((await href("text message")).replace("sms:01632960000?body=", "")), copied);
  assert.ok((await href("e-mail")).startsWith("mailto:enquiries@installer.invalid?body="));
  assert.equal(page.url(), address);
});

test("an ordinary web host's mail form takes it as one post with its photos", async () => {
  let host;
  const address = await hostPage(async (origin) => {
    closing.push((host = await receiver(`'origins' => ['${origin}']`)));
    return `submit="${host.address}" submit-as="multipart"`;
  });
  const page = await openPage(browser);
  await toContact(page, address);
  await goOn(page);
  await page.locator(".sent .reference").waitFor();
  const reference = (await page.locator(".sent .reference").textContent()).trim();
  assert.equal(await page.locator(".sent .adding").count(), 0, "nothing can be added where no service is");
  const [mail, ...others] = await host.mails();
  assert.deepEqual(others, []);
  assert.equal(mail.headers.subject, `Enquiry ${reference}`);
  assert.match(mail.text, /UNSAFE[^]*Name: Invented Homeowner/);
  const record = JSON.parse(mail.attached["enquiry.json"]);
  assert.deepEqual(record.payload.answers.hazard, { signs: ["discolouration"], place: "board" });
  const elsewhere = page.problems.filter((problem) => !problem.startsWith("another origin:"));
  assert.deepEqual(elsewhere, []);
});

test("the mail says in English what was worked out, as far as a visitor may see it, and its record is opened as README says", async () => {
  const folder = await mkdtemp(join(tmpdir(), "presurvey-mail-"));
  const file = (name) => join(folder, name);
  const setup = JSON.parse(await readFile(new URL("../../src/model/config/demo-setup.json", import.meta.url), "utf8"));
  setup.prices_shown = { straightforward: "from" };
  setup.wording = { "summary-class": "Said of { $installer }’s job" };
  await writeFile(file("my-setup.json"), JSON.stringify(setup));
  const config = await presurvey(["publish", file("my-setup.json")]);

  let host;
  const address = await hostPage(async (origin) => {
    closing.push((host = await receiver(`'origins' => ['${origin}']`)));
    return `submit="${host.address}" submit-as="multipart" language="pl"`;
  });
  const page = await openPage(browser);
  await page.route("**/api/config", (route) =>
    route.fulfill({ body: config, contentType: "application/json", headers: { "access-control-allow-origin": "*" } }),
  );
  await openForm(page, address);
  await answer(page, "hazard", ["none"]);
  await walkCore(page, await storyOf("easy-detached"), undefined, ".photos");
  await page.locator(".photos input[type=file]").last().setInputFiles(drawing("drive"));
  await page.locator(".photos figure img").waitFor();
  await walkCore(page, await storyOf("easy-detached"));
  await result(page);
  assert.equal(await page.locator("presurvey-form .form").getAttribute("lang"), "pl");
  await goOn(page);
  await page.locator("#c-name").waitFor();
  await fillIn(page);
  await goOn(page);
  await page.locator(".sent .reference").waitFor();

  const [mail] = await host.mails();
  assert.match(mail.text, /\nFilled in in: pl\nPhotos: 1\n\nSaid of Invented Installer’s job: A straightforward job/, mail.text);
  assert.match(mail.text, /\nPrice shown to the homeowner: From £[\d,]+\n[^\n]*not a quotation\.\n/);
  assert.match(mail.text, /\nWhat to know beforehand\n- /);
  assert.ok(mail.text.indexOf("What to know beforehand") < mail.text.indexOf("- What is the postcode?"), mail.text);
  assert.equal(mail.text.match(/£/g).length, 1, "no other sum is told");
  assert.doesNotMatch(mail.text, /[ąćęłńśźż{}]/);

  await Promise.all(Object.entries(mail.attached).map(([name, bytes]) => writeFile(file(name), bytes)));
  const [assess, take] = pasted("opened", service.origin).split("\n");
  const shell = (line) => run("sh", ["-c", line], { cwd: folder, env: { ...process.env, PATH: `${dirname(programPath())}:${process.env.PATH}` } });
  const assessment = JSON.parse((await shell(assess)).stdout);
  assert.equal(assessment.config, JSON.parse(config).version);
  assert.deepEqual(assessment.flags, JSON.parse(mail.attached["enquiry.json"]).payload.assessment.flags);
  // One photo was taken; the line has two.
  assert.deepEqual(Object.keys(mail.attached).sort(), ["enquiry.json", "photo-1.jpg"]);
  const receipt = JSON.parse((await shell(take.replace(" -F photo=@photo-2.jpg", ""))).stdout);
  const found = await kept(receipt.reference);
  assert.equal(found.photos_arrived.length, 1);
  assert.equal(found.enquiry.payload.contact.name, PERSON.name);
  assert.equal(found.own_assessment.complexity, "straightforward");
  await rm(folder, { recursive: true });
});
