// How hard the homeowner's words are to read, and how long the core takes: its screens counted, its words read.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { fleschKincaid } from "flesch-kincaid";
import { syllable } from "syllable";
import { launch, openPage } from "./lib/browser.mjs";
import { openForm, result, walkCore } from "./lib/form.mjs";
import { serve } from "./lib/serve.mjs";
import { storyOf } from "./lib/stories.mjs";

/** What a homeowner reads in English. */
const FILES = ["form", "mail", "result", "start", "plain", "share", "engine", "flags", "sketches", "plans"];

/** The Flesch-Kincaid grade (Kincaid et al., 1975, Naval Technical Training report 8-75) at the end of which one is about eleven. */
const GRADE_AT_ELEVEN = 6;
/** A sentence of safety may need a longer word; beyond this grade a message is written anew. */
const HARDEST = 10;

/** The messages of a wording file, places filled with a short word. */
async function messages(file) {
  const text = await readFile(new URL(`../../www/wording/en/${file}.ftl`, import.meta.url), "utf8");
  const lines = text.split("\n").map((line) => /^([a-z][\w-]*) = (.*)$/.exec(line)).filter(Boolean);
  // A flag's name, reason and action are for the installer.
  const isInstallers = ([, key]) => /^flag-.*-(name|why|do)$/.test(key);
  return lines.filter((line) => !isInstallers(line)).map(([, key, message]) => [key, message.replace(/\{[^}]*\}/g, "ten")]);
}

const wordsOf = (text) => text.match(/[\p{L}’'-]*\p{L}[\p{L}’'-]*/gu) ?? [];

function counted(texts) {
  const sentences = texts.flatMap((text) => text.split(/[.?!:;]+(?:\s|$)/)).filter((sentence) => wordsOf(sentence).length > 0);
  const words = sentences.flatMap(wordsOf);
  return { sentence: sentences.length, word: words.length, syllable: words.reduce((sum, word) => sum + syllable(word), 0) };
}

for (const file of FILES) {
  test(`${file}.ftl is read at about eleven`, async (t) => {
    const all = await messages(file);
    // Labels of one or two words would only flatter the mean: whole sentences count.
    const sentences = all.map(([, text]) => text).filter((text) => /[.?]$/.test(text));
    assert.ok(all.length > 5);
    const grade = fleschKincaid(counted(sentences.length > 0 ? sentences : all.map(([, text]) => text)));
    t.diagnostic(`grade ${grade.toFixed(2)} over ${sentences.length} messages`);
    assert.ok(grade <= GRADE_AT_ELEVEN, `grade ${grade}`);
    const hard = all.filter(([, text]) => wordsOf(text).length > 8 && fleschKincaid(counted([text])) > HARDEST);
    assert.deepEqual(hard.map(([key]) => key), []);
  });
}

test("a hard sentence is found", () => {
  const hard = "Notwithstanding the aforementioned considerations, residual-current protection necessitates supplementary verification.";
  assert.ok(fleschKincaid(counted([hard])) > HARDEST);
});

let service, browser;
before(async () => {
  [service, browser] = await Promise.all([serve(), launch()]);
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

/** Every word that a screen shows, what is folded away left out. */
const shown = (page) =>
  page.locator("presurvey-form").evaluate((form) => [...form.shadowRoot.querySelectorAll(".form")].map((one) => one.innerText).join("\n"));

for (const name of ["easy-detached", "looped-terrace"]) {
  test(`${name}: the core takes eight minutes or less, on about sixteen screens`, async (t) => {
    const page = await openPage(browser);
    await openForm(page, service.form);
    let [seconds, screens] = [0, 0];
    const [times, read] = [[], new Set()];
    await walkCore(page, await storyOf(name), async (questions) => {
      // 200 words a minute, and four seconds an answer. A line that stood on a screen before is not read again.
      const lines = (await shown(page)).split("\n").filter((line) => !read.has(line));
      lines.forEach((line) => read.add(line));
      const takes = (wordsOf(lines.join("\n")).length / 200) * 60 + 4 * questions.length;
      times.push(Math.round(takes));
      seconds += takes;
      screens += 1;
    });
    await result(page);
    t.diagnostic(`${screens} screens, ${(seconds / 60).toFixed(1)} minutes: ${times.join(" ")}`);
    assert.ok(screens >= 12 && screens <= 18, `${screens} screens`);
    assert.ok(seconds <= 480, `${seconds} seconds`);
    await page.context().close();
  });
}
