// Websites as they are: their servers know the types of some files and not of others, they have policies of their own, and some want the
// engine alone. What README.md and the README.txt of the folder to upload tell them is pasted as it stands.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { after, before, describe, test } from "node:test";
import { promisify } from "node:util";
import { gunzip } from "node:zlib";
import { launch, openPage, problemsBeside } from "./lib/browser.mjs";
import { answer, dressed, goOn, result, walkCore } from "./lib/form.mjs";
import { host, sitePage } from "./lib/host.mjs";
import { isPolish } from "./lib/polish.mjs";
import { POLICIES, additions, firstPart, noneSuperfluous, underPolicy, withAdded } from "./lib/policies.mjs";
import { presurvey } from "./lib/program.mjs";
import { pasted, pastedHeader } from "./lib/readme.mjs";
import { apache, nginx } from "./lib/servers.mjs";
import { pagesPath, publishedBy, serve } from "./lib/serve.mjs";
import { fileOf, storyOf } from "./lib/stories.mjs";

const UPLOAD = join(pagesPath(), "upload");
const PACKAGE = join(pagesPath(), "npm");

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const problems = (page) => problemsBeside(page, service.origin);

/** The copied form. */
const copied = () => pasted("copied", service.origin);

/** The same in Polish, with an installer's name that is not English. */
const inPolish = () => copied().replace('installer="Your name"', 'language="pl" installer="Invented Installer"');

/** The frame from the site's own folder, as README.md says. */
const ownFrame = () => pasted("framed", service.origin).replace(`${service.origin}/frame.html`, "/presurvey/frame.html");
const ownHelper = () => pasted("framed-height", service.origin).replace(service.origin, "/presurvey");

/** frame.html with the service's addresses written into it. */
const frameHtml = async () => (await readFile(join(UPLOAD, "frame.html"), "utf8")).replaceAll('="/api/', `="${service.origin}/api/`);

/** The frame in a page, with the form in it. */
async function frameOf(page) {
  const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
  await frame.locator("#f-hazard").waitFor();
  return frame;
}

/** The first screen, dressed, and the program's first one after it. */
async function begins(page) {
  await page.locator("#f-hazard").waitFor();
  await dressed(page);
  await answer(page, "hazard", ["none"]);
  await goOn(page);
  await page.locator("#f-postcode").waitFor();
  await dressed(page);
}

async function beginsInPolish(page) {
  await begins(page);
  await isPolish(page, "the second screen");
}

/** Waits until the frame is as tall as the form, which the script on the page around it sees to. */
const grown = (frame) =>
  frame.waitForFunction(() => Math.abs(Math.ceil(document.body.getBoundingClientRect().height) - innerHeight) <= 1);

async function beginsInFrame(page) {
  const frame = await frameOf(page);
  await grown(frame);
  const rules = await frame.evaluate(() => document.querySelector("presurvey-form").shadowRoot.querySelector("link").sheet.cssRules.length);
  assert.ok(rules > 0, "the linked style sheet was taken");
  await begins(frame);
}

// Servers in common use.

const TYPES = {
  ".js": /^text\/javascript$/,
  ".wasm": /^application\/wasm$/,
  ".css": /^text\/css$/,
  ".json": /^application\/json$/,
  ".txt": /^text\/plain$/,
  ".html": /^text\/html$/,
};

/** Types as servers of some years ago know them. */
const FEW = { "application/x-javascript": "js", "text/html": "html htm", "text/x-styles": "css" };

/** The lines for nginx of the folder's README.txt. */
async function linesForNginx() {
  const text = await readFile(join(UPLOAD, "README.txt"), "utf8");
  const [lines] = text.match(/^ {5}location [^]*?^ {5}}$/m);
  assert.match(lines, /presurvey/);
  return lines;
}

const pagesOf = async () => ({
  "index.html": sitePage(copied()),
  "pl.html": sitePage(inPolish()),
  "framed.html": sitePage(ownHelper() + ownFrame()),
  "presurvey/frame.html": await frameHtml(),
});

const startNginx = async (types) =>
  nginx({ pages: await pagesOf(), folders: { presurvey: UPLOAD }, types, lines: await linesForNginx() });
