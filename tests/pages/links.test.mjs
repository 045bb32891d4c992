// Links: photos added later, answers that the installer asks for, and a half-done form that moves to another device.
import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { deflateRawSync } from "node:zlib";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { DESK, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { answer, asked, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 126" };
const drawing = (name) => fileURLToPath(new URL(`../../src/service/demo/drawings/${name}.jpg`, import.meta.url));

let service, browser, desk;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
  await mkdir(PICTURES, { recursive: true });
  desk = await openPage(browser, { viewport: DESK });
  await signIn(desk, service);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const picture = (page, name) => page.screenshot({ path: `${PICTURES}/${name}.png`, fullPage: true });

/** An enquiry sent from a page of its own; gives back the page and the reference. */
async function sent(story = "easy-detached") {
  const page = await openPage(browser);
  await openForm(page, service.form);
  await walkCore(page, await storyOf(story));
  await result(page);
  await goOn(page);
  return { page, reference: await send(page, PERSON) };
}

/** A link's page on another device. */
async function elsewhere(link) {
  const page = await openPage(browser);
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  await page.goto(link);
  return Object.assign(page, { asked });
}

async function addPhoto(page, name) {
  await page.locator(".photos input[type=file]").last().setInputFiles(drawing(name));
  await page.locator(".photos figure img").waitFor();
}

/** A link that asks for these, as the installer's page would have it made. */
async function settleLink(reference, questions) {
  const { client_key } = await enquiryOf(desk, service, reference);
  const url = `${service.origin}/api/installer/enquiries/${client_key}/link`;
  const made = await desk.request.post(url, { data: { questions }, headers: { "x-presurvey": "1" } });
  assert.equal(made.status(), 201, await made.text());
  return `${service.form}#${(await made.json()).fragment}`;
}

test("a photo is added after sending, on the same device and by a link on another", async () => {
  const { page, reference } = await sent();
  await page.locator(".adding .link input").waitFor();
  assert.deepEqual(await axe(page), []);
  await picture(page, "links-sent");
  const link = await page.locator(".adding .link input").inputValue();
  assert.match(link, /#presurvey-link=[0-9a-f]{32}\.[0-9a-f]{32}$/);

  await page.locator(".adding button", { hasText: "Add a photo" }).first().click();
  await page.locator(".page.adding").waitFor();
  await goOn(page);
  await page.locator(".trouble", { hasText: "nothing to send" }).waitFor();
  await addPhoto(page, "head-plain");
  assert.deepEqual(await axe(page), []);
  await picture(page, "links-add-photo");
  await goOn(page);
  await page.locator(".sent .reference", { hasText: reference }).waitFor();
  assert.equal((await enquiryOf(desk, service, reference)).photos_arrived.length, 1);
  assert.deepEqual(page.problems, []);

  const other = await elsewhere(link);
  await other.locator(".page.adding").waitFor();
  assert.equal(other.url(), service.form, "the secret does not stay in the address bar");
  assert.equal(await other.locator("fieldset.question").count(), 0);
  await addPhoto(other, "board-spare");
  await goOn(other);
  await other.locator(".sent .reference", { hasText: reference }).waitFor();
  const found = await enquiryOf(desk, service, reference);
  assert.equal(found.photos_arrived.length, 2);
  assert.equal(found.enquiry.payload.photos.length, 2);
  assert.ok(other.asked.every((url) => !url.includes(link.split(".").at(-1))), "no address that a server sees holds the secret");
  // Loaded again it is the same link's page, not the form.
  await other.reload();
  await other.locator(".page.adding").waitFor();
  assert.deepEqual(other.problems, []);
});

test("a link asks for just what the installer wants to know, and its answers go into the enquiry", async () => {
  const { reference } = await sent();
  const link = await settleLink(reference, ["fuse-carriers", "head-conductors"]);
  const page = await elsewhere(link);
  await page.locator("#f-fuse-carriers").waitFor();
  assert.deepEqual(await asked(page), ["fuse-carriers", "head-conductors"]);
  assert.match(await page.locator(".stand").innerText(), /only look/i);
  assert.equal(await page.locator(".photos").count(), 1, "a photo of their place");
  assert.deepEqual(await axe(page), []);
  await picture(page, "links-settle");
  await answer(page, "fuse-carriers", "1");
  // Begun and loaded again, it is as it was.
  await page.reload();
  await page.locator("#f-fuse-carriers input[value='1']:checked").waitFor();
  await answer(page, "head-conductors", "4");
  await goOn(page);
  await page.locator(".sent .reference", { hasText: reference }).waitFor();
  assert.deepEqual(page.problems, []);

  const before = await enquiryOf(desk, service, reference);
  assert.equal(before.corrected.said_by, "homeowner");
  assert.equal(before.corrected.answers.meter.head_conductors, 4);
  assert.equal(before.corrected.answers.home.postcode, before.enquiry.payload.answers.home.postcode);
  assert.notEqual(before.enquiry.payload.answers.meter.head_conductors, 4, "what was sent stays as it was");
  assert.equal(before.row.complexity, "depends-on-others");

  const again = await elsewhere(link);
  await again.locator("#f-fuse-carriers").waitFor();
  await answer(again, "fuse-carriers", "1");
  await goOn(again);
  await again.locator(".sent .reference", { hasText: reference }).waitFor();
  assert.deepEqual((await enquiryOf(desk, service, reference)).corrected, before.corrected, "the same answer changes nothing");
});

test("a link that opens nothing says so, and the form is still there", async () => {
  for (const [value, says] of [
    [`${"0".repeat(32)}.${"1".repeat(32)}`, "opens nothing"],
    ["<img src=x onerror=alert(1)>", "could not be read"],
    ["", "could not be read"],
  ]) {
    const page = await elsewhere(`${service.form}#presurvey-link=${value}`);
    await page.locator("[role=status]", { hasText: says }).waitFor();
    assert.deepEqual(await axe(page), []);
    await page.getByRole("button", { name: "Go to the form" }).click();
    await page.locator("#f-hazard").waitFor();
    await page.context().close();
  }
});

/** A form that is half done: on its third screen. */
async function halfDone() {
  const page = await openPage(browser);
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await answer(page, "postcode", "ZZ1 1AA");
  await answer(page, "other-point", "kept");
  await answer(page, "tenure", "own");
  await goOn(page);
  await page.locator("#f-parking").waitFor();
  return page;
}

test("a half-done form moves to another device by its link alone", async () => {
  const page = await halfDone();
  await page.getByRole("button", { name: "Finish on another device" }).click();
  const field = page.locator(".moving input");
  await field.waitFor();
  assert.match(await page.locator(".moving").innerText(), /no server sees them/);
  assert.deepEqual(await axe(page), []);
  await picture(page, "links-move");
  const link = await field.inputValue();
  assert.ok(link.length < 1_000, `${link.length} characters`);
  // What is answered meanwhile is in the link too.
  await answer(page, "parking", "drive");
  await page.waitForFunction((before) => document.querySelector("presurvey-form").shadowRoot.querySelector(".moving input").value !== before, link);
  const newer = await field.inputValue();

  const other = await elsewhere(newer);
  await other.locator("#f-parking input[value=drive]:checked").waitFor();
  assert.equal(other.url(), service.form, "the answers do not stay in the address bar");
  assert.ok(other.asked.every((url) => !url.includes("presurvey-move")));
  await other.locator("button.back").click();
  assert.equal(await other.locator("#f-postcode input[type=text]").inputValue(), "ZZ1 1AA");
  assert.deepEqual(other.problems, []);
  // It is kept there as if it had been begun there.
  await other.reload();
  await other.locator("[data-does=on]").waitFor();
});

test("a begun form is not written over without being asked", async () => {
  const link = await moveLink(await halfDone());
  for (const [choice, postcode] of [["Keep what is here", "ZZ7 7ZZ"], ["Take the answers", "ZZ1 1AA"]]) {
    const page = await openPage(browser);
    await openForm(page, service.form);
    await answer(page, "hazard", ["none"]);
    await goOn(page);
    await answer(page, "postcode", "ZZ7 7ZZ");
    await page.goto("about:blank");
    await page.goto(link);
    await page.getByRole("button", { name: choice }).waitFor();
    assert.deepEqual(await axe(page), []);
    await picture(page, "links-move-asks");
    await page.getByRole("button", { name: choice }).click();
    const on = page.locator("[data-does=on]");
    await on.or(page.locator("#f-parking")).first().waitFor();
    if (await on.isVisible()) await on.click();
    else await page.locator("button.back").click();
    await page.locator("#f-postcode input[type=text]").waitFor();
    assert.equal(await page.locator("#f-postcode input[type=text]").inputValue(), postcode);
    await page.context().close();
  }
});

async function moveLink(page) {
  await page.getByRole("button", { name: "Finish on another device" }).click();
  const field = page.locator(".moving input");
  await field.waitFor();
  return field.inputValue();
}

test("a hostile or broken link is told in words and changes nothing", async () => {
  const pack = (value) => `d${deflateRawSync(Buffer.from(typeof value === "string" ? value : JSON.stringify(value))).toString("base64url")}`;
  const good = await moveLink(await halfDone());
  const version = JSON.parse(await unpacked(good))[0];
  for (const value of [
    "", "d", "zzzz", "%3Cscript%3E", good.split("=").at(-1).slice(0, -9), pack("no list"), pack({}), pack([["answer home.postcode", "\"ZZ1\""]]),
    pack([version, ["answer home.postcode"]]), pack([version, ["step", 5]]), pack([version, ...Array(500).fill(["typed planned", "x"])]),
    pack(" ".repeat(5_000_000)), pack([["version", "999"], ["step", "screen parking"]]),
  ]) {
    const page = await elsewhere(`${service.form}#presurvey-move=${value}`);
    await page.getByRole("button", { name: "Go to the form" }).click();
    await page.locator("#f-hazard").waitFor();
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
  // What may not come this way is left out: who asks, secrets, another enquiry, sending by itself.
  const lines = [version, ["answer home.postcode", "\"ZZ3 3AA\""], ["answer home.tenure", "\"nonsense\""], ["contact name", "Somebody Else"],
    ["secrets", `${"a".repeat(32)} ${"b".repeat(32)} ${"c".repeat(32)}`], ["reference", "BCDF-GHJK"], ["queued", "yes"], ["link", "x y"], ["step", "screen start"]];
  const page = await elsewhere(`${service.form}#presurvey-move=${pack(lines)}`);
  await page.locator("#f-postcode input[type=text]").waitFor();
  assert.equal(await page.locator("#f-postcode input[type=text]").inputValue(), "ZZ3 3AA");
  assert.equal(await page.locator("#f-tenure input:checked").count(), 0);
  assert.ok(page.asked.every((url) => !url.endsWith("/api/enquiries")));
  assert.deepEqual(page.problems, []);
});

async function unpacked(link) {
  const { inflateRawSync } = await import("node:zlib");
  return inflateRawSync(Buffer.from(link.split("=d").at(-1), "base64url")).toString();
}

/** What of a late page sends somebody to meter or board. */
const looks = (page) => page.locator("#p-meter, #p-board, #p-other, .wrong, .stand, #f-fuse-carriers, #f-protection").count();

test("a late page sends nobody to meter or board without the service's word, or once a danger is known", async () => {
  const { reference } = await sent();
  const link = await settleLink(reference, ["carrier-rating", "tenure"]);
  const additions = "**/api/enquiries/*/additions";

  const allowed = await elsewhere(link);
  await allowed.locator(".page.adding #f-carrier-rating").waitFor();
  assert.ok((await looks(allowed)) > 0);
  await picture(allowed, "links-may-look");

  const untold = await openPage(browser);
  await untold.route(additions, async (route) => {
    const { looks, ...rest } = await (await route.fetch()).json();
    assert.equal(looks, true);
    await route.fulfill({ json: rest });
  });
  await untold.goto(link);
  await untold.locator(".page.adding #f-tenure").waitFor();
  assert.equal(await looks(untold), 0);
  assert.equal(await untold.locator("#f-carrier-rating").count(), 0, "a question of the meter is not asked either");

  // On the page that may look, something looks wrong: the advice, and the looking ends here and on every page opened from now on.
  await allowed.locator("button.wrong").click();
  await allowed.locator("#f-hazard").waitFor();
  await answer(allowed, "hazard", ["buzzing"]);
  await allowed.locator(".emergency a[href='tel:105']").waitFor();
  assert.deepEqual(await axe(allowed), []);
  await picture(allowed, "links-danger");
  await goOn(allowed);
  await allowed.locator(".page.adding").waitFor();
  assert.equal(await looks(allowed), 0);
  assert.ok(await allowed.locator(".emergency").isVisible());
  await allowed.locator(".page.adding button.main").click();
  await allowed.locator(".sent").waitFor();

  const { enquiry, corrected } = await enquiryOf(desk, service, reference);
  assert.deepEqual(enquiry.payload.answers.hazard, { signs: [] }, "as sent stays as sent");
  assert.deepEqual(corrected.answers.hazard, { signs: ["buzzing"], place: "meter", when: "now", found_at: "meter" });
  assert.equal(corrected.assessment.complexity, "look-first");

  const again = await elsewhere(link);
  await again.locator(".page.adding").waitFor();
  assert.equal(await looks(again), 0);
  for (const page of [allowed, untold, again]) {
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
});
