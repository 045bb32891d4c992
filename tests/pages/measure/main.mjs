// Measures how the form starts, answers and what it holds, beside the same first screen as a plain page, and keeps the
// figures with the machine and its versions: `cargo xtask measure`. It never fails for a figure: times are compared as
// ratios, by people.
import { execFile } from "node:child_process";
import { cp, mkdtemp, rm, writeFile } from "node:fs/promises";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { launch } from "../lib/browser.mjs";
import { host } from "../lib/host.mjs";
import { pagesPath, serve } from "../lib/serve.mjs";
import { measureAnswers } from "./answers.mjs";
import { measureJourney } from "./journey.mjs";
import { measureMemory } from "./memory.mjs";
import { RESERVED, embedding, putPlainPages } from "./plain.mjs";
import { asTable } from "./report.mjs";
import { CONDITIONS } from "./slow.mjs";
import { measureStart } from "./start.mjs";

const RESULTS = process.env.PRESURVEY_RESULTS || fileURLToPath(new URL("../../results", import.meta.url));
const TIMES = Number(process.env.PRESURVEY_TIMES || 9);

const say = (text) => console.log(`measure: ${text}`);

const folder = await mkdtemp(join(tmpdir(), "presurvey-measure-"));
await cp(pagesPath(), folder, { recursive: true });
process.env.PRESURVEY_PAGES = folder;
const browser = await launch();
const service = await serve();
const style = `<style>${RESERVED}</style>`;
const stranger = await host({ pages: { "/": embedding(service.origin, service.origin, style) } });
try {
  const at = (path) => new URL(path, service.form).href;
  const lines = await putPlainPages(join(folder, "form"));
  say(`starts, ${TIMES} times each (some three minutes)`);
  const pages = { plain: at("plain.html"), own: at("/"), copied: at("embedded.html"), elsewhere: stranger.origin };
  const start = await measureStart(browser, pages, TIMES);
  say("two hundred answers on three screens (some two minutes)");
  const answers = await measureAnswers(browser, { plain: pages.plain, own: pages.own });
  say("a journey on a slow processor");
  const journey = await measureJourney(browser, pages.own);
  say("ten times through");
  const memory = await measureMemory(browser, pages.own);
  const compiler = await promisify(execFile)("rustc", ["--version"]).then(({ stdout }) => stdout.trim());
  const results = {
    machine: { processor: cpus()[0].model, cores: cpus().length, browser: `Chromium ${browser.version()}`, node: process.version, compiler },
    conditions: `${CONDITIONS}; medians of ${TIMES}`,
    plain_script_lines: lines,
    start,
    answers,
    journey,
    memory,
  };
  const table = asTable(results);
  console.log(table);
  await writeFile(join(RESULTS, "start.json"), `${JSON.stringify(results, null, 2)}\n`);
  await writeFile(join(RESULTS, "start.md"), table);
} finally {
  await stranger.stop();
  await service.stop();
  await browser.close();
  await rm(folder, { recursive: true, force: true });
}