const startApache = async (modules, more) =>
  apache({ pages: await pagesOf(), folders: { presurvey: UPLOAD }, modules, ...more });
const few = Object.entries(FEW);
const apacheTypes = few.map((one) => `${one.join(" ")}\n`).join("");
const WHOLE = ["mime", "filter", "deflate", "headers", "expires"];

// Each with what it does beside sending the right types.
const SERVERS = {
  "nginx as it comes with Debian": { start: () => startNginx(), packs: true, keeps: true },
  "nginx with few types": {
    start: () => startNginx(`types { ${few.map((one) => `${one.join(" ")};`).join(" ")} }`),
    packs: true,
    keeps: true,
  },
  Apache: { start: () => startApache(WHOLE, { types: apacheTypes }), packs: true, keeps: true },
  "Apache where .htaccess may say little": {
    start: () => startApache(WHOLE, { types: apacheTypes, allows: "FileInfo" }),
    packs: true,
    keeps: true,
  },
  "Apache without mod_deflate": { start: () => startApache(["mime", "filter", "headers"], { types: apacheTypes }), keeps: true },
  "Apache without mod_filter": { start: () => startApache(["mime", "deflate", "headers"], { types: apacheTypes }), keeps: true },
  "Apache without mod_headers": { start: () => startApache(["mime", "filter", "deflate"], { types: apacheTypes }), packs: true },
  "Apache with its types alone": { start: () => startApache(["mime"], { types: apacheTypes }) },
};

/** Asks for a file as a browser does; returns status, headers and the bytes as they came. */
function ask(address, headers = {}) {
  return new Promise((done, fail) => {
    const asked = request(address, { headers: { "accept-encoding": "gzip, deflate, br", ...headers } }, (answer) => {
      const parts = [];
      answer.on("data", (part) => parts.push(part));
      answer.on("end", () => done({ status: answer.statusCode, headers: answer.headers, bytes: Buffer.concat(parts) }));
    });
    asked.on("error", fail).end();
  });
}

for (const [name, { start, packs = false, keeps = false }] of Object.entries(SERVERS)) {
  test(`${name}: every kind of file comes as README.txt says, and the form comes dressed`, async () => {
    const site = await start();
    try {
      const files = (await readdir(UPLOAD)).filter((file) => extname(file));
      for (const kind of Object.keys(TYPES)) assert.ok(files.some((file) => extname(file) === kind), `there is a ${kind}`);
      for (const file of files) {
        const { status, headers, bytes } = await ask(`${site.origin}/presurvey/${file}`);
        assert.equal(status, 200, file);
        assert.match(headers["content-type"].split(";")[0], TYPES[extname(file)], file);
        const whole = file === "frame.html" ? Buffer.from(await frameHtml()) : await readFile(join(UPLOAD, file));
        assert.equal(headers["content-encoding"], packs ? "gzip" : undefined, file);
        if (packs) assert.match(headers.vary ?? "", /accept-encoding/i, file);
        assert.deepEqual(packs ? await promisify(gunzip)(bytes) : bytes, whole, file);
        if (!keeps) continue;
        assert.equal(headers["cache-control"], "no-cache", file);
        assert.equal(headers["x-content-type-options"], "nosniff", `${file}: what the site sends with every file`);
        // Asked again, as a browser does each time, an unchanged file is not sent again.
        const again = await ask(`${site.origin}/presurvey/${file}`, { "if-none-match": headers.etag, "if-modified-since": headers["last-modified"] });
        assert.equal(again.status, 304, file);
      }
      assert.doesNotMatch(site.said(), /\[(warn|error|emerg)\]/, "the server has nothing against the lines");

      // Each in a page of its own, as what was begun in one would be offered in the next.
      for (const [path, looks] of Object.entries({ "/": begins, "/pl.html": beginsInPolish, "/framed.html": beginsInFrame })) {
        const page = await openPage(browser);
        await page.goto(site.origin + path);
        await looks(page);
        assert.deepEqual(problems(page).filter((problem) => !problem.includes("favicon.ico")), []);
        await page.context().close();
      }
    } finally {
      await site.stop();
    }
  });
}

// Servers that know few types or none.

const JS = { ".js": "text/javascript" };
const HTML = { ".html": "text/html" };

