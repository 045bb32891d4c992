// axe-core on a page as it stands, its open shadow roots included (axe goes into them by itself).
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";

const source = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/**
 * axe-core's findings: one line each, with the rule, its help and the element. An empty list is a pass.
 *
 * The script is evaluated through the browser's debugging interface, to which a content security policy does not apply.
 */
export async function axe(page, options = {}) {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(source);
  const result = await page.evaluate((given) => globalThis.axe.run(document, given), {
    resultTypes: ["violations"],
    preload: false, // it would fetch linked style sheets by itself, which the page's policy refuses; no rule used here needs it
    ...options,
  });
  if (result.passes.length === 0) throw new Error("axe-core looked at nothing: is the page empty?");
  return result.violations.flatMap((rule) =>
    rule.nodes.map((node) => `${rule.id} (${rule.impact}): ${rule.help}: ${[node.target].flat(2).join(" > ")} ${node.html}`),
  );
}
