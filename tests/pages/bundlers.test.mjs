// The package in an ordinary project of each bundler: packed, installed, built for production, served below a path of a website, and
// gone through to a result, with the engine in its worker, the drawings, a plan and another language.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import { promisify } from "node:util";
import { launch, openPage, problemsBeside } from "./lib/browser.mjs";
import { answer, goOn, result, walkCore } from "./lib/form.mjs";
import { heard, listen } from "./lib/heard.mjs";
import { host, sitePage } from "./lib/host.mjs";
import { isPolish } from "./lib/polish.mjs";
import { POLICIES, additions, firstPart, noneSuperfluous, underPolicy, withAdded } from "./lib/policies.mjs";
import { presurvey } from "./lib/program.mjs";
import { pasted, pastedHeader } from "./lib/readme.mjs";
import { pagesPath, publishedBy, serve } from "./lib/serve.mjs";
import { fileOf, storyOf } from "./lib/stories.mjs";

const run = promisify(execFile);
const require = createRequire(import.meta.url);

const MAIN = `import "presurvey";

const button = document.querySelector("#assess");
button.addEventListener("click", async () => {
  const { load } = await import("presurvey/assess");
  globalThis.assess = await load();
  button.disabled = true;
});
`;

const programOf = (name) => {
  const about = require.resolve(`${name}/package.json`);
  const { bin } = require(about);
  return join(dirname(about), typeof bin === "string" ? bin : bin[name]);
};

/** Builds as webpack's own command line does, which is a package of its own. */
const WEBPACK = `
const [, own, context] = process.argv;
require(own)({ mode: "production", context, entry: "./src/main.js", output: { path: context + "/dist" } }, (error, done) => {
  if (error || done.hasErrors()) throw error ?? new Error(done.toString());
});
`;

/** The policy that README.md names for a bundle. */
function policy(name) {
  const { "content-security-policy": copied } = pastedHeader("copied-policy", service.origin);
  const plain = copied.split("; ").filter((part) => !part.includes("trusted-types")).join("; ");
  return { "content-security-policy": name.startsWith("esbuild") ? plain.replace("worker-src", "worker-src blob:") : plain };
}

/** What README.md says to run, after the bundler's name. */
const said = (name) => pasted(name).split(" ").slice(2);
const script = (attributes) => `<script ${attributes}></script>`;

// Each with the script of its page, and with what Node is given to build it.
const BUNDLERS = {
  vite: { script: script('type="module" src="/src/main.js"'), build: (folder) => [programOf("vite"), "build", folder, "--base=/shop/"] },
  webpack: { script: script('defer src="main.js"'), build: (folder) => ["--eval", WEBPACK, require.resolve("webpack"), folder] },
  esbuild: { script: script('type="module" src="main.js"'), build: () => [programOf("esbuild"), ...said("esbuild")] },
  // With less said it writes one file, and that is no module.
  "esbuild-in-one": {
    script: script('defer src="main.js"'),
    build: () => [programOf("esbuild"), "src/main.js", "--bundle", "--minify", "--loader:.wasm=file", "--outdir=dist"],
  },
};

let service, browser, folder, pack, config;
before(async () => {
  [service, browser, folder] = await Promise.all([serve(), launch(), mkdtemp(join(tmpdir(), "presurvey-bundlers-"))]);
  const { stdout } = await run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", folder], { cwd: join(pagesPath(), "npm") });
  pack = JSON.parse(stdout)[0].filename;
  config = await (await publishedBy(service)).text();
  await writeFile(join(folder, "config.json"), config);
});
after(async () => {
  await browser?.close();
  await service?.stop();
  if (folder) await rm(folder, { recursive: true, force: true });
});

const projects = {};

/** An ordinary project, built once; gives back where its files are served, under the policy that README.md names or another. */
async function built(name, headers = policy(name)) {
  const { first, dist } = await (projects[name] ??= projectOf(name));
  const polish = first.replace("<presurvey-form", '<presurvey-form language="pl"');
  return host({ pages: { "/shop/": first, "/shop/polish": polish }, folders: { "/shop/": dist }, headers });
}

async function projectOf(name) {
  const project = join(folder, name);
  const { script, build } = BUNDLERS[name];
  const form = `<presurvey-form config="${service.origin}/api/config" submit="${service.origin}/api/enquiries"></presurvey-form>`;
  const page = sitePage(`<button id="assess">Assess</button>${form}${script}`);
  await mkdir(join(project, "src"), { recursive: true });
  await writeFile(join(project, "package.json"), JSON.stringify({ private: true, dependencies: { presurvey: `file:../${pack}` } }));
  await writeFile(join(project, "src/main.js"), MAIN);
  await writeFile(join(project, "index.html"), page);
  await run("npm", ["install", "--offline", "--ignore-scripts", "--no-audit", "--no-fund"], { cwd: project });
  await run(process.execPath, build(project), { cwd: project });
  const dist = join(project, "dist");
  const first = await readFile(join(dist, "index.html"), "utf8").catch(() => page); // Vite writes its own
  return { first, dist };
}