for (const [name, kinds, unknown, nosniff] of [
  ["scripts and pages alone, and the browser is to keep to the types", { ...JS, ...HTML }, "application/octet-stream", true],
  ["scripts and pages alone, and all else is text", { ...JS, ...HTML }, "text/plain", true],
  ["scripts by their earlier name", { ".js": "application/javascript", ...HTML }, "application/octet-stream", false],
]) {
  test(`a server that knows ${name}: the form is whole, dressed, in both languages and in a frame`, async () => {
    const inside = await frameHtml();
    const site = await host({
      alter: (path, bytes) => (path === "/presurvey/frame.html" ? inside : bytes),
      pages: { "/": sitePage(copied()), "/pl": sitePage(inPolish()), "/framed": sitePage(ownHelper() + ownFrame()) },
      folders: { "/presurvey/": UPLOAD },
      kinds,
      unknown,
      nosniff,
    });
    try {
      const page = await openPage(browser);
      await page.goto(site.origin);
      let drawings = 0;
      await walkCore(page, await storyOf("easy-detached"), async () => {
        await dressed(page);
        drawings += await page.locator(".drawing").count();
      });
      assert.equal(await result(page), "straightforward");
      assert.ok(drawings > 0, "the drawings came");
      assert.equal(page.workers().length, 1, "the engine is at work beside the page");
      await page.locator(".result .does button", { hasText: "stretch by stretch" }).click();
      await page.locator("#s-0-along").waitFor();
      assert.deepEqual(problems(page), []);
      await page.context().close();

      const polish = await openPage(browser);
      await polish.goto(`${site.origin}/pl`);
      await beginsInPolish(polish);
      assert.deepEqual(problems(polish), []);
      await polish.context().close();

      const around = await openPage(browser);
      await around.goto(`${site.origin}/framed`);
      const frame = await frameOf(around);
      await begins(frame);
      const own = () => document.querySelector("presurvey-form").shadowRoot.adoptedStyleSheets.length;
      assert.equal(await frame.evaluate(own), 1, "it brought its own style sheet");
      const told = problems(around);
      assert.ok(told.every((problem) => problem.includes("form.css")), `${told}`);
      await around.context().close();
    } finally {
      await site.stop();
    }
  });
}

for (const [unknown, nosniff] of [["application/octet-stream", true], ["text/plain", true], ["text/plain", false]]) {
  test(`a server that knows no type, all is ${unknown}${nosniff ? ", nosniff" : ""}: what stands in the element stays`, async () => {
    const site = await host({ pages: { "/": sitePage(copied()) }, folders: { "/presurvey/": UPLOAD }, kinds: {}, unknown, nosniff });
    try {
      const page = await openPage(browser);
      await page.goto(site.origin);
      await page.waitForFunction(() => document.readyState === "complete");
      assert.ok(await page.getByText("please ring 01632 960 000").isVisible());
      assert.equal(await page.evaluate(() => customElements.get("presurvey-form")), undefined);
      const [problem, ...others] = problems(page);
      assert.match(problem, /presurvey\.js|MIME type/);
      assert.deepEqual(others, []);
      await page.context().close();
    } finally {
      await site.stop();
    }
  });
}

// A policy that the site has already.

const csp = (policy) => ({ "content-security-policy": policy });

// What is on the page, whose policy is meant, and how the first part goes there.
const WAYS = {
  "files in your folder": { lines: () => copied() },
  "script from your service": { lines: () => pasted("served", service.origin) },
  "page around your service's frame": { lines: () => pasted("framed-height", service.origin) + pasted("framed", service.origin), framed: true },
  "page around a frame of your own": { lines: () => ownHelper() + ownFrame(), framed: true, own: true },
  "`frame.html` of your own": { lines: () => ownHelper() + ownFrame(), framed: true, own: true, inside: true },
};

/** A page of a site under a policy, or with a frame whose own page is under it. */
async function siteUnder(way, policy) {
  const { lines, inside } = WAYS[way];
  const mine = inside ? "/presurvey/frame.html" : "/";
  return host({
    pages: { "/": sitePage(lines()), "/presurvey/frame.html": await frameHtml() },
    folders: { "/presurvey/": UPLOAD },
    headers: (path) => (path === mine ? csp(policy) : {}),
  });
}

