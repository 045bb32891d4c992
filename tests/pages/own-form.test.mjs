// A form of one's own: the one in README.md, pasted into somebody else's website, sent by a browser without JavaScript.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { promisify } from "node:util";
import { launch, openPage } from "./lib/browser.mjs";
import { host, sitePage } from "./lib/host.mjs";
import { enquiryOf, keptOf, signIn } from "./lib/installer.mjs";
import { tagsOf, telltalePhotograph } from "./lib/photograph.mjs";
import { pasted, pastedHeader } from "./lib/readme.mjs";
import { serve } from "./lib/serve.mjs";

const run = promisify(execFile);
const PERSON = { name: "Invented Homeowner", telephone: "01632 960 141" };
const REFERENCE = /Your reference: ([A-Z0-9]{4}-[A-Z0-9]{4})/;

let service, browser, folder;
before(async () => {
  [service, browser, folder] = await Promise.all([serve(), launch(), mkdtemp(join(tmpdir(), "presurvey-own-form-"))]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
  await rm(folder, { recursive: true, force: true });
});

/** A website with the form and the policy of README.md; `change` is given its markup. */
const siteWith = (change = (form) => form) =>
  host({
    pages: { "/": sitePage(change(pasted("own-form", service.origin))) },
    headers: pastedHeader("own-form-policy", service.origin),
  });

/** Opens the site in a browser without JavaScript, has `fill` fill in the form, and sends it; returns the page that answers. */
async function sent(site, fill) {
  const page = await openPage(browser, { javaScriptEnabled: false });
  await page.goto(site.origin);
  await fill(page);
  await page.locator("button").click();
  await page.waitForURL(`${service.origin}/api/enquiries`);
  return page;
}

const person = async (page, told = PERSON) => {
  for (const [name, text] of Object.entries(told)) await page.locator(`[name=${name}]`).fill(text);
};

/** The files in which the service keeps the photos of an enquiry. */
async function filesOf(kept) {
  const all = await readdir(service.data, { recursive: true });
  return kept.enquiry.payload.photos.map(({ sha256 }) => {
    const found = all.find((path) => path.includes(kept.row.client_key) && path.endsWith(sha256));
    assert.ok(found, `${sha256} is kept`);
    return join(service.data, found);
  });
}

/** A photograph of the page as a camera in portrait has it: lying on its side, with all that a camera writes, and a second picture after it. */
async function portrait(name) {
  const page = await openPage(browser, { viewport: { width: 600, height: 400 } });
  await page.setContent('<body style="margin:0;background:linear-gradient(to right, red 50%, blue 50%)"></body>');
  const path = await telltalePhotograph(page, join(folder, name));
  const thumbnail = join(folder, "thumbnail.jpg");
  await page.screenshot({ path: thumbnail, type: "jpeg", clip: { x: 0, y: 0, width: 30, height: 20 } });
  await page.context().close();
  await run("exiftool", [
    "-overwrite_original", "-n", "-Orientation=6", "-IPTC:City=Invented Place", "-DateTimeOriginal=2026:11:25 10:00:00",
    `-ThumbnailImage<=${thumbnail}`, path,
  ]);
  return path;
}

/** What a file says beyond its pixels and their colours: all groups of exiftool but those that describe the file itself. */
const beyondPixels = (tags) => Object.keys(tags).filter((tag) => !/^(SourceFile|ExifTool|System|File|JFIF|Composite|ICC[-_])/.test(tag));

test("the form of README.md, with a photo as a phone has it: an enquiry with its answers, and the photo upright and clean", async () => {
  const photo = await portrait("portrait.jpg");
  const before = await tagsOf(photo);
  for (const tag of ["GPS:GPSLatitude", "IFD0:Orientation", "IPTC:City", "XMP-dc:Creator", "File:Comment", "IFD1:ThumbnailOffset"]) {
    assert.ok(before[tag] !== undefined, `the photograph has ${tag} to begin with`);
  }
  assert.deepEqual([before["File:ImageWidth"], before["File:ImageHeight"]], [600, 400]);
  const site = await siteWith();
  try {
    const page = await sent(site, async (page) => {
      await person(page);
      await page.locator("[name=hazard][value=none]").check();
      await page.locator("[name=postcode]").fill("zz1 1aa");
      await page.locator("[name=reach]").selectOption("message");
      await page.locator("[name=note]").fill("two\nlines");
      await page.locator("[name=photo]").setInputFiles(photo);
    });
    const [, reference] = (await page.locator("body").innerText()).match(REFERENCE);
    assert.deepEqual(page.problems.filter((problem) => !problem.startsWith("another origin")), []);

    const desk = await openPage(browser);
    await signIn(desk, service);
    const kept = await enquiryOf(desk, service, reference);
    const { contact, answers, photos } = kept.enquiry.payload;
    assert.deepEqual(contact, { ...PERSON, reach: "message", note: "two\nlines" });
    assert.equal(answers.home.postcode, "ZZ1 1AA");
    assert.deepEqual(answers.hazard.signs, []);
    assert.deepEqual([photos[0].width, photos[0].height], [400, 600]);
    assert.deepEqual(kept.photos_arrived, [photos[0].sha256]);

    const [file] = await filesOf(kept);
    const after = await tagsOf(file);
    assert.deepEqual(beyondPixels(after), []);
    assert.equal(after["File:Comment"], undefined);
    assert.equal(after["ExifTool:Warning"], undefined, "nothing follows its end");
    // Turned clockwise, what was on the left is above.
    await desk.locator(`a[href*="${kept.row.client_key}"], a[href*="${reference}"]`).first().click();
    const shown = desk.locator(`img[src*="${photos[0].sha256}"]`).first();
    await shown.waitFor({ state: "attached" });
    const colours = await shown.evaluate(async (img) => {
      img.loading = "eager";
      await img.decode();
      const canvas = Object.assign(document.createElement("canvas"), { width: img.naturalWidth, height: img.naturalHeight });
      const context = canvas.getContext("2d");
      context.drawImage(img, 0, 0);
      return [0.25, 0.75].map((down) => [...context.getImageData(canvas.width / 2, canvas.height * down, 1, 1).data]);
    });
    assert.ok(colours[0][0] > 200 && colours[0][2] < 60, `red above: ${colours[0]}`);
    assert.ok(colours[1][2] > 200 && colours[1][0] < 60, `blue below: ${colours[1]}`);
    assert.deepEqual(desk.problems, []);
  } finally {
    await site.stop();
  }
});

test("every orientation, and what a phone writes after a picture's end: exiftool finds nothing of it in what is kept", async () => {
  const page = await openPage(browser, { viewport: { width: 90, height: 60 } });
  const paths = [];
  for (let orientation = 1; orientation <= 8; orientation += 1) {
    const path = await telltalePhotograph(page, join(folder, `turned-${orientation}.jpg`));
    await run("exiftool", ["-overwrite_original", "-n", `-Orientation=${orientation}`, path]);
    paths.push(path);
  }
  const screenshot = join(folder, "screenshot.png");
  await page.screenshot({ path: screenshot });
  await run("exiftool", ["-overwrite_original", "-GPSLatitude=50", "-GPSLatitudeRef=N", "-Comment=invented", screenshot]);
  paths.push(screenshot);
  const site = await siteWith();
  try {
    const answer = await sent(site, async (page) => {
      await person(page);
      await page.locator("[name=photo]").setInputFiles(paths);
    });
    const [, reference] = (await answer.locator("body").innerText()).match(REFERENCE);
    const kept = await keptOf(service, reference);
    const sizes = kept.enquiry.payload.photos.map(({ width, height }) => `${width}x${height}`);
    assert.deepEqual(sizes, [..."11112222", "1"].map((way) => (way === "1" ? "90x60" : "60x90")));
    for (const file of await filesOf(kept)) {
      const tags = await tagsOf(file);
      assert.equal(tags["File:FileType"], "JPEG");
      assert.deepEqual(beyondPixels(tags), [], file);
      assert.equal(tags["File:Comment"], undefined);
    }
  } finally {
    await site.stop();
  }
});

test("loaded again, or sent again, it is one enquiry; with another word it is another", async () => {
  const site = await siteWith();
  const told = { name: "Invented Homeowner", telephone: "01632 960 142" };
  const send = async (more) => {
    const page = await sent(site, async (page) => {
      await person(page, told);
      await more?.(page);
    });
    const reference = async () => (await page.locator("body").innerText()).match(REFERENCE)[1];
    const first = await reference();
    let posts = 0;
    page.on("request", (request) => (posts += request.method() === "POST" ? 1 : 0));
    await page.reload();
    assert.equal(posts, 1, "the browser sent it again");
    assert.equal(await reference(), first);
    return first;
  };
  try {
    const first = await send();
    assert.equal(await send(), first);
    assert.notEqual(await send((page) => page.locator("[name=note]").fill("one word more")), first);
  } finally {
    await site.stop();
  }
});

test("without enctype: taken if there is no photo, else a page that says what is missing", async () => {
  const site = await siteWith((form) => form.replace(' enctype="multipart/form-data"', ""));
  const told = { name: "Invénted Homeowner", telephone: "01632 960 143" };
  try {
    const taken = await sent(site, (page) => person(page, told));
    const [, reference] = (await taken.locator("body").innerText()).match(REFERENCE);
    assert.deepEqual((await keptOf(service, reference)).enquiry.payload.contact, told);
    const refused = await sent(site, async (page) => {
      await person(page, told);
      await page.locator("[name=photo]").setInputFiles(await portrait("lost.jpg"));
    });
    const text = await refused.locator("body").innerText();
    assert.match(text, /It was not taken[^]*enctype="multipart\/form-data"[^]*01632/);
  } finally {
    await site.stop();
  }
});

for (const [told, change] of [
  ["enctype", (form) => form.replace("multipart/form-data", "text/plain")],
  ['method="post"', (form) => form.replace('method="post"', 'method="get"')],
]) {
  test(`a form that is sent in no usable way is told so: ${told}`, async () => {
    const site = await siteWith(change);
    try {
      const page = await openPage(browser, { javaScriptEnabled: false });
      await page.goto(site.origin);
      await person(page);
      await page.locator("button").click();
      await page.waitForURL(`${service.origin}/api/enquiries**`);
      const text = await page.locator("body").innerText();
      assert.ok(text.includes("It was not taken") && text.includes(told), text);
    } finally {
      await site.stop();
    }
  });
}

for (const [name, sizes, told] of [
  ["one photo", [7], "photo 1 is too large"],
  ["all together", [5, 5, 5, 5, 5, 5, 5, 5], "32 MB"],
  ["far too much", [48], "32 MB"],
]) {
  test(`too large (${name}): a browser is shown why, not a lost connection`, async () => {
    const site = await siteWith();
    const paths = sizes.map((_, at) => join(folder, `large-${at}.jpg`));
    const picture = await portrait("base.jpg");
    try {
      const bytes = await readFile(picture);
      await Promise.all(paths.map((path, at) => writeFile(path, Buffer.concat([bytes, Buffer.alloc(sizes[at] * 1024 * 1024)]))));
      const page = await sent(site, async (page) => {
        await person(page);
        await page.locator("[name=photo]").setInputFiles(paths);
      });
      const text = await page.locator("body").innerText();
      assert.ok(text.includes("It was not taken") && text.includes(told), text);
    } finally {
      await site.stop();
    }
  });
}

test("the robots' trap stops nobody, is seen by nobody, and shows when it caught one", async () => {
  const trap = '<p><input name="_token" value="invented"></p><p><button name="submit" value="Send">';
  const site = await siteWith((form) => form.replace("<p><button>", trap));
  try {
    const noteOf = async (caught) => {
      const page = await sent(site, async (page) => {
        await person(page, { name: "Invented Homeowner", telephone: "01632 960 144" });
        assert.equal(await page.locator("[name=website]").isVisible(), false);
        if (caught) await page.locator("[name=website]").evaluate((field, text) => (field.value = text), caught);
      });
      const [, reference] = (await page.locator("body").innerText()).match(REFERENCE);
      return (await keptOf(service, reference)).enquiry.payload.contact.note;
    };
    assert.equal(await noteOf(), undefined);
    assert.match(await noteOf("https://robot.invalid"), /^Perhaps a robot[^\n]*\n\nOther fields[^\n]*\nwebsite: https:\/\/robot\.invalid$/);
  } finally {
    await site.stop();
  }
});
