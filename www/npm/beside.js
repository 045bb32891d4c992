// How, in a bundle, the form's scripts have the files beside them. What there is the build writes (files.js), each named so that a
// bundler finds it; that the bytes are right is the affair of whoever serves the bundle.
import { MODULES, PROGRAMS, TEXTS } from "./files.js";
import { begin } from "#beside/worker.js";

export { begin };

/** Where a program lies. */
export const at = (file) => PROGRAMS[file];

// By these names the form knows which languages there are; there is nothing to be checked.
export { TEXTS as HASHES };
export const checked = async () => {};

/** Every bundler has an error of its own for what did not come; the form waits for a network where it is a TypeError. */
const came = (file) => (problem) => Promise.reject(new TypeError(`${file} did not come`, { cause: problem }));

export const imported = (file) => MODULES[file]().catch(came(file));

/** A text as the answer that it would be the body of. */
export async function fetched(file) {
  if (!TEXTS[file]) return new Response(null, { status: 404 });
  return new Response((await TEXTS[file]().catch(came(file))).default);
}

/** A program, compiled while it comes. */
export async function compiled(file) {
  // The least program there is: where WebAssembly is refused it is refused too, before anything is fetched.
  new WebAssembly.Module(Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0));
  const answer = await fetch(at(file));
  if (!answer.ok) throw new TypeError(`${file} did not come`);
  const streams = answer.headers.get("content-type") === "application/wasm";
  return streams ? WebAssembly.compileStreaming(answer) : WebAssembly.compile(await answer.arrayBuffer());
}
