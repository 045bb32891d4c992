// axe-core on a page as it stands, its open shadow roots included (axe goes into them by itself).
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";

const source = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/**
 * What axe-core finds wrong: one line a finding, with the rule, its help and the element. An empty list is a pass.
 *
 * The script is evaluated through the browser's own debugging door, which a content security policy does not shut.
 */
export async function axe(page, options = {}) {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(source);
  const result = await page.evaluate((given) => globalThis.axe.run(document, given), {
    resultTypes: ["violations"],
    preload: false, // it would read a linked sheet by a style of its own, which the page's policy refuses; no rule here needs it
    ...options,
  });
  if (result.passes.length === 0) throw new Error("axe-core looked at nothing: is the page empty?");
  return result.violations.flatMap((rule) =>
    rule.nodes.map((node) => `${rule.id} (${rule.impact}): ${rule.help}: ${[node.target].flat(2).join(" > ")} ${node.html}`),
  );
}
