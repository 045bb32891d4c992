// Loads the form's program, which all forms on a page share. A part of presurvey.js.
import { HASHES, beside, checked, reason } from "./checked.js";

// In a bundle:
// What its script imports.
const IMPORTED = ["store.js", "assess.js", "lazy.js"];
let tries = 0;
// As everywhere:

/** The program's JavaScript module, once it is loaded. */
export let glue;
let coming;

/** Loads the program; a call while it is being loaded joins in, and a call after a failure tries again. */
export const program = () => (coming ??= load().catch((problem) => ((coming = undefined), Promise.reject(problem))));

async function load() {
  make();
  // In a bundle: const loaded = await imported("form.js");
  // A browser may remember that a script failed to load, so another try uses another address.
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

/** Fetches and compiles the WebAssembly program; started before all else, because it takes longest on a slow line. */
export function make() {
  if (!making) (making = compiled("form_bg.wasm")).catch(() => (making = undefined)); // a failure is reported where the program is used
  return making;
}

// In a bundle:
/** Compiles a program while it is being downloaded; nothing of it runs before all its bytes are checked. */
async function compiled(file) {
  // The smallest possible program: this throws where WebAssembly is refused, before anything is fetched.
  new WebAssembly.Module(Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0));
  const integrity = HASHES[file];
  try {
    // The browser's own integrity check would delay compiling until everything is downloaded. It is used only where nothing can be hashed
    // here, because the connection is not secure.
    const { subtle } = crypto;
    const coming = (subtle && asked) || fetch(beside(file), subtle ? {} : { integrity });
    asked = undefined;
    const answer = await coming;
    if (!answer.ok) throw new TypeError();
    const bytes = answer.clone().arrayBuffer();
    const streams = answer.headers.get("content-type") === "application/wasm";
    const making = streams ? WebAssembly.compileStreaming(answer) : bytes.then((bytes) => WebAssembly.compile(bytes));
    making.catch(() => {}); // changed bytes may be no program at all: that they were changed is reported first
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

/** Whether the program is not allowed to run here, which waiting does not mend; otherwise it could not be fetched. */
export const isBlocked = (problem) => !(problem instanceof TypeError);