/** A page that remembers what was not found, whoever asked for it. */
async function visitor() {
  const page = await openPage(browser);
  await listen(page);
  page.missing = [];
  page.context().on("response", (response) => response.status() >= 400 && page.missing.push(response.url()));
  page.context().on("requestfailed", (request) => page.missing.push(request.url()));
  return page;
}

/** Nothing was missing, nothing went wrong, and the form went on as itself. */
async function went(page) {
  assert.deepEqual(page.missing, []);
  assert.deepEqual(problemsBeside(page, service.origin), []);
  assert.deepEqual((await heard(page)).filter((event) => event.type === "presurvey-failed"), []);
}

for (const name of Object.keys(BUNDLERS)) {
  test(`${name}: a journey to a result and a plan, another language, and the engine alone`, async () => {
    const site = await built(name);
    try {
      const page = await visitor();
      await page.goto(`${site.origin}/shop/`);
      await page.locator("#f-hazard").waitFor();
      let drawings = 0;
      await walkCore(page, await storyOf("easy-detached"), async (questions, number) => {
        if (number > 1) assert.equal(await page.locator("presurvey-form .program").count(), 1, "the program draws it");
        drawings += await page.locator(".drawing").count();
      });
      assert.ok(drawings > 0, "the drawings came");
      assert.equal(await result(page), "straightforward");
      assert.equal(page.workers().length, 1, "the engine is at work beside the page");
      await page.locator(".result .does button", { hasText: "stretch by stretch" }).click();
      await page.locator("#s-0-along").waitFor();
      const own = await presurvey(["assess", fileOf("easy-detached"), "--config", join(folder, "config.json")]);
      await page.locator("#assess").click();
      await page.locator("#assess[disabled]").waitFor();
      const given = [JSON.parse(await readFile(fileOf("easy-detached"), "utf8")), JSON.parse(config)];
      assert.deepEqual(await page.evaluate((given) => globalThis.assess(...given), given), JSON.parse(own));
      await went(page);

      const polish = await visitor();
      await polish.goto(`${site.origin}/shop/polish`);
      await answer(polish, "hazard", ["none"]);
      await goOn(polish);
      await polish.locator("#f-postcode").waitFor();
      await isPolish(polish, "the second screen");
      await went(polish);
      assert.ok(site.requests.every((path) => path.startsWith("/shop/")), `${site.requests}`);
    } finally {
      await site.stop();
    }
  });
}

for (const [name, way] of [["webpack", "package by Vite or webpack"], ["esbuild", "package by esbuild"]]) {
  const all = () => additions(way, service.origin);
  const under = (policy) => built(name, { "content-security-policy": policy });
  const goes = (page, origin) => page.goto(`${origin}/shop/`).then(() => firstPart(page));

  for (const [kind, policy] of Object.entries(POLICIES)) {
    test(`${name}: ${kind} with README.md's additions`, async () => {
      const site = await under(withAdded(policy, all()));
      try {
        const page = await underPolicy(browser);
        await goes(page, site.origin);
        assert.deepEqual(page.refused, []);
        await page.context().close();
      } finally {
        await site.stop();
      }
    });
  }

  test(`${name}: none of README.md's additions is superfluous`, () => noneSuperfluous(browser, all(), under, goes));
}

test("scripts that do not come are waited for, and the form goes on once it does", async () => {
  const site = await built("webpack");
  try {
    const page = await visitor();
    let gone = true;
    await page.route("**/shop/**", (route) => (gone && !/(shop\/|main\.js)$/.test(route.request().url()) ? route.abort() : route.continue()));
    await page.goto(`${site.origin}/shop/`);
    await answer(page, "hazard", ["none"]);
    await goOn(page);
    await page.locator(".absent:visible").waitFor();
    gone = false;
    await page.locator("[data-does=try]:visible").click();
    await page.locator("#f-postcode").waitFor();
  } finally {
    await site.stop();
  }
});

test("where programs alone are held back, a bundle's form goes on plainly", async () => {
  const site = await built("webpack");
  try {
    const page = await visitor();
    await page.route("**/*.wasm", (route) => route.abort("blockedbyclient"));
    await page.goto(`${site.origin}/shop/`);
    await answer(page, "hazard", ["none"]);
    await goOn(page);
    await page.locator("#c-name").waitFor();
    const failed = (await heard(page)).filter((event) => event.type === "presurvey-failed");
    assert.deepEqual(failed.map((event) => event.detail), [{ reason: "blocked" }]);
  } finally {
    await site.stop();
  }
});
