// What few need is fetched when somebody does.
export const share = async (does, ...given) => (await import("./share.js"))[does](...given);

// A plan: what draws it and its program are fetched by the first place that wants one.
export const plan = async (...given) => (await import("./draw.js")).draw(...given);

// In a bundle: import { fetched } from "./beside.js";
// As everywhere:
// The drawings, as text: nothing but lines and words is taken from it.
export async function sketches(language) {
  for (const code of [language.split("-")[0], "en"]) {
    // In a bundle: const answer = await fetched(`sketches-${code}.txt`);
    const answer = await fetch(new URL(`sketches-${code}.txt`, import.meta.url), { priority: "low" });
    // As everywhere:
    if (answer.ok) return answer.text();
  }
}