/** Posts the frame's form as a visitor without scripts does, and waits for the service's answer in the frame. */
async function postsPlainly(frame) {
  await frame.evaluate(() => {
    const form = document.querySelector("form");
    for (const [name, value] of [["name", "Invented Framed"], ["telephone", "01632 960 141"]]) {
      form.append(Object.assign(document.createElement("input"), { type: "hidden", name, value }));
    }
    form.submit();
  });
  await frame.waitForURL(`${service.origin}/**`);
}

/** Goes the first part of a journey there, and where the page for the frame is the site's own, posts its form as well. */
async function goes(way, page, origin) {
  const { framed, inside, own } = WAYS[way];
  await page.goto(origin);
  const frame = framed ? await frameOf(page) : page;
  if (framed) await grown(frame);
  // The policy of the page around does not rule what the frame's page does.
  if (framed && !inside) await begins(frame);
  else await firstPart(page, frame);
  if (own) await postsPlainly(frame);
}

for (const way of Object.keys(WAYS)) {
  for (const [name, policy] of Object.entries(POLICIES)) {
    test(`${way}: ${name} with README.md's additions`, async () => {
      const added = withAdded(policy, additions(way, service.origin));
      const site = await siteUnder(way, added);
      try {
        const page = await underPolicy(browser);
        await goes(way, page, site.origin);
        assert.deepEqual(page.refused, []);
        assert.deepEqual(problems(page), []);
        await page.context().close();
      } finally {
        await site.stop();
      }
    });
  }

  test(`${way}: none of README.md's additions is superfluous`, () =>
    noneSuperfluous(browser, additions(way, service.origin), (policy) => siteUnder(way, policy), (page, origin) => goes(way, page, origin)));
}

test("README.md's example of a policy with additions is what its table gives", () => {
  const added = withAdded("default-src 'self'", additions("files in your folder", "https://presurvey.example"));
  assert.equal(added, pasted("added", "https://presurvey.example"));
});

test("the frame of one's own folder works under README.md's strictest policies", async () => {
  const site = await host({
    pages: { "/": sitePage(ownHelper() + ownFrame()), "/presurvey/frame.html": await frameHtml() },
    folders: { "/presurvey/": UPLOAD },
    headers: (path) => pastedHeader(path === "/" ? "framed-own-policy" : "frame-page-policy", service.origin),
  });
  try {
    const page = await underPolicy(browser);
    await goes("`frame.html` of your own", page, site.origin);
    assert.deepEqual(page.refused, []);
    assert.deepEqual(problems(page), []);
    await page.context().close();
  } finally {
    await site.stop();
  }
});

describe("trusted types", () => {
  const WRITES = `document.querySelector("#own").innerHTML = "<b>written</b>";`;
  const NAMED = `trustedTypes.createPolicy("own", { createHTML: (text) => text })`;
  /** A site whose own script writes HTML, by a policy of its own or plainly. */
  const writing = (policy, script) =>
    host({
      pages: { "/": sitePage(`<p id="own"></p><script type="module" src="/own/own.js"></script>${copied()}`) },
      folders: { "/presurvey/": UPLOAD, "/own/": script },
      headers: csp(policy),
    });
  const base = () => withAdded(POLICIES["a usual policy"], additions("files in your folder", service.origin));
  const words = () => pasted("trusted-types", service.origin);
  let plain, named;
  before(async () => {
    [plain, named] = await Promise.all([mkdtemp(join(tmpdir(), "presurvey-own-")), mkdtemp(join(tmpdir(), "presurvey-own-"))]);
    await writeFile(join(plain, "own.js"), WRITES);
    await writeFile(join(named, "own.js"), WRITES.replace('"<b>written</b>"', `${NAMED}.createHTML("<b>written</b>")`));
  });
  after(() => Promise.all([plain, named].map((folder) => rm(folder, { recursive: true, force: true }))));

  for (const [name, { policy, script, writes, refuses }] of Object.entries({
    "left out, the site's own script writes HTML": { policy: () => base(), script: () => plain, writes: true },
    "pasted, such a script is stopped": { policy: () => `${base()}; ${words()}`, script: () => plain, refuses: "require-trusted-types-for" },
    "the two names beside the site's own": { policy: () => `${base()}; ${words().replace("trusted-types ", "trusted-types own ")}`, script: () => named, writes: true },
  })) {
    test(name, async () => {
      const site = await writing(policy(), script());
      try {
        const page = await underPolicy(browser);
        await goes("files in your folder", page, site.origin);
        assert.equal(await page.locator("#own b").count(), writes ? 1 : 0);
        assert.deepEqual(page.refused, refuses ? [refuses] : []);
        await page.context().close();
      } finally {
        await site.stop();
      }
    });
  }

  for (const left of ["presurvey", "presurvey-engine"]) {
    test(`without the name ${left} it is refused`, async () => {
      const site = await writing(`${base()}; ${words().replace(new RegExp(` ${left}(?=[ ;])`), " own")}`, named);
      try {
        const page = await underPolicy(browser);
        let over = false;
        const went = goes("files in your folder", page, site.origin).catch(() => {}).finally(() => (over = true));
        while (!over && page.refused.length === 0) await new Promise((next) => setTimeout(next, 50));
        assert.deepEqual(page.refused, ["trusted-types"]);
        await page.context().close();
        await went;
      } finally {
        await site.stop();
      }
    });
  }
});

