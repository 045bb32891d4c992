// The form as a screen reader is told of it: the accessibility tree that Chromium makes, walked on every screen.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch, openPage } from "./lib/browser.mjs";
import { openForm, result, walkCore } from "./lib/form.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const NAMED = ["radio", "checkbox", "textbox", "combobox", "button", "link", "img", "image", "heading", "group", "radiogroup"];

/** Every node that is not ignored, with what is above it. */
async function tree(page) {
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send("Accessibility.getFullAXTree");
  await session.detach();
  const byId = new Map(nodes.map((node) => [node.nodeId, node]));
  const above = (node) => (node.parentId ? [byId.get(node.parentId), ...above(byId.get(node.parentId))] : []);
  return nodes
    .filter((node) => !node.ignored)
    .map((node) => ({
      role: node.role?.value,
      name: node.name?.value?.trim() ?? "",
      text: node.description?.value ?? "",
      above: above(node).filter((one) => !one.ignored).map((one) => ({ role: one.role?.value, name: one.name?.value?.trim() ?? "" })),
      focused: node.properties?.some(({ name, value }) => name === "focused" && value.value) ?? false,
    }));
}

/** What is wrong with a tree, in words. */
function faults(nodes) {
  const found = [];
  for (const { role, name, above } of nodes) {
    // A fold's own group has its summary for a name; the tree gives it none.
    const folded = role === "group" && above.length > 0 && name === "" && nodes.some((one) => one.role === "DisclosureTriangle");
    if (NAMED.includes(role) && name === "" && !folded) found.push(`${role} without a name under ${above[0]?.role} ${above[0]?.name}`);
    const choice = role === "radio" || role === "checkbox";
    if (choice && !above.some((one) => ["group", "radiogroup"].includes(one.role) && one.name !== "")) {
      found.push(`${role} ${name} belongs to no question`);
    }
  }
  return found;
}

for (const name of ["easy-detached", "looped-terrace"]) {
  test(`${name}: every control says what it is, and each screen begins at its title`, async () => {
    const page = await openPage(browser);
    await openForm(page, service.form);
    let screens = 0;
    await walkCore(page, await storyOf(name), async (questions, number) => {
      const nodes = await tree(page);
      assert.deepEqual(faults(nodes), [], `screen ${number}: ${questions}`);
      const groups = nodes.filter((node) => ["group", "radiogroup"].includes(node.role) && node.name !== "");
      assert.ok(groups.length >= questions.length, `${questions}: ${groups.map((group) => group.name)}`);
      if (number > 1) assert.equal(nodes.filter((node) => node.focused).at(-1)?.role, "heading", `screen ${number}`);
      screens += 1;
    });
    assert.ok(screens > 10);
    await result(page);
    const nodes = await tree(page);
    assert.deepEqual(faults(nodes), []);
    assert.ok(nodes.some((node) => node.role === "status"), "what is being worked out is told when it changes");
    assert.ok(nodes.filter((node) => node.role === "heading").length >= 5, "the result is walked by its headings");
    await page.context().close();
  });
}

test("a control without a name is found", () => {
  const above = [{ role: "main", name: "" }];
  assert.equal(faults([{ role: "button", name: "", above }]).length, 1);
  assert.equal(faults([{ role: "radio", name: "One", above }]).length, 1);
});
