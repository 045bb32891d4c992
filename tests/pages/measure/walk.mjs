// A journey walked from inside the page, in steps so small that what takes long is the form's own doing.

/** Runs in the page before anything else; `story` is by question, in the words of the form's controls. */
export const WALKER = (story) => {
  const { form, all, until, painted, frame } = globalThis.watch;
  const questions = () => all("fieldset.question[id^='f-']").filter((one) => one.getClientRects().length > 0);
  const answered = new Set();
  const give = (field, said) => {
    if (typeof said === "object" && !Array.isArray(said)) {
      const [text, unit] = [field.querySelector("input[type=text]"), field.querySelector("select")];
      unit.value = said.unit;
      unit.dispatchEvent(new Event("change", { bubbles: true }));
      text.value = said.value;
      text.dispatchEvent(new Event("input", { bubbles: true }));
      return;
    }
    const text = field.querySelector("input[type=text]");
    if (text && said !== "not-sure") {
      text.value = said;
      text.dispatchEvent(new Event("input", { bubbles: true }));
      return;
    }
    for (const word of [said].flat()) {
      const input = field.querySelector(`input[value="${word}"]`);
      if (!input.checked) input.click();
    }
  };
  /** One small step: an answer, or on to the next screen. Tells what it did, or nothing at the result. */
  const step = async () => {
    if (all(".result, .contact").length > 0) return undefined;
    const open = questions().find((one) => !answered.has(one.id));
    if (open) {
      answered.add(open.id);
      give(open, story[open.id.slice(2)]);
      await frame();
      await painted();
      return open.id;
    }
    const before = questions().map((one) => one.id).join();
    const start = performance.now();
    all("button.main").find((one) => one.getClientRects().length > 0).click();
    await until(() => questions().map((one) => one.id).join() !== before || all(".result, .contact").length > 0);
    return `left ${before} at ${start}`;
  };
  globalThis.walker = { step, again: () => answered.clear(), form };
};

/** Walks to the result. `each` is told what every step did. */
export async function walk(page, each = () => {}) {
  for (let step = 0; step < 200; step += 1) {
    const did = await page.evaluate(() => globalThis.walker.step());
    if (did === null || did === undefined) return;
    each(did);
  }
  throw new Error("two hundred steps and no result");
}
