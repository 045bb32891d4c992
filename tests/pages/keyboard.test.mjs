// The whole form by keyboard alone: Tab, arrows, Space, Enter and letters; no pointer, no script's click.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch, openPage } from "./lib/browser.mjs";
import { asked, openForm, result } from "./lib/form.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

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
      main: at?.classList?.contains("main") ?? false, checked: at?.checked ?? false,
      visible: Boolean(ring(shows) || (row && ring(getComputedStyle(row)))),
    };
  });

/** Tabs on until the focus is on such an element. */
async function tabTo(page, such, what) {
  for (let press = 0; press < 80; press += 1) {
    const at = await focused(page);
    if (such(at)) {
      assert.ok(at.visible, `the focus on ${what} can be seen`);
      return at;
    }
    await page.keyboard.press("Tab");
  }
  throw new Error(`eighty presses of Tab do not reach ${what}`);
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

test("from the first question to the reference without a pointer", async () => {
  const page = await openPage(browser);
  await openForm(page, service.form);
  const story = await storyOf("easy-detached");
  for (let screen = 0; screen < 30; screen += 1) {
    const ids = await asked(page);
    if (ids.length === 0) break;
    for (const id of ids) {
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
  await tabTo(page, (at) => at.main, "Send");
  await page.keyboard.press("Enter");
  await page.locator("#c-name").waitFor();
  for (const [id, text] of [["c-name", "Invented Keyboard"], ["c-telephone", "01632 960 125"]]) {
    await tabTo(page, (at) => at.id === id, id);
    await page.keyboard.type(text);
  }
  await tabTo(page, (at) => at.id === "c-consent", "consent");
  await page.keyboard.press("Space");
  await tabTo(page, (at) => at.main, "Send");
  await page.keyboard.press("Enter");
  await page.locator(".sent .reference").waitFor();
  assert.deepEqual(page.problems, []);
});
