// Runs the engine for the form: in a worker or, where none can be had, on the page's own thread. Fetches nothing before it is asked to.

// Milliseconds that a worker may take before the page's own thread does its work: longer than any assessment takes on any phone.
const PATIENCE = 8_000;
// Milliseconds that the page may stay busy before the engine is fetched all the same, and the pause before fetching is tried again.
const BUSY = 2_000;
const PAUSE = 15_000;

// In a bundle: import { at, begin, imported } from "./beside.js";
const at = (name) => new URL(name, import.meta.url).href;

// Where a page requires Trusted Types, the worker's address goes through a policy of this name.
const plainly = { createScriptURL: (address) => address };
let policy;
const trusted = (address) =>
  (policy ??= self.trustedTypes?.createPolicy("presurvey-engine", plainly) ?? plainly).createScriptURL(address);
// As everywhere:

// The engine is reached through a function of answers, config and words. Its promise has the value that `assess` describes, and never
// rejects.
let way, onPage, worker, calm;
// In a bundle:
let imports = 0;
// As everywhere:

const fromPage = () => (onPage ??= (async () => {
  // In a bundle: const program = await imported("engine.js");
  // A browser may remember that a module failed to load, so another try uses another address.
  const program = await import(at(imports++ ? `engine.js?${imports}` : "engine.js"));
  // As everywhere:
  await program.default({ module_or_path: at("engine_bg.wasm") });
  worker?.terminate();
  const ask = async (...said) => {
    try {
      return program.assess_shown(...said);
    } catch (error) {
      return error.message;
    }
  };
  way = Promise.resolve(ask);
  return ask;
})().catch((gone) => {
  onPage = undefined;
  throw gone;
}));

const fromWorker = () => new Promise((started, refused) => {
  // In a bundle: const mine = begin();
  const script = at("worker.js");
  // A worker script from another origin is refused, but a blob whose only line imports it is accepted.
  const words = () => URL.createObjectURL(new Blob([`import ${JSON.stringify(script)}`], { type: "text/javascript" }));
  const mine = new Worker(trusted(new URL(script).origin === self.origin ? script : words()), { type: "module" });
  // As everywhere:
  worker = mine;

  const jobs = new Map();
  let last = 0;
  const ask = (...said) => new Promise((done) => {
    const id = ++last;
    jobs.set(id, { said, done, late: setTimeout(replace, PATIENCE) });
    const [answers, config, words] = said;
    mine.postMessage({ id, answers, config, words });
  });
  const finish = (id, answered) => {
    const job = jobs.get(id);
    if (!job) return;
    clearTimeout(job.late);
    jobs.delete(id);
    job.done(answered(job));
  };
  const finishAll = (answered) => [...jobs.keys()].forEach((id) => finish(id, answered));
  // The jobs of a silent or broken worker are done again on the page's thread.
  const replace = (lost = () => {}) => fromPage().then((ask) => finishAll(({ said }) => ask(...said)), lost);
  const broke = () => {
    refused();
    replace(() => {
      way = undefined;
      finishAll(() => {});
    });
  };

  mine.onerror = (event) => {
    event.preventDefault();
    broke();
  };
  mine.onmessage = ({ data }) => {
    if (data.ready) started(ask);
    else if ("ready" in data) broke();
    else finish(data.id, () => data.error ?? [data.assessment, data.shown]);
  };
});

const engine = () => (way ??= new Promise((yes, no) => {
  const late = setTimeout(() => fromPage().then(yes, () => {}), PATIENCE);
  fromWorker().catch(fromPage).then(yes, no).finally(() => clearTimeout(late));
}).catch((gone) => {
  way = undefined;
  throw gone;
}));

const idle = () => (calm ??= new Promise((yes) => {
  self.requestIdleCallback ? requestIdleCallback(yes, { timeout: BUSY }) : setTimeout(yes, 300);
}));

/** Fetches and starts the engine once the page is idle; resolves to whether that worked. */
export const ready = () => idle().then(engine).then(() => true, () => false);

/** Resolves when it is worth trying again: the device is online again, or some time has passed. */
export const later = () => new Promise((yes) => {
  addEventListener("online", yes, { once: true });
  setTimeout(yes, PAUSE);
});

/**
 * Assesses answers with a config, both JSON; `words` is the engine's part of a language's wording, absent for English. Resolves to a pair
 * of the assessment as JSON and the view model as text; to one text, an error, where answers or config can't be read; or to undefined
 * where the engine can't be loaded or does not answer within `within` milliseconds.
 */
export const assess = (answers, config, words, within) => Promise.race([
  engine().then((ask) => ask(answers, config, words), () => {}),
  new Promise((yes) => within === undefined || setTimeout(yes, within)),
]);
