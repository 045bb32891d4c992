// A further installer's pages in a real browser: an enquiry sent by the page under their id reaches them and nobody else, nothing on the page
// is another's, and drafts and the page kept for when there is no network are their own.
import assert from "node:assert/strict";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { DESK, PHONE, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { answer, goOn, openForm } from "./lib/form.mjs";
import { signIn } from "./lib/installer.mjs";
import { presurvey } from "./lib/program.mjs";
import { serve } from "./lib/serve.mjs";

const SETUP = JSON.parse(await readFile(new URL("../../src/model/config/demo-setup.json", import.meta.url), "utf8"));
const NAME = "Second & Daughters";
const PASSWORD = "another invented password";
const PERSON = { name: "Invented Homeowner", telephone: "01632 960 125" };

let folder, browser, service, second;
before(async () => {
  folder = await mkdtemp(join(tmpdir(), "presurvey-installers-"));
  const written = async (id, installer) => {
    const file = join(folder, `${id}.json`);
    const setup = { ...SETUP, mail_to: undefined, installer: { ...SETUP.installer, id, ...installer } };
    await writeFile(file, JSON.stringify(setup));
    return file;
  };
  const first = await written("first-firm", {});
  const further = await written("second-firm", { name: NAME, telephone: "01632 960 777" });
  const data = join(folder, "data");
  await presurvey(["password", "--data", data, "--installer", "second-firm"], PASSWORD);
  [service, browser] = await Promise.all([serve({ setup: first, data, args: ["--setup", further] }), launch()]);
  const at = `${service.origin}/second-firm`;
  second = { form: `${at}/`, triage: `${at}/installer/`, password: PASSWORD, origin: service.origin, at };
  await mkdir(PICTURES, { recursive: true });
});
after(async () => {
  await Promise.all([browser?.close(), service?.stop()]);
  await rm(folder, { recursive: true, force: true });
});

async function sent(page, address) {
  await openForm(page, address);
  await answer(page, "hazard", ["discolouration"]);
  await answer(page, "hazard-place", "board");
  await goOn(page);
  await page.locator("#c-name").fill(PERSON.name);
  await page.locator("#c-telephone").fill(PERSON.telephone);
  await page.locator(".contact button.main, button.main.send, button.main").last().click();
  return (await page.locator(".sent .reference").textContent()).trim();
}

test("an enquiry sent under an installer's id is on that installer's list and on no other", async () => {
  const page = await openPage(browser, { viewport: PHONE });
  await page.goto(second.form);
  await page.locator("#f-hazard").waitFor();
  assert.equal(await page.locator("h1").textContent(), NAME);
  assert.match(await page.title(), /^Second & Daughters/);
  await page.screenshot({ path: join(PICTURES, "further-installer-form.png") });
  assert.deepEqual(await axe(page), []);
  const reference = await sent(page, second.form);
  await page.screenshot({ path: join(PICTURES, "further-installer-sent.png") });
  assert.deepEqual(page.problems, []);
  await page.context().close();

  // One browser, signed in at both.
  const desk = await openPage(browser, { viewport: DESK });
  await signIn(desk, second);
  await desk.locator(`text=${PERSON.name}`).first().waitFor();
  await desk.screenshot({ path: join(PICTURES, "further-installer-list.png") });
  await desk.locator("a[data-row]").first().click();
  await desk.locator(".decision").waitFor();
  assert.match(await desk.locator("body").textContent(), new RegExp(reference.replace(/\s/g, ".?")));
  assert.deepEqual(desk.problems, []);
  await desk.goto(service.triage);
  await desk.locator("input[type=password]").fill(service.password);
  await desk.locator("input[type=password]").press("Enter");
  await desk.locator("input[type=password]").waitFor({ state: "detached" });
  await desk.locator("h1").filter({ hasText: "Enquiries" }).waitFor();
  const listOf = async (at) => (await (await desk.request.get(`${at}/api/installer/enquiries`)).json()).enquiries;
  const rows = await listOf(second.at);
  assert.deepEqual(rows.map((row) => row.reference.replace(/\W/g, "")), [reference.replace(/\W/g, "")]);
  assert.deepEqual(await listOf(service.origin), []);
  assert.equal(await desk.locator("a[data-row]").count(), 0);
  const cookies = (await desk.context().cookies()).map((cookie) => cookie.name).filter((name) => name.includes("session"));
  assert.deepEqual(cookies.sort(), ["presurvey_session", "presurvey_session_second-firm"]);
  await desk.context().close();
});

test("nothing on a further installer's pages is the first one's", async () => {
  for (const name of ["", "index.html", "pl.html", "frame.html"]) {
    const text = await (await fetch(second.form + name)).text();
    for (const other of [SETUP.installer.name, SETUP.installer.telephone, `"/api/`]) assert.ok(!text.includes(other), `${other} in ${name}`);
    assert.ok(text.includes(`"/second-firm/api/enquiries"`), name);
    assert.equal(text.includes("Second &amp; Daughters"), name !== "frame.html", name);
    // The first one's stay as they were built.
    const built = await readFile(join(process.env.PRESURVEY_PAGES || "dist", "form", name || "index.html"), "utf8");
    assert.equal(await (await fetch(`${service.origin}/${name}`)).text(), built, name);
  }
});

test("a draft begun at one installer's is not offered at another's", async () => {
  const page = await openPage(browser, { viewport: PHONE });
  await openForm(page, second.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.waitForFunction(() => !document.querySelector("presurvey-form").shadowRoot.querySelector("#f-hazard"));
  await page.waitForFunction(() => indexedDB.databases().then((all) => all.length > 0));
  const offers = async (address) => {
    await page.goto(address);
    const shown = await page.waitForFunction(() => {
      const text = document.querySelector("presurvey-form").shadowRoot.querySelector("h2")?.textContent;
      return ["A charge point at your home", "Your answers are still here"].find((title) => text === title);
    });
    await page.waitForLoadState("networkidle"); // the form's own script has taken over the first screen
    return /still here/.test(await page.locator("presurvey-form h2").first().textContent()) && Boolean(shown);
  };
  assert.equal(await offers(service.form), false);
  assert.equal(await offers(second.form), true);
  await page.context().close();
});

test("a further installer's page opens without a network, as theirs", async () => {
  const page = await (await browser.newContext({ viewport: PHONE })).newPage(); // where service workers are not blocked
  await openForm(page, second.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page); // from then on it is kept
  const scope = await page.evaluate(() => navigator.serviceWorker.ready.then((ready) => ready.scope));
  assert.equal(scope, second.form);
  await page.context().setOffline(true);
  const alone = await page.context().newPage();
  await alone.goto(second.form);
  assert.equal(await alone.locator("h1").textContent(), NAME);
  await page.context().close();
});
