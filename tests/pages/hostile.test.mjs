// The form on pages that are no friends of it: no style and no script of theirs reaches in, nothing of ours reaches out.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { join } from "node:path";
import { launch, openPage, problemsBeside } from "./lib/browser.mjs";
import { answer, goOn, result, walkCore } from "./lib/form.mjs";
import { host } from "./lib/host.mjs";
import { pagesPath, serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

const UPLOAD = join(pagesPath(), "upload");

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const element = () => `<presurvey-form config="${service.origin}/api/config" submit="${service.origin}/api/enquiries"></presurvey-form>`;
const start = (folder = "/presurvey/") => `<script type="module" src="${folder}presurvey.js"></script>`;
const page = (head, body) => `<!doctype html><html lang="en-GB"><meta charset="utf-8"><title>Invented site</title>
<meta name="viewport" content="width=device-width, initial-scale=1">${head}<body>${body}</html>`;

/** A site with these pages, and a visitor at one of them. */
async function site(pages) {
  const own = await host({ pages, folders: { "/presurvey/": UPLOAD, "/old/": UPLOAD } });
  const open = async (path, { before: prepare = async () => {}, viewport } = {}) => {
    const visitor = await openPage(browser, viewport && { viewport });
    await prepare(visitor);
    await visitor.goto(own.origin + path);
    return visitor;
  };
  return { ...own, open };
}

const problems = (visitor) => problemsBeside(visitor, service.origin);

/** A half-done form is offered first. */
const goOnWhereYouWere = (visitor) => visitor.locator("[data-does=on]").click();

/** Every custom property that the form's own sheet uses. */
const properties = async () => {
  const sheet = await readFile(new URL("../../www/form/form.css", import.meta.url), "utf8");
  return [...new Set(sheet.match(/--[\w-]+/g))];
};

/**
 * What each of these sheets changes of the form when the page adopts it: in an element's place in the form, or in any of its
 * computed properties; a line each. The page's own sheets are as before afterwards.
 */
const changes = (visitor, sheets) =>
  visitor.evaluate((sheets) => {
    const form = document.querySelector("presurvey-form").shadowRoot.querySelector(".form");
    const looks = () => {
      const from = form.getBoundingClientRect();
      return [form, ...form.querySelectorAll("*")].map((one) => {
        const { x, y, width, height } = one.getBoundingClientRect();
        const style = getComputedStyle(one);
        const place = width + height === 0 ? "nowhere" : [x - from.x, y - from.y, width, height].map(Math.round).join(" ");
        const properties = [...style].filter((name) => !name.startsWith("--")).map((name) => [name, style.getPropertyValue(name)]);
        return { name: `${one.localName}.${one.getAttribute("class") ?? ""}`, looks: new Map([["place", place], ...properties]) };
      });
    };
    const plain = looks();
    const found = [];
    for (const [title, text] of Object.entries(sheets)) {
      const hostile = new CSSStyleSheet();
      hostile.replaceSync(text);
      document.adoptedStyleSheets = [hostile];
      for (const [at, { name, looks: now }] of looks().entries()) {
        for (const [property, before] of plain[at].looks) {
          if (now.get(property) !== before) found.push(`${title}: ${name} ${property}: ${before} is ${now.get(property)}`);
        }
      }
    }
    document.adoptedStyleSheets = [];
    return found;
  }, sheets);

test("no style of the page's reaches in, on the first screen, a later one and the result", async () => {
  const names = await properties();
  const prefixed = names.map((name) => name.replace("--", "--presurvey-"));
  const leaks = [...names, ...prefixed].map((name) => `${name}: red`).join("; ");
  const sheets = {
    resets: `html { font-size: 8px; } :root { ${leaks}; color-scheme: dark; } * { all: unset !important; }
      *, *::before, *::after { box-sizing: content-box; outline: 3px solid red !important; }
      div, p, h2, button, input, label, fieldset, svg { display: none !important; }`,
    inherited: `html { font: italic 900 8px/0 serif; letter-spacing: 1em; word-spacing: 2em; text-indent: 3em; direction: rtl;
        text-transform: uppercase; white-space: pre; text-align: right; cursor: none; color: red; list-style: square inside;
        quotes: none; text-shadow: 1px 1px red; -webkit-text-stroke: 1px red; word-break: break-all; hyphens: auto; tab-size: 1;
        font-variant: small-caps; font-feature-settings: "smcp"; pointer-events: none; user-select: none; accent-color: red; }
      presurvey-form { display: inline; line-height: 0; letter-spacing: 1em; direction: rtl; unicode-bidi: bidi-override; ${leaks}; }
      presurvey-form * { display: none; }`,
    registered: names.map((name) => `@property ${name} { syntax: "<length>"; inherits: false; initial-value: 7px; }`).join("\n"),
  };
  const own = await site({ "/": page("<style>body { margin: 0; }</style>" + start(), element()) });
  try {
    // Tall enough that nothing sticks to the window's foot: where the page has the form begin is the page's affair.
    const visitor = await own.open("/", { viewport: { width: 360, height: 6000 } });
    await visitor.locator("#f-hazard").waitFor();
    assert.deepEqual(await changes(visitor, sheets), [], "first screen");
    await walkCore(visitor, await storyOf("easy-detached"), async (questions, number) => {
      if (number === 3) assert.deepEqual(await changes(visitor, sheets), [], "third screen");
    });
    await result(visitor);
    assert.deepEqual(await changes(visitor, sheets), [], "result");
    assert.deepEqual(problems(visitor), []);
  } finally {
    await own.stop();
  }
});

test("a page that hides the form hides it", async () => {
  const own = await site({
    "/": page(start(), `<div style="visibility: hidden">${element()}</div><div hidden>${element()}</div>`),
  });
  try {
    const visitor = await own.open("/");
    await visitor.locator("#f-hazard").first().waitFor({ state: "attached" });
    await visitor.locator("#f-hazard").nth(1).waitFor({ state: "attached" });
    for (const at of [0, 1]) assert.ok(!(await visitor.locator("#f-hazard").nth(at).isVisible()));
  } finally {
    await own.stop();
  }
});

test("nothing of ours reaches out: no global, no style, no mark on the page", async () => {
  const body = `<h1 class="form">A heading</h1><div class="form question"><p class="main">Text</p><button>A button</button></div>`;
  const style = "<style>.form { color: rgb(1, 2, 3); } body { margin: 8px; }</style>";
  const own = await site({ "/without": page(style, body + element()), "/with": page(style + start(), body + element()) });
  const around = (visitor) =>
    visitor.evaluate(() => {
      const markup = document.documentElement.cloneNode(true);
      markup.querySelectorAll("presurvey-form, script").forEach((one) => one.remove());
      return {
        globals: Reflect.ownKeys(globalThis).map(String).sort(),
        prototypes: [Object, Array, Function, Promise, Element, EventTarget, String].map((one) => Reflect.ownKeys(one.prototype).map(String).join()),
        markup: markup.outerHTML,
        sheets: document.adoptedStyleSheets.length + document.styleSheets.length,
        // What grows with the form below it is left out.
        styles: [...document.querySelectorAll("h1, .question, .question *, body, html")].map((one) => {
          const style = getComputedStyle(one);
          return [...style].filter((name) => !/height|size|origin/.test(name)).map((name) => `${name}: ${style[name]}`).join("; ");
        }),
        kept: [Object.keys(localStorage).filter((name) => !name.startsWith("presurvey ")), Object.keys(sessionStorage), document.cookie],
        title: document.title,
        address: location.search + location.hash,
        history: history.length,
      };
    });
  try {
    const without = await own.open("/without");
    const expected = await around(without);
    const visitor = await own.open("/with");
    await visitor.locator("#f-hazard").waitFor();
    await walkCore(visitor, await storyOf("easy-detached"));
    await result(visitor);
    assert.deepEqual(await around(visitor), expected);
    assert.deepEqual(await visitor.context().cookies(), []);
    assert.deepEqual(problems(visitor), []);
  } finally {
    await own.stop();
  }
});

test("two forms on one page keep out of each other's way", async () => {
  const own = await site({ "/": page(start(), `<main>${element()}</main><aside>${element()}</aside>`) });
  try {
    const visitor = await own.open("/");
    const [one, other] = [visitor.locator("main presurvey-form"), visitor.locator("aside presurvey-form")];
    await one.locator("#f-hazard").waitFor();
    await other.locator("#f-hazard").waitFor();
    await one.locator('#f-hazard input[value="none"]').check();
    assert.ok(!(await other.locator('#f-hazard input[value="none"]').isChecked()));
    await one.locator("button.main").click();
    await one.locator("#f-postcode").waitFor();
    assert.ok(await other.locator("#f-hazard").isVisible());
    await other.locator('#f-hazard input[value="burning-smell"]').check();
    await other.locator(".emergency[role=alert]").waitFor();
    assert.equal(await one.locator(".emergency").count(), 0);
    assert.deepEqual(problems(visitor), []);
  } finally {
    await own.stop();
  }
});

test("added, moved, removed and added again at run time", async () => {
  const own = await site({ "/": page(start(), `<main></main><aside></aside>`) });
  try {
    const visitor = await own.open("/");
    await visitor.evaluate((markup) => document.querySelector("main").insertAdjacentHTML("beforeend", markup), element());
    await visitor.locator("main #f-hazard").waitFor();
    await answer(visitor, "hazard", ["none"]);
    await visitor.evaluate(() => document.querySelector("aside").append(document.querySelector("presurvey-form")));
    await visitor.locator("aside #f-hazard").waitFor();
    await visitor.waitForFunction(() => document.querySelector("presurvey-form").shadowRoot.querySelector('input[value="none"]')?.checked);
    await goOn(visitor);
    await visitor.locator("#f-postcode").waitFor();
    await answer(visitor, "postcode", "ZZ1 1AA");
    await visitor.evaluate(() => document.querySelector("main").append(document.querySelector("presurvey-form")));
    await visitor.waitForFunction(() => document.querySelector("main presurvey-form").shadowRoot.querySelector("#f-postcode input")?.value === "ZZ1 1AA");
    assert.equal(await visitor.locator(".form").count(), 1);
    await visitor.evaluate(() => {
      const form = document.querySelector("presurvey-form");
      form.remove();
      document.querySelector("aside").append(form);
      form.remove();
    });
    await visitor.evaluate((markup) => document.querySelector("aside").insertAdjacentHTML("beforeend", markup), element());
    await goOnWhereYouWere(visitor);
    await visitor.waitForFunction(() => document.querySelector("aside presurvey-form").shadowRoot.querySelector("#f-postcode input")?.value === "ZZ1 1AA");
    assert.deepEqual(problems(visitor), []);
  } finally {
    await own.stop();
  }
});

test("an old and a new version of the script side by side", async () => {
  const own = await site({
    "/old-first": page(start("/old/") + start(), element()),
    "/new-first": page(start() + start("/old/"), element()),
  });
  try {
    for (const path of ["/old-first", "/new-first"]) {
      const visitor = await own.open(path);
      await visitor.locator("#f-hazard").waitFor();
      await answer(visitor, "hazard", ["none"]);
      await goOn(visitor);
      await visitor.locator("#f-postcode").waitFor();
      assert.equal(await visitor.locator(".form").count(), 1);
      assert.deepEqual(problems(visitor), []);
      await visitor.context().close();
    }
    // Whichever was first defined the element, its own parts are beside it.
    assert.ok(own.requests.includes("/old/form_bg.wasm") && own.requests.includes("/presurvey/form_bg.wasm"));
  } finally {
    await own.stop();
  }
});

const PATCHES = {
  "enumerable extras on every prototype": () => {
    for (const one of [Object, Array, Function, String, Number, Promise, Element, Event, Node, Request]) {
      one.prototype.inventedExtra = function inventedExtra() {};
    }
  },
  "a toJSON of an old library": () => {
    Array.prototype.toJSON = () => "broken";
    String.prototype.toJSON = () => "broken";
    Object.prototype.toJSON = undefined;
  },
  "frozen prototypes": () => [Object, Array, Function, String, Promise, Map, Set].forEach((one) => Object.freeze(one.prototype)),
};

for (const [name, patch] of Object.entries(PATCHES)) {
  test(`a page with ${name} is survived`, async () => {
    const own = await site({ "/": page(start(), element()) });
    try {
      const visitor = await own.open("/", { before: (visitor) => visitor.addInitScript(patch) });
      await visitor.locator("#f-hazard").waitFor();
      await walkCore(visitor, await storyOf("easy-detached"));
      assert.equal(await result(visitor), "straightforward");
      await visitor.reload();
      await goOnWhereYouWere(visitor);
      await visitor.locator(".result [data-complexity]").waitFor();
      assert.deepEqual(problems(visitor), []);
    } finally {
      await own.stop();
    }
  });
}
