// The form in an iframe on somebody else's page: a height of its own with scrolling inside, or as tall as the form is.
import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { PICTURES, launch, openPage, problemsBeside } from "./lib/browser.mjs";
import { answer, goOn, result, send, walkCore } from "./lib/form.mjs";
import { heard, listen, tellTales } from "./lib/heard.mjs";
import { host, sitePage } from "./lib/host.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { pasted, pastedHeader } from "./lib/readme.mjs";
import { pagesPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 132" };

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
  await mkdir(PICTURES, { recursive: true });
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const around = (lines) => sitePage(`${lines}<p>Below the form.</p>`);

/** A page with these lines in it, opened; gives back the page, the frame in it, and what ends both. */
async function framed(lines) {
  const site = await host({ pages: { "/": around(lines) }, headers: pastedHeader("framed-policy", service.origin) });
  const page = await openPage(browser);
  await page.goto(site.origin);
  const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
  await frame.locator("#f-hazard").waitFor();
  const close = async () => {
    await page.context().close();
    await site.stop();
  };
  return { page, frame, close };
}

const iframe = () => pasted("framed", service.origin);
const helper = () => pasted("framed-height", service.origin);
const problems = (page) => problemsBeside(page, service.origin);
const heights = (frame) =>
  frame.evaluate(() => ({ content: document.scrollingElement.scrollHeight, window: innerHeight, top: document.scrollingElement.scrollTop }));

test("with a fixed height the form scrolls inside, and a whole journey works by keyboard and touch", async () => {
  const { page, frame, close } = await framed(iframe());
  try {
    const tall = () => page.locator("iframe").evaluate((one) => one.clientHeight);
    assert.equal(await tall(), 720);
    let scrolled = 0;
    await walkCore(frame, await storyOf("easy-detached"), async () => {
      const { content, window } = await heights(frame);
      scrolled += Number(content > window);
      const main = await frame.locator("button.main").boundingBox();
      const box = await page.locator("iframe").boundingBox();
      assert.ok(main.y >= box.y && main.y + main.height <= box.y + box.height + 1, "the main button is in the frame's window");
    });
    assert.ok(scrolled > 3, `${scrolled} screens were taller than the frame`);
    await result(frame);

    // Tabbing through the result, what has the focus is always within the frame's window.
    await frame.locator("h2").click();
    let focused = 0;
    for (let press = 0; press < 40; press += 1) {
      await page.keyboard.press("Tab");
      const at = await frame.evaluate(() => {
        const focused = document.querySelector("presurvey-form").shadowRoot.activeElement;
        return focused && { top: focused.getBoundingClientRect().top, bottom: focused.getBoundingClientRect().bottom, window: innerHeight };
      });
      if (!at) break; // past the form's end
      focused += 1;
      assert.ok(at.top >= 0 && at.bottom <= at.window, `press ${press}: from ${at.top} to ${at.bottom} of ${at.window}`);
    }
    assert.ok(focused > 3, `${focused} things took the focus`);
    await goOn(frame);
    await frame.locator("#c-name").waitFor();
    // This browser keeps nothing for frames of another site: it is said until the enquiry has arrived.
    assert.equal(await frame.locator(".notice", { hasText: "keeps nothing on your device" }).count(), 1);
    assert.match(await send(frame, PERSON), /-/);
    assert.equal(await frame.locator(".notice", { hasText: "keeps nothing on your device" }).count(), 0);
    assert.equal(await tall(), 720);
    assert.deepEqual(problems(page), []);
    assert.deepEqual(await page.context().cookies(), []);
  } finally {
    await close();
  }
});

for (const [order, lines] of [["before", () => helper() + iframe()], ["after", () => iframe() + helper()]]) {
  test(`with our script ${order} it, the frame is as tall as the form and follows it`, async () => {
    const { page, frame, close } = await framed(lines());
    try {
      const fits = () =>
        frame.waitForFunction(() => Math.abs(Math.ceil(document.body.getBoundingClientRect().height) - innerHeight) <= 1);
      await fits();
      const first = await frame.evaluate(() => innerHeight);
      await answer(frame, "hazard", ["discolouration"]);
      await frame.locator(".emergency[role=alert]").waitFor();
      await frame.waitForFunction((before) => innerHeight !== before, first);
      await fits();
      await answer(frame, "hazard", ["none"]);
      await goOn(frame);
      await frame.locator("#f-postcode").waitFor();
      await fits();
      assert.equal((await heights(frame)).top, 0);
      // Another screen begins at the top of the frame, though its button was far below.
      await page.waitForFunction(() => document.querySelector("iframe").getBoundingClientRect().top >= -1);
      assert.deepEqual(problems(page), []);
    } finally {
      await close();
    }
  });
}

test("nobody but the frame itself tells its height, and no height is taken that is none", async () => {
  const { page, frame, close } = await framed(helper() + iframe());
  try {
    const tall = () => page.locator("iframe").evaluate((one) => one.style.height);
    await page.waitForFunction(() => document.querySelector("iframe").style.height !== "");
    const before = await tall();
    // From this page itself: the right source for nothing, and another origin.
    await page.evaluate(() => {
      postMessage({ presurvey: { height: 5000, step: true } }, "*");
      return new Promise((done) => setTimeout(done));
    });
    assert.equal(await tall(), before);
    const say = (height) => frame.evaluate((height) => parent.postMessage({ presurvey: { height } }, "*"), height);
    for (const none of ["9999px", null, Number.NaN, Number.POSITIVE_INFINITY]) await say(none);
    await say(3000);
    await page.waitForFunction(() => document.querySelector("iframe").style.height === "3000px");
    await say(10_000_000);
    await page.waitForFunction(() => document.querySelector("iframe").style.height === "20000px");
    await say(-5);
    await page.waitForFunction(() => document.querySelector("iframe").style.height === "200px");
    assert.deepEqual(problems(page), []);
  } finally {
    await close();
  }
});

test("in a sandbox it works; where the browser keeps nothing for frames of another site, the form says so", async () => {
  const sandboxed = iframe().replace("<iframe ", '<iframe sandbox="allow-scripts allow-forms allow-same-origin" ');
  const { page, frame, close } = await framed(sandboxed);
  try {
    // The browser of these tests is one of those: it refuses a frame of another site all storage.
    assert.equal(await frame.evaluate(() => { try { return localStorage.length; } catch (error) { return error.name; } }), "SecurityError");
    await answer(frame, "hazard", ["none"]);
    await goOn(frame);
    await answer(frame, "postcode", "ZZ1 1AA");
    await frame.locator(".notice", { hasText: "keeps nothing on your device" }).waitFor();
    assert.deepEqual(problems(page), []);
  } finally {
    await close();
  }
});

/** A site with frame.html in a folder of its own, and the service's address written once into it, as the comment there says. */
async function siteOfItsOwn(written = withOneAddress, lines = "") {
  const alter = (path, bytes) => (path === "/presurvey/frame.html" ? Buffer.from(written(bytes.toString())) : bytes);
  const own = lines + iframe().replace(`${service.origin}/frame.html`, "/presurvey/frame.html");
  return host({ pages: { "/": around(own) }, folders: { "/presurvey/": join(pagesPath(), "upload") }, alter });
}

function withOneAddress(page) {
  const parts = page.split('action="/api/enquiries"');
  assert.equal(parts.length, 2, "the address stands in one place");
  return parts.join(`action="${service.origin}/api/enquiries"`);
}

/** The frame.html of 0.3.0, with the addresses written into it as its comment said. */
const ofEarlier = () => `<!doctype html><html lang="en-GB"><meta charset="utf-8"><title>Invented</title>
<script type="module" src="frame.js"></script><script type="module" src="presurvey.js"></script>
<presurvey-form config="${service.origin}/api/config" submit="${service.origin}/api/enquiries"><p>Invented</p></presurvey-form></html>`;

for (const [which, written] of [["today's", withOneAddress], ["one that was set up with an earlier build", ofEarlier]]) {
  test(`the page for a frame in a folder of the site's own sends to the service: ${which}`, async () => {
    const site = await siteOfItsOwn(written);
    const page = await openPage(browser);
    try {
      await page.goto(`${site.origin}/presurvey/frame.html`);
      await page.locator("#f-hazard").waitFor();
      await answer(page, "hazard", ["discolouration"]);
      await answer(page, "hazard-place", "board");
      await goOn(page);
      await page.locator("#c-name").waitFor();
      assert.match(await send(page, PERSON), /-/);
      assert.deepEqual(problems(page), []);
    } finally {
      await page.context().close();
      await site.stop();
    }
  });
}

test("without scripts the page for a frame is the plain form alone, dressed, and its enquiry arrives", async () => {
  const site = await siteOfItsOwn();
  const page = await openPage(browser, { javaScriptEnabled: false });
  try {
    await page.goto(site.origin);
    const frame = page.frameLocator("iframe");
    await frame.locator("#c-name").waitFor();
    assert.equal(await frame.locator("presurvey-form").isVisible(), false);
    assert.equal(await frame.locator("h2:visible").count(), 1);
    const button = await frame.locator("button.main:visible").boundingBox();
    assert.ok(button.height >= 44, `dressed: the button is ${button.height} px tall`);
    await page.screenshot({ path: join(PICTURES, "frame-without-scripts.png"), fullPage: true });
    for (const sign of ["discolouration", "buzzing"]) await frame.locator(`input[value=${sign}]:visible`).check();
    await frame.locator("#c-name").fill("Invented Unscripted");
    await frame.locator("#c-telephone").fill(PERSON.telephone);
    await frame.locator("button.main:visible").click();
    await frame.locator("h1").waitFor();
    const reference = /[A-Z0-9]{4}-[A-Z0-9]{4}/.exec(await frame.locator("body").innerText())?.[0];
    const desk = await openPage(browser);
    await signIn(desk, service);
    const { enquiry } = await enquiryOf(desk, service, reference);
    assert.equal(enquiry.payload.contact.name, "Invented Unscripted");
    assert.deepEqual([...enquiry.payload.answers.hazard.signs].sort(), ["buzzing", "discolouration"]);
  } finally {
    await page.context().close();
    await site.stop();
  }
});

for (const [where, site] of [["the service", undefined], ["a folder of the site's own", siteOfItsOwn]]) {
  test(`the page around hears the form's events from a frame of ${where}, and nothing personal`, async () => {
    const lines = `${helper()}<script>${pasted("conversion")}</script>`;
    const own = site && (await site(withOneAddress, lines.replace(`${service.origin}/`, "/presurvey/")));
    const from = own ? { origin: own.origin, stop: () => own.stop() } : await host({ pages: { "/": around(lines + iframe()) } });
    const page = await openPage(browser);
    const counted = [];
    page.on("console", (line) => line.type() === "log" && counted.push(line.text()));
    try {
      await listen(page);
      await page.goto(from.origin);
      const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
      await frame.locator("#f-hazard").waitFor();
      await answer(frame, "hazard", ["discolouration"]);
      await answer(frame, "hazard-place", "board");
      await goOn(frame);
      await frame.locator("#c-name").waitFor();
      await send(frame, PERSON);
      await page.waitForFunction(() => globalThis.heardSoFar().some(({ type }) => type === "presurvey-sent"));
      const events = await heard(page);
      assert.deepEqual(tellTales(events), []);
      assert.equal(events.filter(({ type }) => type === "presurvey-sent").length, 1);
      assert.ok(events.some(({ type, detail }) => type === "presurvey-step" && detail.kind === "contact"));
      assert.deepEqual(counted, ["an enquiry has arrived"], "README.md's one line counts it once");
    } finally {
      await page.context().close();
      await from.stop();
    }
  });
}

test("without our script around it, README.md's lines count the enquiries of a frame by its messages", async () => {
  const site = await host({ pages: { "/": around(`<script>${pasted("message", service.origin)}</script>${iframe()}`) } });
  const page = await openPage(browser);
  try {
    const counted = page.waitForEvent("console", (line) => line.text() === "an enquiry has arrived");
    await page.goto(site.origin);
    const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
    await answer(frame, "hazard", ["discolouration"]);
    await answer(frame, "hazard-place", "board");
    await goOn(frame);
    await frame.locator("#c-name").waitFor();
    await send(frame, PERSON);
    await counted;
  } finally {
    await page.context().close();
    await site.stop();
  }
});

test("from the site's own folder, a half-done form in a frame is there after a reload", async () => {
  const site = await siteOfItsOwn();
  const page = await openPage(browser);
  try {
    await page.goto(site.origin);
    const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
    await frame.locator("#f-hazard").waitFor();
    await answer(frame, "hazard", ["none"]);
    await goOn(frame);
    await answer(frame, "postcode", "ZZ1 1AA");
    await page.reload();
    const again = await (await page.locator("iframe").elementHandle()).contentFrame();
    await again.locator("[data-does=on]").click();
    await again.waitForFunction(() => document.querySelector("presurvey-form").shadowRoot.querySelector("#f-postcode input")?.value === "ZZ1 1AA");
    assert.deepEqual(problems(page), []);
  } finally {
    await page.context().close();
    await site.stop();
  }
});

test("the query names a config of the frame's own origin and nothing else", async () => {
  const page = await openPage(browser);
  const form = page.locator("presurvey-form");
  const open = async (query) => {
    page.problems.length = 0;
    await page.goto(`${service.origin}/frame.html${query}`);
    await page.locator("#f-hazard").waitFor();
  };
  await open("?config=/api/config%3Fanother&submit=/elsewhere&telephone=0900&installer=Somebody");
  assert.equal(await form.getAttribute("config"), `${service.origin}/api/config?another`);
  assert.equal(await form.getAttribute("submit"), "/api/enquiries");
  assert.equal(await form.getAttribute("telephone"), null);
  assert.equal(await form.getAttribute("installer"), null);
  assert.deepEqual(page.problems, []);
  for (const foreign of ["https://elsewhere.example/config.json", "//elsewhere.example/", "data:application/json,{}", "http://["]) {
    await open(`?config=${encodeURIComponent(foreign)}`);
    assert.equal(await form.getAttribute("config"), "/api/config", foreign);
    assert.equal(page.problems.length, 1);
    assert.ok(page.problems[0].includes(foreign) && page.problems[0].includes(service.origin), page.problems[0]);
  }
});
