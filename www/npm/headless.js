// The engine without the form: takes answers and config as objects and returns the assessment as one, with the values that
// `presurvey assess` prints.
import init, { assess } from "./engine_js.js";

// In a bundle: import own from "#beside/engine_js_bg.wasm.js";
const own = new URL("./engine_js_bg.wasm", import.meta.url);
// As everywhere:

export async function load(program = own) {
  try {
    await init({ module_or_path: program });
    return assess;
  } catch (problem) {
    // The given program may be the form's engine, which takes text: earlier packages had no other.
    const text = await import("./engine.js");
    await text.default({ module_or_path: program }).catch(() => Promise.reject(problem));
    return (answers, config) => JSON.parse(text.assess_json(JSON.stringify(answers), JSON.stringify(config)));
  }
}
