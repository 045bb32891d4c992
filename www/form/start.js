// Starts the form. Found beside this script, so that it works from another origin too.
import init, { assess_json } from "./form.js";

await init({ module_or_path: new URL("./form_bg.wasm", import.meta.url) });

export { assess_json };
