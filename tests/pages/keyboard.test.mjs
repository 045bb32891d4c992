// The whole form by keyboard alone, in each engine: Tab, arrows, Space, Enter and letters; no pointer, no script's click.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { ENGINES } from "./lib/engines.mjs";
import { asked, openForm, result } from "./lib/form.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

let service;
before(async () => (service = await serve()));
after(() => service?.stop());

/** What has the focus, inside the shadow root too. */
const focused = (page) =>
  page.evaluate(() => {
    let at = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    const shows = at && at.getClientRects().length > 0 ? getComputedStyle(at) : undefined;
    const ring = (style) => style && ((style.outlineStyle !== "none" && style.outlineWidth !== "0px") || style.boxShadow !== "none");
    const row = at?.closest?.("label");
    return {
      tag: at?.tagName ?? "", type: at?.type ?? "", name: at?.name ?? "", id: at?.id ?? "", value: at?.value ?? "",
      main: at?.classList?.contains("main") ?? false, back: at?.classList?.contains("back") ?? false,
      checked: at?.checked ?? false, text: at?.textContent ?? "",
      visible: Boolean(ring(shows) || (row && ring(getComputedStyle(row)))),
    };
  });

/** Presses a key until the focus is on such an element, and sees the focus on every stop; gives back all of them. */
async function stops(page, key, such, what) {
  const met = [];
  for (let press = 0; press < 80; press += 1) {
    const at = await focused(page);
    met.push(at);
    if (press > 0) assert.ok(at.visible, `the focus on ${at.name || at.id || at.text} can be seen, on the way to ${what}`);
    if (such(at)) return met;
    await page.keyboard.press(key);
  }
  throw new Error(`eighty presses of ${key} do not reach ${what}`);
}

/** Tabs on until the focus is on such an element. */
const tabTo = async (page, such, what) => (await stops(page, "Tab", such, what)).at(-1);

/** From the screen's title to the main button and back again, past the title to "Back": the same stops both ways. */
async function thereAndBack(page) {
  const there = await stops(page, "Tab", (at) => at.main, "the main button");
  const back = await stops(page, "Shift+Tab", (at) => at.back, "Back");
  // A group of choices may be entered at its first one or at its last, by one stop or by several.
  const named = (all) => all.map((at) => at.name || at.id || at.text).filter((name, at, names) => name !== names[at - 1]);
  assert.deepEqual(named(back.slice(0, -1).reverse()), named(there.slice(1)));
}

async function choose(page, id, words) {
  for (const word of [words].flat()) {
    const at = await tabTo(page, (at) => at.name === id, id);
    if (at.type === "checkbox") {
      await tabTo(page, (at) => at.name === id && at.value === word, `${id} ${word}`);
      await page.keyboard.press("Space");
      continue;
    }
    for (let press = 0; press < 12; press += 1) {
      const now = await focused(page);
      if (now.value === word) {
        if (!now.checked) await page.keyboard.press("Space");
        break;
      }
      await page.keyboard.press("ArrowDown");
    }
    assert.equal((await focused(page)).value, word, id);
    assert.ok((await focused(page)).checked, `${id} ${word}`);
  }
}

for (const [name, start] of Object.entries(ENGINES)) {
  describe(name, () => {
    let engine;
    before(async () => (engine = await start()));
    after(() => engine?.stop());

    test(`${name}: from the first question to the reference without a pointer`, async () => {
      const page = await engine.page();
      await openForm(page, service.form);
      const story = await storyOf("easy-detached");
      for (let screen = 0; screen < 30; screen += 1) {
        const ids = await asked(page);
        if (ids.length === 0) break;
        if (screen > 0) assert.equal((await focused(page)).tag, "H2", `${ids}: a new screen begins at its title`);
        // A photo, a length and its unit, drawings.
        if (["inlet", "route-length", "protection"].includes(ids[0])) await thereAndBack(page);
        // What is asked may depend on what was said a moment ago.
        const told = new Set();
        const open = async () => (await asked(page)).find((id) => !told.has(id));
        for (let id = ids[0]; id !== undefined; id = await open()) {
          told.add(id);
          const said = story[id];
          if (typeof said === "object" && !Array.isArray(said)) {
            await tabTo(page, (at) => at.id === `i-${id}`, id);
            await page.keyboard.type(String(said.value));
            await page.keyboard.press("Tab");
            await page.keyboard.type(said.unit.slice(0, 3));
          } else if (await page.locator(`#i-${id}`).count()) {
            await tabTo(page, (at) => at.id === `i-${id}`, id);
            await page.keyboard.type(String(said));
            assert.equal((await focused(page)).value, said, `${id}: no letter is lost, whatever appears beside the field`);
          } else {
            await choose(page, id, Array.isArray(said) ? said : String(said));
          }
        }
        await tabTo(page, (at) => at.main, "the main button");
        await page.keyboard.press("Enter");
        await page.waitForFunction(
          (first) => !document.querySelector("presurvey-form").shadowRoot.querySelector(`#f-${first}`),
          ids[0],
        );
      }
      assert.equal(await result(page), "straightforward");
      assert.equal((await focused(page)).tag, "H2");
      await thereAndBack(page);
      await tabTo(page, (at) => at.main, "Send");
      await page.keyboard.press("Enter");
      await page.locator("#c-name").waitFor();
      for (const [id, text] of [["c-name", "Invented Keyboard"], ["c-telephone", "01632 960 125"]]) {
        await tabTo(page, (at) => at.id === id, id);
        await page.keyboard.type(text);
      }
      await tabTo(page, (at) => at.main, "Send");
      await page.keyboard.press("Enter");
      await page.locator(".sent .reference").waitFor();
      assert.deepEqual(await page.problems, []);
    });
  });
}
