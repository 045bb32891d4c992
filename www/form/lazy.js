// Loads scripts on demand that few homeowners need.
export const share = async (does, ...given) => (await import("./share.js"))[does](...given);

// Draws a plan; its script and its program are loaded for the first one.
export const plan = async (...given) => (await import("./draw.js")).draw(...given);

// In a bundle: import { fetched } from "./beside.js";
// As everywhere:
// Fetches the sheet of sketches as text; the form takes only paths and words from it.
export async function sketches(language) {
  for (const code of [language.split("-")[0], "en"]) {
    // In a bundle: const answer = await fetched(`sketches-${code}.txt`);
    const answer = await fetch(new URL(`sketches-${code}.txt`, import.meta.url), { priority: "low" });
    // As everywhere:
    if (answer.ok) return answer.text();
  }
}
