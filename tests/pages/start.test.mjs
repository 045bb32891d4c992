// The first screen: there at once, working by itself, and left for the program without anything lost.
import assert from "node:assert/strict";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { axe } from "./lib/axe.mjs";
import { launch, openPage } from "./lib/browser.mjs";
import { answer, asked, goOn, openForm } from "./lib/form.mjs";
import { enquiryOf, signIn } from "./lib/installer.mjs";
import { tagsOf, telltalePhotograph } from "./lib/photograph.mjs";
import { serve } from "./lib/serve.mjs";
import { longAfterPress, shifts, watchShifts } from "./lib/shifts.mjs";

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const WASM = "**/form_bg.wasm";
// What the form asks for where there is no connection: its program, and a small file that shows whether there is one.
const NOTHING_MORE = /\/(form_bg\.wasm|plain\.js)$/;
const title = (page) => page.locator("h2").textContent();
const focusedTag = (page) => page.evaluate(() => document.activeElement?.shadowRoot?.activeElement?.tagName);

/** A page on which the program does not come until `let_it_come` is called. */
async function withoutProgram() {
  const page = await openPage(browser);
  let come;
  const coming = new Promise((yes) => (come = yes));
  await page.route(WASM, async (route) => {
    await coming;
    await route.continue();
  });
  return { page, letItCome: come };
}

/** A page of the service that a test lays out: an empty document under the service's own policy. */
async function emptyPage(body, { policy, first } = {}) {
  const page = await openPage(browser);
  if (first) await page.addInitScript(first);
  const address = `${service.origin}/laid-out.html`;
  const headers = policy ? { "content-security-policy": policy } : {};
  await page.route(address, (route) =>
    route.fulfill({
      contentType: "text/html",
      headers,
      body: `<!doctype html><html lang="en"><title>Laid out</title><main><h1>Laid out</h1>${body}</main><script type="module" src="/presurvey.js"></script>`,
    }),
  );
  await page.goto(address);
  return page;
}

const ELEMENT = `<presurvey-form config="/api/config" submit="/api/enquiries" installer="Invented &amp; Daughter" telephone="01632 960 001"></presurvey-form>`;

test("the first screen works before the program is there", async () => {
  const { page, letItCome } = await withoutProgram();
  await openForm(page, service.form);
  assert.deepEqual(await asked(page), ["hazard"], "where is asked once there is something");
  assert.match(await page.locator(".intro").innerText(), /eight minutes[\s\S]*Invented Installer/);
  assert.deepEqual(await axe(page), []);

  await answer(page, "hazard", ["smoke"]);
  assert.ok(await page.locator(".emergency a[href='tel:999']").isVisible(), "advice at once");
  await answer(page, "hazard-place", "service-head");
  assert.ok(await page.locator(".emergency a[href='tel:105']").isVisible());
  assert.ok(await page.locator("button.main").isHidden() && (await page.locator("#f-hazard").isHidden()), "a danger takes the screen");
  assert.match(await page.locator(".after .tell").innerText(), /^Send to Invented Installer$/);
  assert.deepEqual(await axe(page), []);

  await answer(page, "hazard", ["none"]);
  assert.equal(await page.locator(".emergency").count(), 0);
  assert.equal(await page.locator("#f-hazard input:checked").count(), 1, "none stands alone");
  await answer(page, "hazard", ["not-sure"]);
  assert.ok(await page.locator(".ending[role=status]").isVisible());
  assert.equal(await page.locator("#f-hazard input:checked").getAttribute("value"), "not-sure");
  await page.locator("#f-hazard input[value=not-sure]").uncheck();

  await goOn(page);
  assert.ok(await page.locator("#f-hazard .trouble").isVisible(), "nothing is chosen");
  assert.equal(await focusedTag(page), "INPUT");
  assert.match(await page.locator("#f-hazard").getAttribute("aria-describedby"), /e-hazard/);
  await answer(page, "hazard", ["tingle"]);
  assert.ok(await page.locator("#f-hazard .trouble").isHidden());
  assert.deepEqual(page.problems, []);
  letItCome();
});

