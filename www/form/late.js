// What few need is fetched when somebody does.
export const elsewhere = async (does, ...given) => (await import("./elsewhere.js"))[does](...given);

// The drawings, as text: nothing but lines and words is taken from it.
export async function sketches(language) {
  for (const code of [language.split("-")[0], "en"]) {
    const answer = await fetch(new URL(`sketches-${code}.txt`, import.meta.url), { priority: "low" });
    if (answer.ok) return answer.text();
  }
}
