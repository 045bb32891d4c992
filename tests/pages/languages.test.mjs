// The form in another language: Polish as it is built, and a made-up one from right to left, which comes through the same door.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { mkdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { PHONE, PICTURES, launch, openPage } from "./lib/browser.mjs";
import { fits } from "./lib/fits.mjs";
import { answer, goOn, openForm, result, send, walkCore } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { isPolish } from "./lib/polish.mjs";
import { publishedBy, pagesPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const built = (name) => readFile(join(pagesPath(), "form", name), "utf8");

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
  await mkdir(PICTURES, { recursive: true });
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const picture = (page, name) => page.screenshot({ path: `${PICTURES}/${name}.png`, fullPage: true });
const root = (page) => page.locator("presurvey-form .form").first();
const text = (page) => root(page).innerText();

/** A page of the service's origin with these lines, and whatever else is changed on its way. */
async function pageWith(lines, { viewport = PHONE, routes = {}, lang = "en-GB" } = {}) {
  const page = await openPage(browser, { viewport });
  const head = `<meta charset="utf-8"><title>Invented site</title><meta name="viewport" content="width=device-width, initial-scale=1">`;
  const markup = `<!doctype html><html lang="${lang}">${head}<main><h1>Invented site</h1>${lines}</main></html>`;
  await page.route("**/invented.html", (route) => route.fulfill({ contentType: "text/html; charset=utf-8", body: markup }));
  for (const [address, body] of Object.entries(routes)) {
    await page.route(address, (route) => route.fulfill(typeof body === "function" ? body(route) : { body }));
  }
  return page;
}

const formOf = (attributes = "") => `<script type="module" src="/presurvey.js"></script>
<presurvey-form config="/api/config" submit="/api/enquiries" installer="Invented Installer" telephone="01632 960 000" ${attributes}></presurvey-form>`;

test("a whole journey in Polish, on a page of our own, to the reference", async () => {
  const page = await openPage(browser, { viewport: PHONE, locale: "pl-PL" });
  await openForm(page, new URL("pl.html", service.form).href);
  const story = await storyOf("easy-detached");
  await walkCore(page, story, async (questions, number) => {
    assert.equal(await root(page).getAttribute("lang"), "pl");
    await isPolish(page, `screen ${number}`);
    await fits(page, `screen ${number}`);
    assert.deepEqual(await axe(page), [], `screen ${number}: ${questions}`);
    await picture(page, `polish-${String(number).padStart(2, "0")}-${questions[0]}`);
  });
  assert.equal(await result(page), "straightforward");
  const said = (await text(page)).replaceAll("\u00a0", " ");
  assert.match(said, /od (\d+ )?\d+ £ do (\d+ )?\d+ £/);
  assert.match(said, /Szacunek przed oględzinami \(estimate\), nie wiążąca oferta \(quotation\)/);
  await isPolish(page, "result");
  await fits(page, "result");
  assert.deepEqual(await axe(page), [], "result");
  await picture(page, "polish-result");
  if ((await page.locator(".contact").count()) === 0) await goOn(page);
  await page.locator("#c-name").waitFor();
  await isPolish(page, "contact");
  await picture(page, "polish-contact");
  const reference = await send(page, { name: "Invented Homeowner", telephone: "01632 960 123" });
  await isPolish(page, "sent");
  await picture(page, "polish-sent");
  assert.deepEqual(page.problems, []);
  await page.context().close();

  // What the installer is sent is what an English form sends.
  const desk = await openPage(browser);
  await signIn(desk, service);
  const kept = await enquiryOf(desk, service, reference);
  assert.equal(kept.agreement, "equal");
  // Whoever rings back knows in which language.
  assert.equal(kept.enquiry.payload.contact.language, "pl");
  await desk.locator(`a[data-row][href*="${kept.row.client_key}"]`).click();
  await desk.locator(".contact", { hasText: "Polish" }).waitFor();
  assert.doesNotMatch(JSON.stringify(kept.enquiry.payload.assessment), /[ąćęłńśźż]/);
  await desk.context().close();
});

test("hazard advice stands in Polish on the first screen before the program is there", async () => {
  const page = await pageWith(formOf('language="pl"'), { routes: { "**/form_bg.wasm": () => ({ status: 503 }) } });
  await openForm(page, `${service.origin}/invented.html`);
  await answer(page, "hazard", ["gas-smell", "smoke"]);
  const advice = page.locator(".emergency");
  const said = await advice.innerText();
  assert.match(said, /proszę wyjść z budynku, wyprowadzić wszystkich i nie wracać\. Potem proszę zadzwonić pod 999\./);
  assert.match(said, /pogotowie gazowe w Wielkiej Brytanii \(bez Irlandii Północnej\): 0800 111 999/);
  const numbers = await advice.locator("a").evaluateAll((all) => all.map((one) => one.getAttribute("href")));
  assert.ok(numbers.includes("tel:999") && numbers.includes("tel:0800111999"), numbers.join());
  await isPolish(page, "first screen");
  assert.equal(await root(page).getAttribute("lang"), "pl");
  await picture(page, "polish-hazard");
  await page.context().close();
});

test("the language is what the element says, else what is nearest around it, else English", async () => {
  for (const [lang, attributes, expected] of [
    ["pl-PL", "", "pl"],
    ["en-GB", 'lang="pl"', "pl"],
    ["pl", 'language="en"', "en-GB"],
    ["de", "", "en-GB"],
    ["en-GB", 'language="constructor"', "en-GB"],
  ]) {
    const page = await pageWith(formOf(attributes), { lang });
    const asked = [];
    page.on("request", (request) => asked.push(new URL(request.url()).pathname));
    await openForm(page, `${service.origin}/invented.html`);
    assert.equal(await root(page).getAttribute("lang"), expected, `${lang} ${attributes}`);
    // The second screen is drawn in the form's language: whatever that takes has been asked for by then.
    await answer(page, "hazard", "none");
    await goOn(page);
    await page.locator(".program h2").waitFor();
    const fetched = asked.filter((path) => /^\/(first|words)-/.test(path)).sort();
    assert.deepEqual(fetched, expected === "pl" ? ["/first-pl.json", "/words-pl.txt"] : [], `${lang} ${attributes}`);
    await page.context().close();
  }
});

test("a language that does not come, or was changed, leaves English", async () => {
  for (const reply of [() => ({ status: 404 }), () => ({ body: '{"first":"<p>changed</p>"}' })]) {
    const page = await pageWith(formOf('language="pl"'), { routes: { "**/first-pl.json": reply } });
    await openForm(page, `${service.origin}/invented.html`);
    assert.equal(await root(page).getAttribute("lang"), "en-GB");
    await answer(page, "hazard", "none");
    await goOn(page);
    await page.locator("#f-postcode").waitFor();
    assert.equal(await root(page).getAttribute("lang"), "en-GB");
    await page.context().close();
  }
});

test("an installer's own sentence holds in its language", async () => {
  const config = await (await publishedBy(service)).json();
  config.wording = { "question-home": "Which house?", "pl.question-home": "Który dom?", "question-age": "How old?" };
  const routes = { "**/api/config": { json: config } };
  const reach = async (attributes) => {
    const page = await pageWith(formOf(attributes));
    for (const [address, reply] of Object.entries(routes)) await page.route(address, (route) => route.fulfill(reply));
    await openForm(page, `${service.origin}/invented.html`);
    const story = await storyOf("easy-detached");
    const said = [];
    await walkCore(page, story, async () => said.push(await text(page)));
    await page.context().close();
    return said.join("\n");
  };
  const polish = await reach('language="pl"');
  assert.match(polish, /Który dom\?/);
  assert.match(polish, /Mniej więcej kiedy go zbudowano\?/, "a sentence changed in English is not said in Polish");
  assert.match(await reach(""), /Which house\?[^]*How old\?/);
});

// A made-up language: each letter with a mark on it, about forty hundredths longer, from right to left.

const MARKS = { a: "á", e: "é", i: "í", o: "ó", u: "ú", y: "ý", c: "ç", n: "ñ", s: "š", z: "ž", A: "Á", E: "É", O: "Ó", U: "Ú" };
/** Texts alone: places, control characters and what stands between them for a choice stay. */
const pseudo = (message) =>
  message
    .split(/(\{[^}]*\}|\u0001[^\u0002]*|\u0002[^\u0003]*\u0003|\u0004)/)
    .map((part, at) => {
      if (at % 2 === 1 || !/[a-ząćęłńóśźż]/i.test(part)) return part;
      const marked = part.replace(/[a-zA-Z]/g, (letter) => MARKS[letter] ?? letter);
      const words = marked.trim().split(" ");
      const more = "\u0647\u0648 \u0645\u062b\u0627\u0644 ".repeat(Math.ceil(part.length * 0.05)).slice(0, Math.ceil(part.length * 0.4)).trim();
      return `\u202b${words.join(" ")} ${more}\u202c${part.endsWith(" ") ? " " : ""}`;
    })
    .join("");

