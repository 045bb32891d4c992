// How every screen looks in the three engines: pictures to be compared, and what can be measured of them on the narrowest of
// phones.
import assert from "node:assert/strict";
import { mkdir, readFile } from "node:fs/promises";
import { after, before, describe, test } from "node:test";
import { DESK, PHONE, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { ENGINES } from "./lib/engines.mjs";
import { fits, painted, tall, uncut } from "./lib/fits.mjs";
import { answer, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { presurvey } from "./lib/program.mjs";
import { serve } from "./lib/serve.mjs";
import { longAfterPress, shifts, watchShifts } from "./lib/shifts.mjs";
import { storyOf } from "./lib/stories.mjs";

const NARROWEST = { width: 320, height: 640 };

let service;
before(async () => {
  service = await serve();
  await mkdir(PICTURES, { recursive: true });
});
after(() => service?.stop());

/** A picture of the whole page, for which the window is made as high as that. */
async function picture(page, name, { width }) {
  await page.setViewportSize({ width, height: PHONE.height });
  const height = await page.evaluate(() => document.documentElement.scrollHeight);
  await page.setViewportSize({ width, height });
  await painted(page);
  await page.screenshot({ path: `${PICTURES}/${name}-${width}.png` });
}

/** Looks at a screen as it stands: measured where it is narrowest, and kept. */
async function look(page, name, ...more) {
  await page.setViewportSize(NARROWEST);
  await painted(page);
  for (const holds of [fits, tall, uncut]) await holds(page, name);
  for (const size of [PHONE, ...more]) await picture(page, name, size);
  await page.setViewportSize(PHONE);
}

/** What a screen shows besides, before it is answered as the story has it. */
const BESIDES = {
  hazard: async (page, name) => {
    await goOn(page);
    await page.locator(".trouble").waitFor();
    await look(page, `${name}-missing`);
    await answer(page, "hazard", ["discolouration"]);
    await look(page, `${name}-danger`);
  },
  postcode: async (page, name) => {
    await answer(page, "postcode", "ZX1 1AA");
    await answer(page, "tenure", "rent");
    await look(page, `${name}-ending`);
  },
};

for (const [name, start] of Object.entries(ENGINES)) {
  describe(name, () => {
    let engine;
    before(async () => (engine = await start()));
    after(() => engine?.stop());

    test(`${name}: every screen fits the narrowest phone, with targets of 44 pixels and no text cut off`, async () => {
      const page = await engine.page();
      await openForm(page, service.form);
      await walkCore(page, await storyOf("looped-terrace"), async ([first], number) => {
        const screen = `${name}-${String(number).padStart(2, "0")}-${first}`;
        await look(page, screen, ...(first === "protection" ? [DESK] : []));
        await BESIDES[first]?.(page, screen);
      });
      await result(page);
      await look(page, `${name}-result`, DESK);

      // The rest of the questions, each from the result's list.
      const more = page.locator(".more:not(.said)");
      await more.locator("summary").click();
      await page.locator(".said summary").click();
      await look(page, `${name}-result-unfolded`);
      const others = await more.locator(".row").count();
      assert.ok(others > 5);
      for (let at = 0; at < others; at += 1) {
        if (at > 0) await more.locator("summary").click();
        await more.locator(".row").nth(at).click();
        await page.locator("form.page .question").first().waitFor();
        await look(page, `${name}-more-${String(at + 1).padStart(2, "0")}`);
        await page.locator(".back").click();
        await result(page);
      }

      await goOn(page);
      await page.locator("#c-name").waitFor();
      await look(page, `${name}-contact`);
      await goOn(page);
      await page.locator(".trouble").first().waitFor();
      await look(page, `${name}-contact-missing`);
      await send(page, { name: "Invented Homeowner", telephone: "01632 960 123" });
      await page.locator(".link input").waitFor();
      await look(page, `${name}-sent`, DESK);
      assert.deepEqual(await page.problems, []);
    });
  });
}

for (const [where, viewport] of Object.entries({ "a phone": PHONE, "a desk": DESK })) {
  test(`on ${where} nothing moves when the first result comes late`, async () => {
    const browser = await launch();
    try {
      const page = await openPage(browser, { viewport });
      let letItCome;
      const held = new Promise((done) => (letItCome = done));
      await page.route("**/engine_bg.wasm", async (route) => (await held, route.continue()));
      await watchShifts(page);
      await openForm(page, service.form);
      await walkCore(page, await storyOf("looped-terrace"));
      assert.equal(await page.locator(".result [data-complexity]").count(), 0, "the result is not there yet");
      assert.ok(await page.locator("button.main").isVisible());
      await longAfterPress(page);
      letItCome();
      await result(page);
      assert.deepEqual(await shifts(page), []);
      assert.deepEqual(page.problems, []);
    } finally {
      await browser.close();
    }
  });
}

/** The ground that the form stands on. */
const ground = (page) => page.locator("presurvey-form .form").evaluate((form) => getComputedStyle(form).backgroundColor);
const OWN = { light: "rgb(251, 250, 246)", dark: "rgb(28, 31, 34)" };
const BRANDED = { light: "rgb(255, 255, 255)", dark: "rgb(0, 0, 0)" };

test("the attribute `scheme` holds from the first screen on, before the device and before the setup", async () => {
  const demo = JSON.parse(await readFile(new URL("../../src/model/config/demo-setup.json", import.meta.url), "utf8"));
  const published = (scheme) => {
    const branding = { ground: "#ffffff", dark: { ground: "#000000" }, ...(scheme && { scheme }) };
    return presurvey(["publish", "-"], JSON.stringify({ ...demo, branding }));
  };
  const [plain, light, dark] = await Promise.all([published(), published("light"), published("dark")]);
  const browser = await launch();
  try {
    for (const device of ["light", "dark"]) {
      for (const [attribute, config, first, later] of [
        ["", plain, device, device],
        ["", dark, device, "dark"],
        [`scheme="light"`, plain, "light", "light"],
        [`scheme="dark"`, plain, "dark", "dark"],
        [`scheme="light"`, dark, "light", "light"],
        [`scheme="dark"`, light, "dark", "dark"],
        [`scheme="device"`, dark, device, device],
      ]) {
        const page = await openPage(browser, { colorScheme: device });
        const lines = `<script type="module" src="/presurvey.js"></script><presurvey-form config="/api/config" ${attribute}></presurvey-form>`;
        const told = `${device}, ${attribute}`;
        await page.route("**/invented.html", (route) => route.fulfill({ contentType: "text/html", body: `<!doctype html><title>x</title>${lines}` }));
        await page.route("**/api/config", (route) => route.fulfill({ contentType: "application/json", body: config }));
        await openForm(page, `${service.origin}/invented.html`);
        assert.equal(await ground(page), OWN[first], `the first screen: ${told}`);
        await answer(page, "hazard", ["none"]);
        await goOn(page);
        await page.locator("#f-postcode").waitFor();
        // The config may come a moment later.
        await page.waitForFunction(() => document.querySelector("presurvey-form").shadowRoot.querySelector(".form").style.getPropertyValue("--presurvey-ground"));
        assert.equal(await ground(page), BRANDED[later], `a later screen: ${told}`);
        await page.emulateMedia({ media: "print" });
        assert.equal(await ground(page), BRANDED.light, `on paper: ${told}`);
        assert.deepEqual(page.problems, []);
        await page.context().close();
      }
      const page = await openPage(browser, { colorScheme: device });
      await openForm(page, `${service.origin}/frame.html?scheme=dark`);
      assert.equal(await ground(page), OWN.dark, `frame.html, ${device}`);
      await page.context().close();
    }
  } finally {
    await browser.close();
  }
});
