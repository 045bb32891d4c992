// The engine without the form: answers and config in, assessment out; the same bytes as `presurvey assess` writes.
import init, { assess_json } from "./engine.js";

export async function load(program = new URL("./engine_bg.wasm", import.meta.url)) {
  await init({ module_or_path: program });
  return (answers, config) => JSON.parse(assess_json(JSON.stringify(answers), JSON.stringify(config)));
}
