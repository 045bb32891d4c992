// Policies that sites have already, README.md's additions to them, and what shows that a form works under one.
import assert from "node:assert/strict";
import { openPage } from "./browser.mjs";
import { dressed, walkCore } from "./form.mjs";
import { table } from "./readme.mjs";
import { storyOf } from "./stories.mjs";

/** Content security policies of invented sites. */
export const POLICIES = {
  "a usual policy":
    "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self'; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'",
  "a policy that allows nothing":
    "default-src 'none'; script-src 'none'; style-src 'none'; img-src 'none'; connect-src 'none'; worker-src 'none'; frame-src 'none'; frame-ancestors 'none'; form-action 'none'",
};

/** A policy as a map of directives to lists of words. */
const read = (policy) =>
  new Map(policy.split(";").map((part) => part.trim().split(/\s+/)).map(([directive, ...words]) => [directive, words]));

const written = (policy) => [...policy].map((part) => part.flat().join(" ")).join("; ");

/** What README.md adds for one of the ways that it names, as pairs of a directive and a word. */
export function additions(way, service) {
  const found = table("way").filter(([ways]) => ways.split(", ").includes(way));
  if (found.length !== 1) throw new Error(`README.md has ${found.length} rows for ${way}`);
  const words = found[0][1].replaceAll("`", "").replaceAll("https://presurvey.example", service);
  return [...read(words)].flatMap(([directive, added]) => added.map((word) => [directive, word]));
}

/** What stands in for a directive that a policy lacks. */
const INSTEAD = { "worker-src": ["script-src", "default-src"], "frame-ancestors": [], "form-action": [] };

/** A policy with such pairs added, in the way that README.md describes. */
export function withAdded(policy, pairs) {
  const [before, added] = [read(policy), read(policy)];
  for (const [directive, word] of pairs) {
    const instead = (INSTEAD[directive] ?? ["default-src"]).find((name) => before.has(name));
    const begun = added.get(directive) ?? before.get(instead);
    if (!begun) continue; // nothing restricts it
    const words = begun.filter((word) => word !== "'none'");
    added.set(directive, words.includes(word) ? words : [...words, word]);
  }
  return written(added);
}

/** A page in which refusals by the policy are remembered (`page.refused`, the directives' names), in its frames too. */
export async function underPolicy(browser) {
  const page = await openPage(browser);
  page.refused = [];
  await page.exposeFunction("refusedHere", (directive) => page.refused.push(directive));
  await page.addInitScript(() => {
    addEventListener("securitypolicyviolation", (event) => globalThis.refusedHere(event.effectiveDirective));
  });
  return page;
}

const NO_ENGINE = "the engine is at work beside the page";

/** Checks that a worker fetched the engine: where that is refused the page's own thread does the work, and nothing else tells. */
export async function engineAtWork(page) {
  const fetched = () => performance.getEntriesByType("resource").some(({ name }) => /\.wasm$/.test(name));
  const soon = (made) => Promise.race([made.catch(() => false), new Promise((done) => setTimeout(done, 1_000, false))]);
  for (let tries = 0; tries < 40; tries += 1) {
    for (const worker of page.workers()) if (await soon(worker.evaluate(fetched))) return;
    await page.waitForTimeout(250);
  }
  assert.fail(NO_ENGINE);
}

/** The first part of a journey in a page, or in a frame of it: to the first photo, with the engine at work. */
export async function firstPart(page, frame = page) {
  const picture = { name: "meter.jpg", mimeType: "image/jpeg", buffer: await page.screenshot({ type: "jpeg" }) };
  const far = new Error("far enough");
  const onScreen = async (questions, number) => {
    await dressed(frame);
    if (number > 1) assert.equal(await frame.locator("presurvey-form .program").count(), 1, "the program draws it");
    const choose = frame.locator(".photos input[type=file]").last();
    if ((await choose.count()) === 0) return;
    await choose.setInputFiles(picture);
    await frame.locator(".photos figure img").waitFor();
    assert.ok(await frame.locator(".photos figure img").evaluate((img) => img.decode().then(() => img.naturalWidth > 0)));
    throw far;
  };
  const met = await walkCore(frame, await storyOf("easy-detached"), onScreen).catch((problem) => {
    if (problem !== far) throw problem;
  });
  assert.equal(met, undefined, "a photo was asked for");
  await engineAtWork(page);
}

/**
 * Checks that each of these additions is needed: without it the policy refuses something by its directive, or the engine.
 *
 * `start(policy)` starts the site under a policy; `goes(page, origin)` goes the first part of a journey there.
 */
export async function noneSuperfluous(browser, all, start, goes) {
  const policy = POLICIES["a policy that allows nothing"];
  for (const left of all) {
    const [directive, word] = left;
    const without = withAdded(policy, all.filter((one) => one !== left));
    assert.notEqual(without, withAdded(policy, all));
    const site = await start(without);
    const page = await underPolicy(browser);
    try {
      let outcome;
      const went = goes(page, site.origin).then(() => "it went all the way", (problem) => problem.message).then((said) => (outcome = said));
      const framing = () => page.problems.some((problem) => problem.includes("frame-ancestors"));
      const refused = () =>
        (directive === "frame-ancestors" ? framing() : page.refused.some((name) => name.startsWith(directive))) ||
        (directive === "worker-src" && outcome === NO_ENGINE);
      while (!outcome && !refused()) await new Promise((next) => setTimeout(next, 50));
      assert.ok(refused(), `without ${directive} ${word}: ${outcome}; refused were ${page.refused}`);
      await page.context().close();
      await went;
    } finally {
      await site.stop();
    }
  }
}
