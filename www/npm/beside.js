// Loads the files beside the form's scripts when these are part of a bundle. The build lists the files in files.js, in a way that bundlers
// follow. Their bytes are not checked here: that is the affair of whoever serves the bundle.
import { MODULES, PROGRAMS, TEXTS } from "./files.js";
import { begin } from "#beside/worker.js";

export { begin };

/** The address of a program. */
export const at = (file) => PROGRAMS[file];

// The form finds the available languages by these names; there are no hashes to check.
export { TEXTS as HASHES };
export const checked = async () => {};

/** Bundlers differ in the error for a file that could not be fetched; the form expects a TypeError, after which it waits for a network. */
const came = (file) => (problem) => Promise.reject(new TypeError(`${file} did not come`, { cause: problem }));

export const imported = (file) => MODULES[file]().catch(came(file));

/** A text file as the response that `fetch` would give. */
export async function fetched(file) {
  if (!TEXTS[file]) return new Response(null, { status: 404 });
  return new Response((await TEXTS[file]().catch(came(file))).default);
}

/** Why a program did not come: an Error if it is held back by a blocker or a filter, because the page itself comes between two tries. */
async function reason(file) {
  const comes = (address) => fetch(address, { cache: "reload" }).then(({ ok }) => ok, () => false);
  const isHeldBack = !(await comes(at(file))) && (await comes(document.baseURI)) && !(await comes(at(file)));
  return isHeldBack ? new Error(`${file} is held back`) : new TypeError(`${file} did not come`);
}

/** A program, compiled while it is being downloaded. */
export async function compiled(file) {
  // The smallest possible program: this throws where WebAssembly is refused, before anything is fetched.
  new WebAssembly.Module(Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0));
  const answer = await fetch(at(file)).catch(() => {});
  if (!answer?.ok) throw await reason(file);
  const streams = answer.headers.get("content-type") === "application/wasm";
  return streams ? WebAssembly.compileStreaming(answer) : WebAssembly.compile(await answer.arrayBuffer());
}