test("what the script shows is what the program shows, answer by answer", async () => {
  for (const pressed of [false, true]) {
    const page = await openPage(browser);
    await openForm(page, service.form);
    const differences = await page.evaluate(async (pressed) => {
      const rest = () =>
        new Promise((done) => {
          const channel = new MessageChannel();
          channel.port1.onmessage = done;
          channel.port2.postMessage(0);
        });
      const until = async (find) => {
        for (const end = performance.now() + 20_000; performance.now() < end; ) {
          const found = find();
          if (found) return found;
          await new Promise(requestAnimationFrame);
        }
        throw new Error(`not within twenty seconds: ${find}`);
      };
      const first = document.querySelector("presurvey-form");
      const second = first.cloneNode();
      const name = "/api/config?second";
      second.setAttribute("config", name);
      const { version } = first.shadowRoot.querySelector(".form").dataset;
      const { Store } = await import("/store.js");
      const begun = JSON.stringify([["version", version], ["typed postcode", "Z"], ["step", "screen hazard"]]);
      await new Store(name).keep("", begun);
      first.after(second);
      second.shadowRoot.querySelector("[data-does=on]").click();
      await until(() => second.shadowRoot.querySelector(".program #f-hazard"));
      const both = [first, second];
      const shown = (form) => form.shadowRoot.querySelector(".form").innerText;
      const input = (form, name, value) => form.shadowRoot.querySelector(`input[name="${name}"][value="${value}"]`);
      const click = async (name, value) => {
        for (const form of both) input(form, name, value).click();
        await rest(); // the program draws before the next task
      };
      const differences = [];
      const compare = (state) => {
        const [mine, program] = both.map(shown);
        if (mine !== program) differences.push({ state, mine, program });
      };
      const values = (name) => [...first.shadowRoot.querySelectorAll(`input[name="${name}"]`)].map((one) => one.value);
      const set = async (wanted) => {
        for (const value of values("hazard")) {
          if (!wanted.includes(value) && input(first, "hazard", value).checked) await click("hazard", value);
        }
        for (const value of wanted) if (!input(first, "hazard", value).checked) await click("hazard", value);
      };
      compare("nothing");
      if (pressed) {
        for (const form of both) form.shadowRoot.querySelector("button.main").click();
        await rest();
        compare("pressed");
      }
      const words = values("hazard");
      const signs = words.filter((word) => !["none", "not-sure"].includes(word));
      const sets = words.map((word) => [word]);
      signs.forEach((one, at) => signs.slice(at + 1).forEach((other) => sets.push([one, other])));
      sets.push(signs, []);
      for (const place of [undefined, ...values("hazard-place")]) {
        if (place) {
          await set(["smoke"]);
          await click("hazard-place", place);
        }
        for (const one of sets) {
          await set(one);
          compare(`${one.join("+") || "nothing"} at ${place}`);
        }
      }
      return { differences, compared: sets.length };
    }, pressed);
    assert.deepEqual(differences.differences.slice(0, 3), []);
    assert.ok(differences.compared >= 2 + 10 + 45, "every sign alone and every two");
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
});

test("the answers go over to the program, and the focus to what follows", async () => {
  const page = await openPage(browser);
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator("#f-postcode").waitFor();
  assert.equal(await focusedTag(page), "H2");
  assert.equal(await page.locator("#f-hazard").count(), 0, "the first screen is gone");
  await page.locator(".back").click();
  await page.locator("#f-hazard").waitFor();
  assert.ok(await page.locator("#f-hazard input[value=none]").isChecked());
  assert.deepEqual(page.problems, []);
});

test("a program that is slow is waited for, and it goes on by itself", async () => {
  const { page, letItCome } = await withoutProgram();
  await openForm(page, service.form);
  await answer(page, "hazard", ["not-sure"]);
  await goOn(page);
  await page.locator(".waiting").waitFor();
  assert.ok(await page.locator("#f-hazard").isVisible());
  assert.deepEqual(await axe(page), []);
  letItCome();
  await page.locator("#f-postcode").waitFor();
  assert.equal(await focusedTag(page), "H2");
  assert.deepEqual(page.problems, []);
});

test("a changed answer waits no longer: the button is pressed anew", async () => {
  const { page, letItCome } = await withoutProgram();
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator(".waiting").waitFor();
  await answer(page, "hazard", ["smoke"]);
  await page.locator(".waiting").waitFor({ state: "hidden" });
  const came = page.waitForResponse(WASM);
  letItCome();
  await came;
  await goOn(page);
  await page.locator(".contact").waitFor();
  assert.deepEqual(page.problems, []);
});

for (const way of ["by itself", "by a button"]) {
  test(`without a connection it says so, and goes on ${way} when it is back`, async () => {
    const page = await openPage(browser);
    await page.route(NOTHING_MORE, (route) => route.abort("internetdisconnected"));
    await openForm(page, service.form);
    const failed = page.evaluate(
      () => new Promise((heard) => addEventListener("presurvey-failed", (event) => heard(event.detail), { once: true })),
    );
    await answer(page, "hazard", ["none"]);
    await goOn(page);
    await page.locator(".absent").waitFor();
    assert.deepEqual(await failed, { reason: "unreachable" });
    assert.deepEqual(await axe(page), []);
    assert.ok(await page.locator("#f-hazard input[value=none]").isChecked(), "nothing is lost");
    await page.unroute(NOTHING_MORE);
    if (way === "by itself") await page.evaluate(() => dispatchEvent(new Event("online")));
    else await page.locator("[data-does=try]").click();
    await page.locator("#f-postcode").waitFor();
    const others = page.problems.filter((problem) => !/form_bg.wasm|plain.js/.test(problem));
    assert.deepEqual(others, []);
  });
}

for (const [what, refuse] of [
  ["a blocker in the browser", (route) => route.abort("blockedbyclient")],
  ["a filter on the way", (route) => route.fulfill({ status: 403, contentType: "text/html", body: "<h1>Not allowed here</h1>" })],
  ["a filter that answers with a page of its own", (route) => route.fulfill({ contentType: "text/html", body: "<h1>Not allowed here</h1>" })],
]) {
  test(`where ${what} holds programs back, the plain form comes with the telephone, and sends`, async () => {
    const page = await openPage(browser);
    await page.route(WASM, refuse);
    await openForm(page, service.form);
    const failed = page.evaluate(
      () => new Promise((heard) => addEventListener("presurvey-failed", (event) => heard(event.detail), { once: true })),
    );
    await answer(page, "hazard", ["none"]);
    await goOn(page);
    await page.locator("#c-name").waitFor();
    assert.deepEqual(await failed, { reason: "blocked" });
    assert.equal(await page.locator(".plain a[href='tel:01632960000']").first().innerText(), "Or ring 01632 960 000");
    assert.deepEqual(await axe(page), []);
    await page.locator("#c-name").fill("Invented Filtered");
    await page.locator("#c-telephone").fill("01632 960 127");
    await goOn(page);
    await page.locator(".reference").waitFor();
  });
}

test("a line that fails for a moment is not taken for a blocker", async () => {
  const page = await openPage(browser);
  let tries = 0;
  await page.route(WASM, (route) => (tries++ < 2 ? route.abort("connectionreset") : route.continue()));
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  // It waits for a connection, or has the program already.
  await page.locator(".absent [data-does=try], #f-postcode").first().waitFor();
  if (await page.locator(".absent").isVisible()) await page.locator("[data-does=try]").click();
  await page.locator("#f-postcode").waitFor();
  assert.ok(tries >= 3);
});

test("a half-done form is offered at once, before anything else", async () => {
  const page = await openPage(browser);
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await answer(page, "postcode", "ZZ1");
  await answer(page, "other-point", "kept");
  await answer(page, "tenure", "rent");
  await goOn(page);
  await page.locator("#f-parking").waitFor();
  // What could be seen of the first screen is looked for at every frame.
  await page.addInitScript(() => {
    globalThis.seen = [];
    const look = () => {
      const root = document.querySelector("presurvey-form")?.shadowRoot;
      const shown = (what) => root?.querySelector(what)?.checkVisibility({ visibilityProperty: true });
      if (shown("#f-hazard")) globalThis.seen.push("first screen");
      if (shown(".begun")) globalThis.seen.push("panel");
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await page.reload();
  await page.locator(".begun").waitFor();
  await page.waitForFunction(() => globalThis.seen.includes("panel"));
  assert.ok(!(await page.evaluate(() => globalThis.seen)).includes("first screen"), "no flash of the first screen");
  assert.deepEqual(await axe(page), []);
  await page.locator("[data-does=on]").click();
  await page.locator("#f-parking").waitFor();
  assert.equal(await focusedTag(page), "H2");

  await page.reload();
  await page.locator(".begun summary").click();
  await page.locator("[data-does=again]").click();
  await page.locator("#f-hazard").waitFor();
  assert.equal(await page.locator("#f-hazard input:checked").count(), 0);
  await page.reload();
  await page.locator("#f-hazard").waitFor();
  assert.equal(await page.locator(".begun").count(), 0);
  assert.deepEqual(page.problems, []);
});

test("thrown away and gone before the store was there, it is not offered again", async () => {
  const page = await openPage(browser);
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await answer(page, "postcode", "ZZ1");
  await page.waitForFunction(() => Object.values(localStorage).includes("begun"));
  // The store's script does not come until the page is loaded once more.
  await page.route("**/store.js", (route) => route.abort());
  await page.reload();
  await page.locator(".begun summary").click();
  await page.locator("[data-does=again]").click();
  await page.locator("#f-hazard").waitFor();
  await page.unroute("**/store.js");
  await page.reload();
  await page.locator("#f-hazard").waitFor();
  await page.waitForFunction(() => Object.keys(localStorage).every((name) => !name.startsWith("presurvey ")));
  assert.equal(await page.locator(".begun").count(), 0, "the device has nothing of it any more");
});

test("the first touch is kept, even where the page goes at once", async () => {
  const { page, letItCome } = await withoutProgram();
  await openForm(page, service.form);
  await answer(page, "hazard", ["buzzing"]);
  await page.reload();
  await page.locator("[data-does=on]").click();
  letItCome();
  await page.locator(".program .emergency").waitFor();
  assert.ok(await page.locator("#f-hazard input[value=buzzing]").isChecked());
  assert.deepEqual(page.problems, []);
});

test("where no mark can be kept the database is asked first", async () => {
  const page = await openPage(browser);
  await page.addInitScript(() => {
    Object.defineProperty(globalThis, "localStorage", {
      get() {
        throw new DOMException("refused", "SecurityError");
      },
    });
  });
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await answer(page, "postcode", "ZZ1");
  await answer(page, "other-point", "kept");
  await answer(page, "tenure", "own");
  await goOn(page);
  await page.locator("#f-parking").waitFor();
  // Nothing is noted in the same breath here: the database takes a moment.
  await page.waitForFunction(
    () =>
      new Promise((done) => {
        indexedDB.open("presurvey", 1).onsuccess = ({ target: { result } }) => {
          const kept = result.transaction("drafts").objectStore("drafts").getAll();
          kept.onsuccess = () => (result.close(), done(JSON.stringify(kept.result).includes("screen parking")));
        };
      }),
  );
  await page.reload();
  await page.locator("[data-does=on]").click();
  await page.locator("#f-parking").waitFor();
  assert.deepEqual(page.problems, []);
});

test("a translator and an extension may have changed the screen", async () => {
  const { page, letItCome } = await withoutProgram();
  await openForm(page, service.form);
  await page.evaluate(() => {
    const root = document.querySelector("presurvey-form").shadowRoot;
    const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    const all = [];
    while (texts.nextNode()) all.push(texts.currentNode);
    for (const text of all) {
      const font = document.createElement("font");
      text.replaceWith(font);
      font.append(`«${text.data}»`);
    }
    root.querySelector(".intro").remove();
    root.querySelector("form").prepend(document.createElement("an-extension"));
    root.append(document.createElement("another-extension"));
  });
  await answer(page, "hazard", ["flame"]);
  assert.ok(await page.locator(".emergency").isVisible());
  await answer(page, "hazard", ["none"]);
  letItCome();
  await goOn(page);
  await page.locator("#f-postcode").waitFor();
  assert.equal(await page.locator("#f-hazard").count(), 0);
  assert.deepEqual(page.problems, []);
});

test("nothing moves that was not touched", async () => {
  const { page, letItCome } = await withoutProgram();
  await watchShifts(page);
  await openForm(page, service.form);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator(".waiting").waitFor();
  await longAfterPress(page);
  letItCome();
  await page.locator("#f-postcode").waitFor();
  assert.deepEqual(await shifts(page), []);
  assert.deepEqual(page.problems, []);
});

test("two on a page are apart, in names and answers", async () => {
  const page = await emptyPage(`${ELEMENT}<presurvey-form config="/api/config?two" submit="/api/enquiries"></presurvey-form>`);
  const [one, two] = [page.locator("presurvey-form").first(), page.locator("presurvey-form").last()];
  assert.match(await one.locator(".intro").innerText(), /Invented & Daughter/);
  assert.match(await two.locator(".intro").innerText(), /the installer/);
  await one.locator("#f-hazard input[value=smoke]").check();
  assert.ok(await one.locator(".emergency").isVisible());
  assert.equal(await two.locator(".emergency").count(), 0);
  await two.locator("#f-hazard input[value=none]").check();
  await two.locator("button.main").click();
  await two.locator("#f-postcode").waitFor();
  assert.ok(await one.locator("#f-hazard input[value=smoke]").isChecked());
  assert.deepEqual(page.problems, []);
});

test("moved it keeps what was answered; taken out and put back it goes on", async () => {
  const page = await emptyPage(`${ELEMENT}<div id="elsewhere"></div>`);
  await answer(page, "hazard", ["none"]);
  await page.evaluate(() => document.querySelector("#elsewhere").append(document.querySelector("presurvey-form")));
  assert.ok(await page.locator("#f-hazard input[value=none]").isChecked());
  await goOn(page);
  await answer(page, "postcode", "ZZ1");
  await page.evaluate(() => document.body.append(document.querySelector("presurvey-form")));
  assert.equal(await page.locator("#i-postcode").inputValue(), "ZZ1");
  await answer(page, "other-point", "kept");
  await answer(page, "tenure", "own");
  await goOn(page);
  await page.locator("#f-parking").waitFor();
  await page.evaluate(async () => {
    globalThis.form = document.querySelector("presurvey-form");
    globalThis.form.remove();
    await new Promise((done) => setTimeout(done));
    await new Promise((done) => setTimeout(done));
    document.body.append(globalThis.form);
  });
  await page.locator("#f-parking").waitFor();
  await page.locator(".back").click();
  assert.equal(await page.locator("#i-postcode").inputValue(), "ZZ1");
  assert.equal(await page.locator(".program").count(), 1);
  assert.deepEqual(page.problems, []);
});

test("whoever goes on before the page was painted keeps the screen they came to", async () => {
  // Frames and the timer that stands in for them wait until the second screen is there.
  const page = await emptyPage(ELEMENT, {
    first: () => {
      const [frame, timer, held] = [requestAnimationFrame, setTimeout, []];
      let holds = true;
      window.requestAnimationFrame = (work) => (holds ? held.push(() => frame(work)) : frame(work));
      window.setTimeout = (work, after, ...more) => (holds && after === 300 ? held.push(work) : timer(work, after, ...more));
      window.paint = () => ((holds = false), held.forEach((work) => work()));
    },
  });
  await page.locator("#f-hazard").waitFor();
  await answer(page, "hazard", "none");
  await goOn(page);
  await page.locator("#f-postcode").waitFor();
  const ready = page.evaluate(() => new Promise((done) => document.querySelector("presurvey-form").addEventListener("presurvey-ready", done, { once: true })).then(() => true));
  await page.evaluate(() => window.paint());
  await ready;
  // What is asked of the device then is asked of the same database: once this has its answer, that has it as well.
  await page.evaluate(async () => {
    const { Store } = await import("/store.js");
    await new Store("/api/config").read();
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  });
  assert.equal(await page.locator("#f-postcode").count(), 1);
  assert.equal(await page.locator(".form.begun").count(), 0);
  await page.context().close();
});

test("added by a script it starts like one that was there", async () => {
  const page = await emptyPage("");
  const heard = await page.evaluate(async (markup) => {
    const heard = [];
    for (const name of ["presurvey-ready", "presurvey-step"]) addEventListener(name, (event) => heard.push([name, event.detail]));
    const ready = new Promise((done) => addEventListener("presurvey-ready", done, { once: true }));
    document.body.insertAdjacentHTML("beforeend", markup);
    const shown = document.querySelector("presurvey-form").shadowRoot.querySelector("#f-hazard").checkVisibility();
    await ready;
    return { heard, shown };
  }, ELEMENT);
  assert.ok(heard.shown, "in the same task");
  assert.deepEqual(heard.heard, [
    ["presurvey-step", { kind: "screen", step: "hazard" }],
    ["presurvey-ready", null],
  ]);
  assert.deepEqual(page.problems, []);
});

test("a second script on the page, older or newer, changes nothing", async () => {
  const page = await emptyPage(`${ELEMENT}<script type="module" src="/presurvey.js?another"></script>`);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator("#f-postcode").waitFor();
  assert.deepEqual(page.problems, []);

  // A form that another script has defined stays that script's.
  const taken = await emptyPage(ELEMENT, {
    first: () =>
      customElements.define("presurvey-form", class extends HTMLElement {
        connectedCallback() {
          this.attachShadow({ mode: "open" }).innerHTML = "<p>older</p>";
        }
      }),
  });
  await taken.locator("presurvey-form p", { hasText: "older" }).waitFor();
  assert.deepEqual(taken.problems, []);
});

const WITHOUT_WASM =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; form-action 'self'; base-uri 'none'";

/** The form's own page under a policy that refuses WebAssembly. */
async function refusedPage() {
  const page = await openPage(browser);
  await page.route(service.form, async (route) => {
    const response = await route.fetch();
    await route.fulfill({ response, headers: { ...response.headers(), "content-security-policy": WITHOUT_WASM } });
  });
  await openForm(page, service.form);
  return page;
}

/** Waits until the device keeps so many photos. */
const keptPhotos = (page, count) =>
  page.waitForFunction(
    (count) =>
      new Promise((done) => {
        indexedDB.open("presurvey", 1).onsuccess = ({ target: { result } }) => {
          const counted = result.transaction("photos").objectStore("photos").count();
          counted.onsuccess = () => (result.close(), done(counted.result === count));
        };
      }),
    count,
  );

/** The refusal itself is written to the console, and it is the only thing. */
const otherProblems = (page) => page.problems.filter((problem) => !/wasm|WebAssembly/i.test(problem));

test("where WebAssembly is refused the first screen works and the plain form sends", async () => {
  const page = await refusedPage();
  const failed = page.evaluate(
    () => new Promise((heard) => addEventListener("presurvey-failed", (event) => heard(event.detail), { once: true })),
  );
  await answer(page, "hazard", ["discolouration", "smoke"]);
  assert.ok(await page.locator(".emergency").isVisible());
  await answer(page, "hazard-place", "service-head");
  await goOn(page);
  await page.locator("#c-name").waitFor();
  assert.deepEqual(await failed, { reason: "blocked" });
  assert.equal(await focusedTag(page), "H2");
  assert.ok(await page.locator(".emergency a[href='tel:105']").isVisible(), "the advice stays");
  assert.deepEqual(await axe(page), []);
  await goOn(page);
  assert.ok(await page.locator("#ce-name").isVisible());
  assert.equal(await focusedTag(page), "INPUT");
  assert.deepEqual(await axe(page), []);
  await page.locator("#c-name").fill("Invented Plain");
  await page.locator("#c-telephone").fill("01632 960 126");
  await page.locator("#c-note").fill("A drive, and a board in the hall.");
  const folder = await mkdtemp(join(tmpdir(), "presurvey-plain-"));
  const photograph = await telltalePhotograph(page, join(folder, "photo.jpg"));
  await page.locator("#c-photo").setInputFiles([photograph]);
  await page.locator(".chosen img").waitFor();
  await page.locator(".chosen button").click();
  assert.equal(await page.locator(".chosen img").count(), 0, "it can be taken out again");
  await page.locator("#c-photo").setInputFiles([photograph]);
  await page.locator(".chosen img").waitFor();
  await keptPhotos(page, 1);
  assert.deepEqual(await axe(page), []);

  // Nothing of it is lost on the way.
  await page.reload();
  await page.locator("[data-does=on]").click();
  await page.locator(".emergency").waitFor();
  assert.ok(await page.locator("#f-hazard input[value=smoke]").isChecked());
  assert.ok(await page.locator("#f-hazard-place input[value=service-head]").isChecked());
  await goOn(page);
  await page.locator("#c-name").waitFor();
  assert.equal(await page.locator("#c-name").inputValue(), "Invented Plain");

  // The first try meets no answer; the next goes by itself.
  const tries = [];
  await page.route("**/api/enquiries", (route) => (tries.push(route.request()) > 1 ? route.continue() : route.abort()));
  await page.locator(".chosen img").waitFor();
  assert.ok(await page.locator(".chosen img").evaluate((img) => img.decode().then(() => img.naturalWidth > 0)));
  await goOn(page);
  await page.locator(".reference").waitFor();
  const reference = (await page.locator(".reference").textContent()).trim();
  assert.equal(await focusedTag(page), "H2");
  assert.deepEqual(await axe(page), []);

  assert.equal(tries.length, 2);
  const body = tries[1].postDataBuffer();
  const start = body.indexOf(Buffer.from([0xff, 0xd8, 0xff]));
  await writeFile(join(folder, "sent.jpg"), body.subarray(start, body.lastIndexOf(Buffer.from([0xff, 0xd9])) + 2));
  const tags = Object.keys(await tagsOf(join(folder, "sent.jpg")));
  assert.deepEqual(tags.filter((tag) => /^(GPS|IFD|ExifIFD|XMP|IPTC|MakerNotes)|Comment|Serial|Artist/.test(tag)), []);
  await rm(folder, { recursive: true, force: true });

  await page.unroute("**/api/enquiries");
  await page.reload();
  await page.locator("#f-hazard").waitFor();
  assert.equal(await page.locator(".begun").count(), 0, "what was sent is gone from the device");
  assert.deepEqual(otherProblems(page).filter((problem) => !problem.includes("/api/enquiries")), []);

  const desk = await openPage(browser);
  await signIn(desk, service);
  const { payload } = (await enquiryOf(desk, service, reference)).enquiry;
  assert.deepEqual([...payload.answers.hazard.signs].sort(), ["discolouration", "smoke"]);
  assert.equal(payload.answers.hazard.place, "service-head");
  assert.equal(payload.contact.name, "Invented Plain");
  assert.match(payload.contact.note, /A drive, and a board in the hall\./);
  assert.equal(payload.photos.length, 1);
});

test("the plain form tells why it did not go as the program does, and goes by itself when somebody answers", async () => {
  const page = await refusedPage();
  const reasons = [];
  await page.exposeFunction("heardFailure", (reason) => reasons.push(reason));
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator("#c-name").fill("Invented Plain");
  await page.locator("#c-telephone").fill("01632 960 126");
  await page.evaluate(() => addEventListener("presurvey-failed", ({ detail }) => heardFailure(detail.reason)));
  await page.clock.install();
  await page.route("**/api/enquiries", (route) => route.fulfill({ status: 422, body: "" }));
  await goOn(page);
  await page.locator(".trouble.refused").waitFor();
  assert.deepEqual(reasons, ["refused"]);
  await page.unroute("**/api/enquiries");

  let answers = false;
  let tries = 0;
  await page.route("**/api/enquiries", (route) => (tries++, answers ? route.continue() : route.abort()));
  await goOn(page);
  while (!(await page.locator(".trouble.no-answer").isVisible())) await page.clock.runFor(1_000);
  assert.equal(tries, 4);
  assert.deepEqual(reasons, ["refused", "no-answer"]);
  answers = true;
  await page.clock.runFor(60_000);
  await page.locator(".reference").waitFor();
  assert.equal(tries, 5);
});

test("what is no picture is refused in the plain form with words", async () => {
  const page = await refusedPage();
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator("#c-photo").setInputFiles({ name: "no.jpg", mimeType: "image/jpeg", buffer: Buffer.from("no picture") });
  await page.locator("[data-trouble=not-a-picture]").waitFor();
  assert.equal(await page.locator(".chosen img").count(), 0);
  assert.deepEqual(otherProblems(page), []);
});

test("without a script a plain form says whom to ring and sends", async () => {
  const page = await openPage(browser, { javaScriptEnabled: false });
  await page.goto(service.form);
  assert.ok(await page.locator("presurvey-form").isHidden(), "what needs a script is not shown");
  for (const number of ["999", "105", "0800111999"]) assert.ok(await page.locator(`.emergency a[href='tel:${number}']`).first().isVisible());
  const form = page.locator("form[method=post]");
  await form.locator("input[value=buzzing]").check();
  await form.locator("[name=name]").fill("Invented Scriptless");
  await form.locator("[name=telephone]").fill("01632 960 127");
  const answered = page.waitForResponse((response) => response.request().method() === "POST");
  await form.locator("button.main").click();
  assert.ok((await answered).ok());
  assert.match((await page.locator("body").innerText()), /[BCDFGHJKMNPQRTVWXZ234678]{4}-[BCDFGHJKMNPQRTVWXZ234678]{4}/);
});
