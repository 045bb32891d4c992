// Checks of a screen's layout in every engine: nothing wider than the page, targets large enough, no text cut off.
import assert from "node:assert/strict";

/** Waits until the page's present state is painted. */
export const painted = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done()))));

/** Checks that nothing is wider than the page. */
export async function fits(page, where) {
  const wide = await page.evaluate(() => {
    const all = [...document.querySelector("presurvey-form").shadowRoot.querySelectorAll(".form *")];
    const limit = document.documentElement.clientWidth;
    const out = all.filter((one) => {
      const { left, right, width } = one.getBoundingClientRect();
      return width > 0 && one.checkVisibility() && (left < -0.5 || right > limit + 0.5) && !one.closest("svg");
    });
    const scrolls = document.documentElement.scrollWidth > limit ? ["the page scrolls"] : [];
    return [...scrolls, ...out.map((one) => one.outerHTML.slice(0, 200))];
  });
  assert.deepEqual(wide, [], where);
}

/** Checks that every target is at least 44 pixels high; the target of a choice is its whole row. */
export async function tall(page, where) {
  const low = await page.evaluate(() => {
    const all = [...document.querySelector("presurvey-form").shadowRoot.querySelectorAll(".form :is(button, summary, select, textarea, input, a)")];
    const pressed = all.filter((one) => one.checkVisibility()).map((one) => one.closest("label") ?? one);
    return pressed.filter((one) => one.getBoundingClientRect().height < 43.5).map((one) => one.outerHTML.slice(0, 200));
  });
  assert.deepEqual(low, [], where);
}

/** Checks that no text extends beyond its container: a drawing, a button, a row, a paragraph. */
export async function uncut(page, where) {
  const cut = await page.evaluate(() => {
    const HOLDS = "svg, button, label, summary, a, select, p, li, legend, h2, h3";
    const SLACK = 2; // a letter's box is a little higher than a narrow line
    const found = [];
    const texts = document.createTreeWalker(document.querySelector("presurvey-form").shadowRoot, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
      const text = texts.currentNode;
      const holder = text.parentElement?.closest(HOLDS);
      if (!holder?.checkVisibility() || text.data.trim() === "" || text.parentElement.matches("title, desc, style, option")) continue;
      const box = holder.getBoundingClientRect();
      const range = document.createRange();
      range.selectNodeContents(text);
      const over = [...range.getClientRects()].some(
        ({ left, right, top, bottom }) =>
          left < box.left - SLACK || right > box.right + SLACK || top < box.top - SLACK || bottom > box.bottom + SLACK,
      );
      if (over) found.push(`${text.data.trim()} in ${holder.outerHTML.slice(0, 120)}`);
    }
    return found;
  });
  assert.deepEqual(cut, [], where);
}
