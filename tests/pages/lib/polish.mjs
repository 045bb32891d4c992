// What a page in Polish must not say.
import assert from "node:assert/strict";

/** Words that every English screen has and no Polish one. */
const ENGLISH = /\b(the|you|your|please|is|are|of|with|next|send|about|not sure)\b/i;

/** No English is left that a homeowner would meet. */
export async function isPolish(page, where) {
  const text = await page.locator(".form").first().innerText();
  // The invented installer's name and trade terms in brackets stay English.
  const said = text.replace(/\([^)]*\)/g, "").replaceAll("Invented Installer", "");
  assert.doesNotMatch(said, ENGLISH, `${where}: ${said.match(ENGLISH)?.[0]} in ${said}`);
}
