// The engine on a thread of its own: answers `{ id, answers, config, words }` with `{ id, assessment, shown }` or `{ id, error }`.
import init, { assess_shown } from "./engine.js";

onmessage = ({ data: { id, answers, config, words } }) => {
  try {
    const [assessment, shown] = assess_shown(answers, config, words);
    postMessage({ id, assessment, shown });
  } catch (error) {
    postMessage({ id, error: error.message });
  }
};

init({ module_or_path: new URL("./engine_bg.wasm", import.meta.url) }).then(
  () => postMessage({ ready: true }),
  () => postMessage({ ready: false }),
);
