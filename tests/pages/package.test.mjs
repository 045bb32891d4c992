// What is handed out: the package is whole, its types and its manifest say what is so, and the engine runs without a page.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdir, mkdtemp, readFile, readdir, rm, symlink, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";
import Ajv from "ajv";
import { presurvey } from "./lib/program.mjs";
import { pasted } from "./lib/readme.mjs";
import { pagesPath } from "./lib/serve.mjs";
import { fileOf } from "./lib/stories.mjs";

const run = promisify(execFile);
const require = createRequire(import.meta.url);
const PACKAGE = join(pagesPath(), "npm");
const UPLOAD = join(pagesPath(), "upload");
const root = (path) => readFile(new URL(`../../${path}`, import.meta.url), "utf8");
const json = async (path) => JSON.parse(await readFile(path, "utf8"));

let folder;
before(async () => {
  folder = await mkdtemp(join(tmpdir(), "presurvey-package-"));
});
after(() => rm(folder, { recursive: true, force: true }));

test("the package is whole: all that it names is in it, and nothing else", async () => {
  const about = await json(join(PACKAGE, "package.json"));
  assert.equal(about.version, (await root("Cargo.toml")).match(/^version = "(.*)"$/m)[1]);
  const { stdout } = await run("npm", ["pack", "--dry-run", "--json", "--ignore-scripts", "--offline"], { cwd: PACKAGE });
  const packed = JSON.parse(stdout)[0].files.map((file) => file.path).sort();
  const there = (await readdir(PACKAGE, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile());
  assert.deepEqual(packed, there.map((entry) => join(entry.parentPath, entry.name).slice(PACKAGE.length + 1)).sort());
  const named = [about.types, about.customElements, ...Object.values(about.exports).flatMap((to) => Object.values(typeof to === "string" ? [to] : to))];
  for (const path of named) assert.ok(packed.includes(path.replace("./", "")), path);
  for (const path of packed) assert.doesNotMatch(path, /\.(br|gz)$|^(index\.html|page\.css|own-page\.js|offline\.js)$/);
});

test("the manifest keeps to its schema and names what README.md names", async () => {
  const manifest = await json(join(PACKAGE, "custom-elements.json"));
  const allowed = new Ajv({ strict: false }).compile(await json(require.resolve("custom-elements-manifest/schema.json")));
  assert.ok(allowed(manifest), JSON.stringify(allowed.errors));
  const [element] = manifest.modules[0].declarations;
  const readme = await root("README.md");
  const [table] = readme.match(/^\| attribute \|.*?\n\n/ms);
  const listed = [...table.matchAll(/^\| (`.*?) \|/gm)].flatMap(([, names]) => names.match(/[\w-]+/g));
  assert.deepEqual(element.attributes.map((one) => one.name).sort(), listed.sort());
  assert.deepEqual(element.events.map((one) => one.name).sort(), [...new Set(readme.match(/`presurvey-(?!form)[a-z]+`/g))].map((name) => name.replaceAll("`", "")).sort());
});

const CONSUMER = `
import "presurvey";
import type { PresurveyForm, PresurveyFormAttributes } from "presurvey";
import { load, type Answers, type Assessment, type BillLine, type Engine, type Item } from "presurvey/assess";

const attributes: PresurveyFormAttributes = { config: "/config.json", submit: "/mail.php", "submit-as": "multipart" };
const form: PresurveyForm = document.createElement("presurvey-form");
form.setAttribute("config", attributes.config ?? "");
form.addEventListener("presurvey-result", ({ detail }) => {
  const words: "straightforward" | "more-involved" | "depends-on-others" | "not-covered" | "look-first" = detail.complexity;
  console.log(words, detail.band === true);
  // @ts-expect-error: no figure is told
  detail.price;
});
addEventListener("presurvey-step", (event) => console.log(event.detail.kind === "screen"));
// @ts-expect-error: no such attribute
const wrong: PresurveyFormAttributes = { colour: "red" };

const answers: Answers = { meter: { fuse_carriers: 1, to_board: { value: 4, unit: "metres" } }, home: { kind: "not-sure" } };
// @ts-expect-error: no such kind of home
const castle: Answers = { home: { kind: "castle" } };
load().then((assess) => {
  // @ts-expect-error: a config is needed
  assess(answers);
  return assess(answers, undefined as never);
}).then((assessment: Engine["assessment"]) => {
  const items: Item[] = assessment.work.map((line: BillLine) => line.item);
  console.log(items);
  return assessment;
}).then((assessment: Assessment) => console.log(assessment.band?.low, assessment.flags.map((flag) => flag.code)));
console.log(wrong, castle);
`;

test("the types fit a strict consumer, and refuse what is not so", async () => {
  await mkdir(join(folder, "node_modules"));
  await symlink(PACKAGE, join(folder, "node_modules/presurvey"));
  await writeFile(join(folder, "package.json"), '{ "type": "module" }');
  await writeFile(join(folder, "consumer.ts"), CONSUMER);
  const tsc = join(require.resolve("typescript/package.json"), "../bin/tsc");
  const args = [tsc, "--noEmit", "--strict", "--module", "nodenext", "--target", "es2022", "--lib", "es2022,dom", "consumer.ts"];
  const { stdout } = await run(process.execPath, args, { cwd: folder }).catch((error) => error);
  assert.equal(stdout, "");
});

/** The engine as the package's user has it, given this program, with the invented installer's config. */
async function engine(program) {
  const { load } = await import(pathToFileURL(join(PACKAGE, "headless.js")));
  const assess = await load(await readFile(join(PACKAGE, program)));
  const config = JSON.parse(await presurvey(["publish", "-"], await root("src/model/config/demo-setup.json")));
  await writeFile(join(folder, "config.json"), JSON.stringify(config));
  return { assess, config };
}

/** Homes with a story, and every twentieth of the invented ones. */
async function homes() {
  const told = ["easy-detached", "looped-terrace", "scorched-head"].map((name) => readFile(fileOf(name), "utf8"));
  const invented = (await root("tests/homes/two-hundred.jsonl")).trim().split("\n").filter((_, place) => place % 20 === 0);
  return [...(await Promise.all(told)), ...invented];
}

// This comes first: once there is a program, `load` keeps to it.
test("the engine assesses with the form's program too, as earlier packages did", async () => {
  const { assess, config } = await engine("engine_bg.wasm");
  const own = JSON.parse(await presurvey(["assess", fileOf("easy-detached"), "--config", join(folder, "config.json")]));
  assert.deepEqual(assess(await json(fileOf("easy-detached")), config), own);
  assert.throws(() => assess({ meter: { fuse_carriers: 12 } }, config), /fuse_carriers/);
});

test("the engine gives the object that the program prints, for every home", async () => {
  const { assess, config } = await engine("engine_js_bg.wasm");
  for (const home of await homes()) {
    await writeFile(join(folder, "home.json"), home);
    const own = JSON.parse(await presurvey(["assess", join(folder, "home.json"), "--config", join(folder, "config.json")]));
    const answers = JSON.parse(home);
    assert.deepStrictEqual(assess(answers, config), own);
    assert.deepEqual(answers, JSON.parse(home), "what is given stays as it is");
  }
});

test("what JSON leaves out is left out of objects too, and what is not allowed is refused in the program's words", async () => {
  const { assess, config } = await engine("engine_js_bg.wasm");
  const plain = assess({ meter: { fuse_carriers: 1 } }, config);
  const later = { toJSON: () => ({ fuse_carriers: 1 }) };
  for (const meter of [{ fuse_carriers: 1, place: undefined, note: () => {} }, later, Object.assign(Object.create(null), { fuse_carriers: 1 })]) {
    assert.deepStrictEqual(assess({ meter, home: undefined }, config), plain);
  }
  const wrong = [
    { meter: { fuse_carriers: 12 } }, { meter: { fuse_carriers: -1 } }, { meter: { fuse_carriers: 1.5 } }, { meter: { fuses: 1 } },
    { metre: {} }, { home: { age: null } }, { home: { age: "old" } }, { hazard: { signs: ["smoke", "smoke"] } }, { route: { length: 8 } },
    { route: { length: { value: 8, unit: "metres", of: "cable" } } }, { loads: { heating_power: NaN } }, { meter: ["indoors"] }, [], "home", null,
  ];
  for (const answers of wrong) {
    await writeFile(join(folder, "wrong.json"), JSON.stringify(answers));
    const refused = await presurvey(["assess", join(folder, "wrong.json"), "--config", join(folder, "config.json")]).catch((error) => error.stderr);
    assert.throws(() => assess(answers, config), (error) => {
      const [, path, why] = error.message.match(/^answers, `(.*?)`: (.*)$/s) ?? assert.fail(error.message);
      // Of another type than is wanted the command line says more, for one who writes files.
      const more = why.startsWith("invalid type: ") && refused.includes("is not allowed; it may be");
      assert.ok(more || refused.includes(why), `${why}\nand the program: ${refused}`);
      return refused.includes(`\`${path}\``);
    }, JSON.stringify(answers));
  }
  for (const [broken, where] of [[{ ...config, prices_shown: 7 }, /^config, `prices_shown`: /], [{ ...config, colour: 1 }, /^config, `.*`: unknown field `colour`/], [undefined, /^config, `\.`: /]]) {
    assert.throws(() => assess({}, broken), { message: where });
  }
});

test("the folder to upload lists its files with their hashes, and the lines to paste are those of README.md", async () => {
  const text = await readFile(join(UPLOAD, "README.txt"), "utf8");
  const listed = [...text.matchAll(/^(sha384-\S+) {2}(\S+)$/gm)];
  const files = (await readdir(UPLOAD, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile());
  const names = files.map((entry) => join(entry.parentPath, entry.name).slice(UPLOAD.length + 1));
  assert.deepEqual(listed.map(([, , name]) => name).sort(), names.filter((name) => !["README.txt", ".htaccess"].includes(name)).sort());
  for (const [, hash, name] of listed) assert.equal(hash, await integrityOf(join(UPLOAD, name)), name);

  const lines = text.slice(text.indexOf("<script"), text.indexOf("</presurvey-form>") + "</presurvey-form>".length);
  const integrity = ` integrity="${await integrityOf(join(UPLOAD, "presurvey.js"))}"`;
  assert.ok(lines.includes(integrity));
  const plain = (markup) => markup.replace(integrity, "").replace(/\s+/g, " ");
  assert.equal(plain(lines), plain(pasted("copied", "https://presurvey.example")));
});

test("what is handed out carries its licence and the notices of the libraries in it", async () => {
  for (const folder of [UPLOAD, PACKAGE]) {
    assert.match(await readFile(join(folder, "LICENCE"), "utf8"), /MIT Licence/);
    const notices = await readFile(join(folder, "THIRD-PARTY.txt"), "utf8");
    for (const name of ["yew", "wasm-bindgen", "serde", "jiff"]) assert.match(notices, new RegExp(`^${name} \\d.* \\(.*MIT.*\\)$`, "m"), name);
    assert.match(notices, /cited facts/);
    assert.doesNotMatch(notices, /^(axum|tokio|proptest) \d/m);
  }
  assert.match(await readFile(join(PACKAGE, "../THIRD-PARTY.txt"), "utf8"), /^axum \d/m);
});

const integrityOf = async (path) => `sha384-${createHash("sha384").update(await readFile(path)).digest("base64")}`;
