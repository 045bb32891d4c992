// Checks that a page in Polish has no English left.
import assert from "node:assert/strict";

/** Words of which every English screen has some and no Polish screen has any. */
const ENGLISH = /\b(the|you|your|please|is|are|of|with|next|send|about|not sure)\b/i;

/** Checks that a homeowner finds no English on the page. */
export async function isPolish(page, where) {
  const text = await page.locator(".form").first().innerText();
  // The invented installer's name, and trade terms in brackets, stay English.
  const said = text.replace(/\([^)]*\)/g, "").replaceAll("Invented Installer", "");
  assert.doesNotMatch(said, ENGLISH, `${where}: ${said.match(ENGLISH)?.[0]} in ${said}`);
}
