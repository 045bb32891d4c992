// Lighthouse on the homeowner's page of the demo: accessibility, best practices and findability each at a hundred.
// Its figure for speed is left out: it is worth reading only while nothing else runs on the machine.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch } from "chrome-launcher";
import lighthouse from "lighthouse";
import { ARGUMENTS, chromiumPath } from "../pages/lib/browser.mjs";
import { serve } from "../pages/lib/serve.mjs";

const CATEGORIES = ["accessibility", "best-practices", "seo"];

let service, chromium;
before(async () => {
  service = await serve();
  chromium = await launch({ chromePath: chromiumPath(), chromeFlags: ARGUMENTS, logLevel: "silent" });
});
after(async () => {
  await chromium?.kill();
  await service?.stop();
});

test("the homeowner's page has a hundred for accessibility, best practices and findability", async () => {
  const options = { port: chromium.port, onlyCategories: CATEGORIES, logLevel: "silent" };
  const { lhr } = await lighthouse(service.form, options);
  assert.equal(lhr.runtimeError, undefined);
  const short = CATEGORIES.flatMap((name) => {
    const { score, auditRefs } = lhr.categories[name];
    if (score === 1) return [];
    const lost = auditRefs.map(({ id }) => lhr.audits[id]).filter((audit) => audit.score !== null && audit.score < 1);
    return [`${name} is ${score}`, ...lost.map((audit) => `${audit.id}: ${audit.title}: ${JSON.stringify(audit.details?.items ?? [])}`)];
  });
  assert.deepEqual(short, []);
});