/** The files of Polish made into that language, with the hashes that the first script is to know. */
async function fromRight() {
  const hash = (bytes) => `sha256-${createHash("sha256").update(bytes).digest("base64")}`;
  const [words, first, script] = await Promise.all(["words-pl.txt", "first-pl.json", "presurvey.js"].map(built));
  const [head, ...lines] = words.split("\n");
  assert.equal(head, "pl ltr");
  const text = ["ar-XB rtl", ...lines.map((line) => (line === "\f" ? line : pseudo(line)))].join("\n");
  const made = JSON.parse(first);
  for (const part of ["first", "begun"]) {
    const marked = made[part].replace(/>([^<]+)</g, (whole, said) => `>${pseudo(said)}<`);
    made[part] = marked.replace('lang="pl"', 'lang="ar-XB" dir="rtl"');
  }
  const own = JSON.stringify({ ...made, words: hash(text) });
  assert.ok(script.includes(hash(first)));
  const drawings = await built("sketches-pl.txt");
  return { "**/sketches-ar.txt": drawings, "**/words-pl.txt": text, "**/first-pl.json": own, "**/presurvey.js": script.replace(hash(first), hash(own)) };
}

test("a language from right to left, half as long again, holds on a phone", async () => {
  const files = await fromRight();
  const kinds = { txt: "text/plain; charset=utf-8", json: "application/json", js: "text/javascript" };
  const routes = Object.fromEntries(
    Object.entries(files).map(([address, body]) => [address, () => ({ body, contentType: kinds[address.split(".").pop()] })]),
  );
  const page = await pageWith(formOf('language="pl"'), { routes });
  await openForm(page, `${service.origin}/invented.html`);
  const story = await storyOf("looped-terrace");
  await walkCore(page, story, async (questions, number) => {
    const form = root(page);
    assert.deepEqual([await form.getAttribute("lang"), await form.getAttribute("dir")], ["ar-XB", "rtl"], questions.join());
    const { direction, right, left } = await page.locator("fieldset.question").first().evaluate((field) => {
      const row = field.querySelector("input").getBoundingClientRect();
      const box = field.getBoundingClientRect();
      return { direction: getComputedStyle(field).direction, right: box.right - row.right, left: row.left - box.left };
    });
    assert.equal(direction, "rtl");
    assert.ok(right <= left, `${questions}: the choices begin at the right`);
    await fits(page, `screen ${number}: ${questions}`);
    assert.deepEqual(await axe(page), [], `screen ${number}: ${questions}`);
    await picture(page, `from-right-${String(number).padStart(2, "0")}-${questions[0]}`);
  });
  await result(page);
  await fits(page, "result");
  assert.deepEqual(await axe(page), [], "result");
  await picture(page, "from-right-result");
  assert.match(await page.locator(".result").innerText(), /\u202b/);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});
