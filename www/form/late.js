// What few need is fetched when somebody does.
export const elsewhere = async (does, ...given) => (await import("./elsewhere.js"))[does](...given);

// The drawings, as text: nothing but lines and words is taken from it.
export async function sketches(language) {
  const answer = await fetch(new URL(`sketches-${language}.txt`, import.meta.url), { priority: "low" });
  return answer.ok ? answer.text() : undefined;
}
