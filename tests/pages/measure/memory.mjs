// What the form holds in memory: script and WebAssembly, without photos, after garbage was collected; once and ten times.
import { openPage } from "../lib/browser.mjs";
import { storyOf } from "../lib/stories.mjs";
import { WATCH } from "./slow.mjs";
import { WALKER, walk } from "./walk.mjs";

const TIMES = 10;

/** Runs in the page before anything else: remembers every WebAssembly memory that is made in it. */
const MEMORIES = () => {
  globalThis.memories = new Set();
  const keep = ({ exports }) => {
    for (const one of Object.values(exports)) if (one instanceof WebAssembly.Memory) globalThis.memories.add(one);
  };
  for (const way of ["instantiate", "instantiateStreaming"]) {
    const original = WebAssembly[way];
    WebAssembly[way] = async (...given) => {
      const made = await original.apply(WebAssembly, given);
      keep(made.instance ?? made);
      return made;
    };
  }
};

/** Bytes of a worker's WebAssembly memory: a module that runs already is given again, with its memory. */
const memoryOf = (worker) =>
  worker.evaluate(async () => {
    const program = performance.getEntriesByType("resource").find(({ name }) => name.endsWith("_bg.wasm"));
    if (!program) return 0;
    const { default: start } = await import(program.name.replace("_bg.wasm", ".js"));
    return (await start()).memory.buffer.byteLength;
  });

/** Bytes of the workers' script heaps after garbage was collected, asked through the page's own door. */
async function heapOfWorkers(door) {
  const asked = [];
  const attached = ({ sessionId, targetInfo: { type } }) => {
    if (type !== "worker") return;
    asked.push(
      new Promise((tell) => {
        const heard = ({ sessionId: from, message }) => {
          const { id, result } = JSON.parse(message);
          if (from !== sessionId || id !== 2) return;
          door.off("Target.receivedMessageFromTarget", heard);
          tell(result.usedSize);
        };
        door.on("Target.receivedMessageFromTarget", heard);
        ["HeapProfiler.collectGarbage", "Runtime.getHeapUsage"].forEach((method, at) =>
          door.send("Target.sendMessageToTarget", { sessionId, message: JSON.stringify({ id: at + 1, method }) }),
        );
      }),
    );
  };
  door.on("Target.attachedToTarget", attached);
  await door.send("Target.setAutoAttach", { autoAttach: true, waitForDebuggerOnStart: false });
  door.off("Target.attachedToTarget", attached);
  const found = await Promise.all(asked);
  await door.send("Target.setAutoAttach", { autoAttach: false, waitForDebuggerOnStart: false });
  return found.reduce((sum, one) => sum + one, 0);
}

/** Bytes of the page's script heap, its WebAssembly memories, and those of its workers; nodes and listeners that live. */
async function held(page, door) {
  for (let time = 0; time < 3; time += 1) await door.send("HeapProfiler.collectGarbage");
  const { usedSize } = await door.send("Runtime.getHeapUsage");
  const { nodes, jsEventListeners: listeners } = await door.send("Memory.getDOMCounters");
  const wasm = await page.evaluate(() => [...globalThis.memories].reduce((sum, one) => sum + one.buffer.byteLength, 0));
  const workers = (await Promise.all(page.workers().map(memoryOf))).reduce((sum, one) => sum + one, 0) + (await heapOfWorkers(door));
  return { script: usedSize, wasm, workers, all: usedSize + wasm + workers, nodes, listeners };
}

/** Goes back, screen after screen, to the first question. */
const BACK = async () => {
  const { all, until } = globalThis.watch;
  while (all("#f-hazard").length === 0) {
    const before = all("h2, fieldset.question").map((one) => one.id + one.textContent).join();
    all("button.back")[0].click();
    await until(() => all("h2, fieldset.question").map((one) => one.id + one.textContent).join() !== before);
  }
  walker.again();
};

/** Puts a new form in the place of the old, with a draft of its own. */
const RENEW = (time) => {
  const old = document.querySelector("presurvey-form");
  const next = old.cloneNode();
  next.setAttribute("config", `/api/config?time=${time}`);
  walker.again();
  old.replaceWith(next);
};

/** Ten times through one form, to the result and back to the first question; then three times through a new form each. */
export async function measureMemory(browser, address) {
  const page = await openPage(browser);
  const door = await page.context().newCDPSession(page);
  await door.send("HeapProfiler.enable");
  await page.addInitScript(MEMORIES);
  await page.addInitScript(WATCH);
  await page.addInitScript(WALKER, await storyOf("easy-detached"));
  await page.goto(address);
  const through = async () => {
    await page.locator("#f-hazard").waitFor();
    await walk(page);
    await page.locator(".result [data-complexity]").waitFor();
    await page.waitForFunction(() => watch.all(".result .working")[0].textContent.trim() === "");
    return held(page, door);
  };
  const again = [];
  for (let time = 0; time < TIMES; time += 1) {
    if (time > 0) await page.evaluate(BACK);
    again.push(await through());
  }
  const anew = [];
  for (let time = 0; time < 3; time += 1) {
    await page.evaluate(RENEW, time);
    anew.push(await through());
  }
  await page.context().close();
  return { again, anew };
}
