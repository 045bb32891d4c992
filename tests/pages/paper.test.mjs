// The copy of the result: printed by itself, two sheets of A4 at most, with everything unfolded and whose it is.
import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import { after, before, test } from "node:test";
import { PICTURES, launch, openPage } from "./lib/browser.mjs";
import { openForm, result, walkCore } from "./lib/form.mjs";
import { printed } from "./lib/paper.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
  await mkdir(PICTURES, { recursive: true });
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

for (const name of ["easy-detached", "looped-terrace"]) {
  test(`${name}: the copy fits two sheets of A4 and holds price, answers and whose form it is`, async () => {
    const page = await openPage(browser);
    await openForm(page, service.form);
    await walkCore(page, await storyOf(name));
    await result(page);
    const { html, sheet } = await printed(page);
    assert.deepEqual(page.problems, []);
    await page.context().close();

    const paper = await openPage(browser, { viewport: { width: 680, height: 1000 } }); // A4 between its margins
    await paper.setContent(html);
    await paper.addStyleTag({ content: sheet });
    await paper.emulateMedia({ media: "print" });
    const text = await paper.locator("body").innerText();
    assert.match(text, /Invented/, "whose form it is");
    assert.match(text, /before a survey, not a quotation|There is no price/);
    assert.match(text, /What you told us/);
    assert.match(text, /20\d\d/, "the day");
    assert.doesNotMatch(text, /Send to|Print or save/);
    await paper.screenshot({ path: `${PICTURES}/paper-${name}.png`, fullPage: true });
    const pdf = (await paper.pdf({ format: "A4", margin: { top: "15mm", bottom: "15mm", left: "15mm", right: "15mm" } })).toString("latin1");
    const sheets = Number(/\/Type\s*\/Pages\b[^>]*?\/Count\s+(\d+)/.exec(pdf)?.[1] ?? /\/Count\s+(\d+)/.exec(pdf)?.[1]);
    assert.ok(sheets >= 1 && sheets <= 2, `${sheets} sheets`);
    await paper.context().close();
  });
}
