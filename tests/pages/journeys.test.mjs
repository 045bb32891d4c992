// Three invented homes, driven through the real page to the enquiry on the installer's page, and through the program.
import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { DESK, PHONE, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { answer, asked, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { presurvey } from "./lib/program.mjs";
import { serve } from "./lib/serve.mjs";
import { answersOf, fileOf, storyOf } from "./lib/stories.mjs";

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 123" };

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
  await mkdir(PICTURES, { recursive: true });
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

/** All that the page and the form in it show. */
const shown = async (page) =>
  (await page.locator("body").innerText()) +
  (await page.evaluate(() => [...document.querySelector("presurvey-form").shadowRoot.children].map((one) => one.innerText).join("\n")));

const picture = (page, name) => page.screenshot({ path: `${PICTURES}/${name}.png`, fullPage: true });

/** A whole journey on a phone, every screen looked at by axe-core; gives back what the service then keeps. */
async function journey(name, { onResult }) {
  const page = await openPage(browser, { viewport: PHONE });
  await openForm(page, service.form);
  const story = await storyOf(name);
  const met = await walkCore(page, story, async (questions, number) => {
    assert.deepEqual(await axe(page), [], `${name}, screen ${number}: ${questions}`);
    await picture(page, `${name}-${String(number).padStart(2, "0")}-${questions[0]}`);
  });
  await onResult(page);
  if ((await page.locator(".contact").count()) === 0) await goOn(page);
  await page.locator("#c-name").waitFor();
  assert.deepEqual(await axe(page), [], `${name}, contact`);
  await picture(page, `${name}-contact`);
  const reference = await send(page, PERSON);
  assert.match(reference, /^[BCDFGHJKMNPQRTVWXZ234678]{4}-[BCDFGHJKMNPQRTVWXZ234678]{4}$/);
  assert.deepEqual(await axe(page), [], `${name}, sent`);
  await picture(page, `${name}-sent`);
  assert.deepEqual(page.problems, []);
  await page.context().close();

  const desk = await openPage(browser, { viewport: DESK });
  await signIn(desk, service);
  const kept = await enquiryOf(desk, service, reference);
  const row = desk.locator("a", { hasText: reference }).or(desk.locator(`a[href*="${kept.client_key}"]`)).first();
  await row.click();
  await desk.locator("body", { hasText: PERSON.name }).waitFor();
  await desk.waitForFunction((name) => document.body.innerText.includes(name), PERSON.name);
  return { met, kept, desk };
}

/** The form's answers are the story's, and what was sent is what the program makes of them, byte for byte. */
async function sameAsTheProgram(name, kept) {
  const { payload } = kept.enquiry;
  const { as_of, ...told } = payload.answers;
  assert.deepEqual(told, await answersOf(name));
  const own = JSON.parse(await presurvey(["assess", "-"], JSON.stringify(payload.answers)));
  assert.deepEqual(payload.assessment, own);
  assert.equal(payload.as_of, as_of);
  assert.equal(kept.agreement, "equal");
  const story = JSON.parse(await presurvey(["assess", fileOf(name)]));
  assert.equal(story.complexity, own.complexity);
  assert.deepEqual(story.band, own.band);
}

test("an easy home is straightforward", async () => {
  const { kept, desk, met } = await journey("easy-detached", {
    onResult: async (page) => {
      assert.equal(await result(page), "straightforward");
      assert.deepEqual(await axe(page), [], "result");
      await picture(page, "easy-detached-result");
      const text = await page.locator(".result").innerText();
      assert.match(text, /£[\d,]+ to £[\d,]+/);
      assert.match(text, /before a survey/i);
      assert.match(text, /VAT/);
      assert.match(text, /invented/i);
    
    },
  });
  assert.ok(!met.includes("hazard-place"));
  await sameAsTheProgram("easy-detached", kept);
  assert.deepEqual(await axe(desk), [], "installer's page");
  await picture(desk, "installer-easy-detached");
  assert.deepEqual(desk.problems, []);
});

test("a terraced house on a neighbour's supply depends on others", async () => {
  const { kept, desk } = await journey("looped-terrace", {
    onResult: async (page) => {
      assert.equal(await result(page), "depends-on-others");
      assert.ok(await page.locator(".result [data-flag='looped-supply']").isVisible());
      assert.match(await page.locator(".result .gates").first().innerText(), /network/i);
      assert.deepEqual(await axe(page), [], "result");
      await picture(page, "looped-terrace-result");
    },
  });
  await sameAsTheProgram("looped-terrace", kept);
  const flag = kept.own_assessment.flags.find((one) => one.code === "looped-supply");
  assert.deepEqual(flag.evidence, ["one fuse carrier, four conductors at the service head"]);
  const shown = await desk.locator("body").innerText();
  assert.match(shown, /looped/i);
  assert.match(shown, /one fuse carrier, four conductors/);
  assert.deepEqual(await axe(desk), [], "installer's page");
  await picture(desk, "installer-looped-terrace");
  assert.deepEqual(desk.problems, []);
});

test("scorch marks at the service head are looked at first", async () => {
  const page = await openPage(browser, { viewport: PHONE });
  await openForm(page, service.form);
  assert.deepEqual(await asked(page), ["hazard"]);
  await answer(page, "hazard", ["discolouration"]);
  // At once: on this screen, before where it is has been asked.
  await page.locator(".emergency[role=alert]").waitFor();
  await answer(page, "hazard-place", "service-head");
  const advice = await page.locator(".emergency").innerText();
  assert.match(advice, /touch/i);
  assert.match(advice, /105/);
  assert.ok(await page.locator(".emergency a[href='tel:105']").isVisible());
  assert.deepEqual(await axe(page), []);
  await picture(page, "scorched-head-advice");
  await goOn(page);
  await page.locator("#c-name").waitFor();
  assert.ok(await page.locator(".emergency").isVisible(), "the advice stays");
  if ((await page.locator("#f-postcode").count()) > 0) await answer(page, "postcode", "ZZ2 3CC");
  assert.doesNotMatch(await shown(page), /£/, "no price anywhere");
  await picture(page, "scorched-head-contact");
  const reference = await send(page, PERSON);
  assert.doesNotMatch(await shown(page), /£/);
  assert.deepEqual(page.problems, []);

  const desk = await openPage(browser, { viewport: DESK });
  await signIn(desk, service);
  const kept = await enquiryOf(desk, service, reference);
  assert.equal(kept.row.complexity, "look-first");
  assert.equal(kept.row.band, null);
  assert.equal(kept.own_assessment.band, null);
  assert.deepEqual(kept.own_assessment.work, [], "nothing is planned beside a hazard");
  await sameAsTheProgram("scorched-head", kept);
  await picture(desk, "installer-list");
  assert.deepEqual(await axe(desk), [], "the list");
  // Gravest first: the list begins with what is to be looked at.
  const { enquiries } = await (await desk.request.get(`${service.origin}/api/installer/enquiries?limit=200`)).json();
  const order = ["look-first", "depends-on-others", "more-involved", "straightforward"];
  const places = enquiries.filter((one) => !one.handled).map((one) => order.indexOf(one.complexity));
  assert.deepEqual(places, [...places].sort((a, b) => a - b));
  await desk.setViewportSize(PHONE);
  await picture(desk, "installer-list-phone");
  await desk.locator(`a[href*="${kept.client_key}"]`).first().click();
  await desk.waitForFunction((name) => document.body.innerText.includes(name), PERSON.name);
  await picture(desk, "installer-scorched-phone");
  assert.deepEqual(desk.problems, []);
});