// The engine alone, in a page without a bundler.

/** What stands in a fenced block of the package's own README.md. */
async function packed(name) {
  const text = await readFile(join(PACKAGE, "README.md"), "utf8");
  const [, , block] = text.match(new RegExp(`^\`\`\`(\\w+) ${name}\n(.*?)^\`\`\`$`, "ms")) ?? assert.fail(name);
  return block.trim();
}

test("the engine by an import map gives what the program prints, with three files and under README.md's policy", async () => {
  for (const name of ["engine", "engine-script", "engine-policy"]) assert.equal(await packed(name), pasted(name, "https://presurvey.example"));
  const folder = await mkdtemp(join(tmpdir(), "presurvey-engine-"));
  const config = await (await publishedBy(service)).text();
  // The script as pasted; what it has is looked at from outside.
  await writeFile(join(folder, "estimate.js"), `${pasted("engine-script")}\nglobalThis.has = { assess, config };\n`);
  await writeFile(join(folder, "config.json"), config);
  const files = ["headless.js", "engine_js.js", "engine_js_bg.wasm"];
  for (const file of files) await writeFile(join(folder, file), await readFile(join(PACKAGE, file)));
  // The map as pasted is what the policy's hash is of.
  const policy = pastedHeader("engine-policy");
  const [, map] = pasted("engine").match(/<script type="importmap">(.*)<\/script>/);
  assert.ok(policy["content-security-policy"].includes(`'sha256-${createHash("sha256").update(map).digest("base64")}'`));
  const site = await host({ pages: { "/": sitePage(pasted("engine")) }, folders: { "/presurvey/": folder, "/": folder }, headers: policy });
  try {
    const page = await underPolicy(browser);
    const said = page.waitForEvent("console", (message) => message.type() === "log");
    await page.goto(site.origin);
    const shown = await (await said).args()[0].jsonValue();
    for (const name of [undefined, "easy-detached", "looped-terrace", "scorched-head"]) {
      const answers = name ? await readFile(fileOf(name), "utf8") : JSON.stringify({ meter: { fuse_carriers: 1 } });
      await writeFile(join(folder, "home.json"), answers);
      const own = JSON.parse(await presurvey(["assess", join(folder, "home.json"), "--config", join(folder, "config.json")]));
      const given = name ? await page.evaluate((answers) => globalThis.has.assess(answers, globalThis.has.config), JSON.parse(answers)) : shown;
      assert.deepEqual(given, own);
    }
    assert.deepEqual(page.refused, []);
    assert.deepEqual(page.problems, []);
    assert.deepEqual([...new Set(site.requests)].sort(), ["/", "/config.json", "/estimate.js", ...files.map((file) => `/presurvey/${file}`)].sort());
    await page.context().close();
  } finally {
    await site.stop();
    await rm(folder, { recursive: true, force: true });
  }
});
