// The program behind the form, shared by all forms of a page. A part of presurvey.js.
import { HASHES, beside, checked, reason } from "./checked.js";

// In a bundle:
// What its script imports.
const IMPORTED = ["store.js", "assess.js", "lazy.js"];
let tries = 0;
// As everywhere:

/** The program, once it is there. */
export let glue;
let coming;

/** Loads the program, or goes on loading it; after a failure it is asked for anew. */
export const program = () => (coming ??= load().catch((problem) => ((coming = undefined), Promise.reject(problem))));

async function load() {
  make();
  // In a bundle: const loaded = await imported("form.js");
  // A browser may remember that a script did not come: another address asks again.
  const address = beside(tries++ ? `form.js?try=${tries}` : "form.js");
  await Promise.all([...IMPORTED.map((file) => checked(file)), checked("form.js", address)]);
  const loaded = await import(address);
  // As everywhere:
  await loaded.default({ module_or_path: await make() });
  return (glue = loaded);
}

let making;
// In a bundle:
let asked = document.querySelector("presurvey-form")?.program; // by own-page.js
// As everywhere:

/** Asks for the program itself, before all else: on a slow line it is what takes longest. */
export function make() {
  if (!making) (making = compiled("form_bg.wasm")).catch(() => (making = undefined)); // told where it is used
  return making;
}

// In a bundle:
/** A program, compiled while it comes; nothing of it runs before all its bytes were checked. */
async function compiled(file) {
  // The least program there is: where WebAssembly is refused it is refused too, before anything is fetched.
  new WebAssembly.Module(Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0));
  const integrity = HASHES[file];
  try {
    // The browser itself checks only what has come in full, and compiles after that; where nothing can be hashed (no secure
    // connection) that has to do.
    const { subtle } = crypto;
    const coming = (subtle && asked) || fetch(beside(file), subtle ? {} : { integrity });
    asked = undefined;
    const answer = await coming;
    if (!answer.ok) throw new TypeError();
    const bytes = answer.clone().arrayBuffer();
    const streams = answer.headers.get("content-type") === "application/wasm";
    const making = streams ? WebAssembly.compileStreaming(answer) : bytes.then((bytes) => WebAssembly.compile(bytes));
    making.catch(() => {}); // changed bytes may be no program at all: that they were changed is told first
    const found = subtle && new Uint8Array(await subtle.digest("SHA-256", await bytes));
    if (found && `sha256-${btoa(String.fromCharCode(...found))}` !== integrity) {
      console.error(`presurvey: ${file} is not what was built: its integrity is not ${integrity}`);
      throw new Error(`${file} was changed`);
    }
    return await making;
  } catch (problem) {
    throw problem instanceof TypeError ? await reason(file) : problem;
  }
}
// As everywhere:

/** Whether it may not run here, which no waiting mends; otherwise it did not come. */
export const isBlocked = (problem) => !(problem instanceof TypeError);
