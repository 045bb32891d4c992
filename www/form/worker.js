// The engine in a worker: replies to a message `{ id, answers, config, words }` with `{ id, assessment, shown }` or `{ id, error }`.
import init, { assess_shown } from "./engine.js";
// In a bundle: import program from "#beside/engine_bg.wasm.js";
// As everywhere:

onmessage = ({ data: { id, answers, config, words } }) => {
  try {
    const [assessment, shown] = assess_shown(answers, config, words);
    postMessage({ id, assessment, shown });
  } catch (error) {
    postMessage({ id, error: error.message });
  }
};

// In a bundle: init({ module_or_path: program }).then(
init({ module_or_path: new URL("./engine_bg.wasm", import.meta.url) }).then(
// As everywhere:
  () => postMessage({ ready: true }),
  () => postMessage({ ready: false }),
);
