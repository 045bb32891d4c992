// Walks through the homeowner's form as a person would: screen by screen, by what is shown.
import assert from "node:assert/strict";

/** Opens the homeowner's page and waits until the first question can be answered. */
export async function openForm(page, address) {
  await page.goto(address);
  await page.locator("#f-hazard").waitFor();
}

/** The ids of the questions on this screen, in order. */
export async function asked(page) {
  const ids = await page
    .locator("fieldset.question[id^='f-']")
    .evaluateAll((all) => all.filter((one) => one.checkVisibility()).map((one) => one.id));
  return ids.map((id) => id.slice(2));
}

/** Answers one question: `given` is a word or a list of words to choose, `{ value, unit }`, or a text to type. */
export async function answer(page, id, given) {
  const field = page.locator(`#f-${id}`);
  // The screen may not be there yet; while a danger is shown the list of signs is hidden.
  if (id !== "hazard") await field.waitFor();
  if (given !== null && typeof given === "object" && !Array.isArray(given)) {
    await field.locator("input[type=text]").fill(String(given.value));
    await field.locator("select").selectOption(given.unit);
  } else if (!Array.isArray(given) && given !== "not-sure" && (await field.locator("input[type=text]").count()) > 0) {
    await field.locator("input[type=text]").fill(String(given));
  } else {
    for (const word of [given].flat()) {
      const row = field.locator(`input[value="${word}"]`);
      // While a danger is shown a button leads back to the list of signs.
      const back = page.locator("[data-danger=shown] .else");
      if (id === "hazard" && (await back.count()) > 0 && !(await row.isVisible())) await back.click();
      await row.check();
    }
  }
}

/** Presses the screen's main button; while a danger is shown that is the quiet one that tells the installer. */
export const goOn = (page) => page.locator("[data-danger] .tell, .page:not([data-danger]) button.main").click();

/**
 * Answers screen after screen from `answers` (by question), until the result, or what `until` names, is shown.
 *
 * `onScreen(questions, number)` is called on each screen before anything is answered. A question that the story does not answer is an error
 * in the story, and fails the test.
 */
export async function walkCore(page, answers, onScreen = async () => {}, until = ".result, .contact") {
  const met = [];
  for (let number = 1; number <= 40; number += 1) {
    if ((await page.locator(until).count()) > 0) return met;
    const questions = await asked(page);
    await onScreen(questions, number);
    for (const id of questions) {
      // An answer just given may have removed this question.
      if (id !== "hazard" && !(await page.locator(`#f-${id}`).isVisible())) continue;
      assert.ok(id in answers, `the story has no answer to ${id}`);
      await answer(page, id, answers[id]);
    }
    for (const id of await asked(page)) {
      if (!questions.includes(id)) {
        assert.ok(id in answers, `the story has no answer to ${id}`);
        await answer(page, id, answers[id]);
        questions.push(id);
      }
    }
    met.push(...questions);
    const before = questions.join();
    await goOn(page);
    await page.waitForFunction(
      (last) => {
        const root = document.querySelector("presurvey-form").shadowRoot;
        const all = [...root.querySelectorAll("fieldset.question[id^='f-']")].filter((one) => one.checkVisibility());
        const now = all.map((one) => one.id.slice(2)).join();
        return now !== last || root.querySelector(".result, .contact");
      },
      before,
    );
  }
  throw new Error("forty screens and no result");
}

/** Waits until the result shows the newest assessment. */
export async function result(page) {
  await page.locator(".result [data-complexity]").waitFor();
  await page.waitForFunction(
    () => document.querySelector("presurvey-form").shadowRoot.querySelector(".result .working").textContent.trim() === "",
  );
  return page.locator(".result [data-complexity]").getAttribute("data-complexity");
}

/** Waits until the form is dressed: its style sheet rules its title. */
export const dressed = (page) =>
  page.waitForFunction(() => {
    const title = document.querySelector("presurvey-form").shadowRoot?.querySelector(".form h2");
    return title && getComputedStyle(title).fontSize === "26px" && getComputedStyle(title.closest(".form")).boxSizing === "border-box";
  });

/** Fills in the contact details, sends, and returns the reference. */
export async function send(page, { name, telephone }) {
  await page.locator("#c-name").fill(name);
  await page.locator("#c-telephone").fill(telephone);
  // Only the form of an earlier version has this checkbox.
  const tick = page.locator("#c-consent");
  if (await tick.count()) await tick.check();
  await goOn(page);
  const reference = page.locator(".sent .reference");
  await reference.waitFor();
  return (await reference.textContent()).trim();
}
