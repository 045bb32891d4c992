// What a visitor is sent holds nothing private; what a visitor sends holds nothing of the camera's.
import assert from "node:assert/strict";
import { mkdtemp, readFile, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launch, openPage } from "./lib/browser.mjs";
import { answer, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { tagsOf, telltalePhotograph } from "./lib/photograph.mjs";
import { publishedBy, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

let service, browser, folder;
before(async () => {
  [service, browser, folder] = await Promise.all([serve(), launch(), mkdtemp(join(tmpdir(), "presurvey-photos-"))]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
  await rm(folder, { recursive: true, force: true });
});

test("nothing of the private setup is in any byte that the form is sent", async () => {
  const setup = JSON.parse(await readFile(new URL("../../src/model/config/demo-setup.json", import.meta.url), "utf8"));
  const published = await (await publishedBy(service)).json();
  const page = await openPage(browser);
  const bodies = [];
  page.on("response", (response) => bodies.push(response.body().then((bytes) => [response.url(), bytes])));
  await openForm(page, service.form);
  await walkCore(page, await storyOf("easy-detached"));
  await result(page);
  const all = await Promise.all(bodies);
  assert.ok(all.some(([url]) => url.endsWith(".wasm")) && all.some(([url]) => url.endsWith("/api/config")));

  const text = all.map(([, bytes]) => bytes.toString("latin1")).join("\n");
  for (const word of [setup.mail_to, "mark_up", "mail_to", '"calibration"', '"costs"', '"cost"']) {
    assert.ok(!text.includes(word), `${word} was sent`);
  }
  // A cost price is a number: looked for where numbers are sent.
  const numbers = new Set(JSON.stringify(published).match(/-?\d+(\.\d+)?/g).map(Number));
  for (const { cost } of setup.charge_points) assert.ok(!numbers.has(cost), `the cost price ${cost} was sent`);
  // The search can find: the selling price is there.
  assert.ok(numbers.has(setup.charge_points[0].cost * (1 + setup.rates.mark_up)));
  const cookies = await page.context().cookies();
  assert.deepEqual(cookies, [], "no cookie for a visitor");
  assert.deepEqual(page.problems, []);
});

test("a photo leaves without place, camera or name, and is stored once", async () => {
  const page = await openPage(browser);
  await openForm(page, service.form);
  const original = await telltalePhotograph(page, join(folder, "photo.jpg"));
  const before = await tagsOf(original);
  assert.ok(before["GPS:GPSLatitude"] && before["IFD0:Make"], "the photograph tells tales to begin with");

  const story = await storyOf("easy-detached");
  let taken = 0;
  await walkCore(page, story, async () => {
    const choose = page.locator(".photos input[type=file]").last();
    if ((await choose.count()) === 0) return;
    await choose.setInputFiles(original);
    await page.locator(".photos figure img").waitFor();
    assert.ok(await page.locator(".photos figure img").evaluate((img) => img.decode().then(() => img.naturalWidth > 0)));
    taken += 1;
  });
  assert.equal(taken, 3, "a photo on the drive, at the meter, at the board");
  await result(page);
  await goOn(page);
  const reference = await send(page, { name: "Invented Homeowner", telephone: "01632 960 124" });
  assert.deepEqual(page.problems, []);

  const desk = await openPage(browser);
  await signIn(desk, service);
  const kept = await enquiryOf(desk, service, reference);
  const { photos } = kept.enquiry.payload;
  assert.ok(photos.length >= 1);
  assert.deepEqual([...kept.photos_arrived].sort(), [...new Set(photos.map((photo) => photo.sha256))].sort());
  const stored = [];
  for (const entry of await readdir(service.data, { recursive: true })) {
    if (photos.some((photo) => entry.includes(photo.sha256))) stored.push(join(service.data, entry));
  }
  assert.ok(stored.length >= 1, "the photos lie in the service's folder");
  for (const path of stored) {
    const tags = Object.keys(await tagsOf(path));
    const telling = tags.filter((tag) => /^(GPS|IFD\d|ExifIFD|XMP|IPTC|MakerNotes)/.test(tag) || /Comment|Serial|Artist/.test(tag));
    assert.deepEqual(telling, [], path);
  }
});

test("what is no picture is refused with words and nothing is lost", async () => {
  const page = await openPage(browser);
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  const story = await storyOf("easy-detached");
  await walkCore(page, story, undefined, ".photos");
  await page.locator(".photos input[type=file]").last().setInputFiles({ name: "no.jpg", mimeType: "image/jpeg", buffer: Buffer.from("no picture") });
  await page.locator(".photos .trouble[role=alert]").waitFor();
  await page.reload();
  await page.locator("[data-does=on]").click();
  await page.locator(".photos").first().waitFor();
});
