// From an answer, given by the mouse, to the question that depends on it, painted.
import { WATCH, share, slowPage } from "./slow.mjs";

/** Two hundred answers in turn: a sign that asks where it is, then none, which takes the question away again. */
const ANSWERS = 200;

/** Runs in the page: tells how long the next click takes until the dependent question is as it should be, painted. */
const NEXT = (asked) => {
  const { shown, until } = globalThis.watch;
  globalThis.next = new Promise((tell) =>
    addEventListener(
      "click",
      async ({ timeStamp }) => tell((await until(() => Boolean(shown("#f-hazard-place legend")) === asked)) - timeStamp),
      { capture: true, once: true },
    ),
  );
};

async function times(page) {
  const sign = page.locator("#f-hazard input").first();
  const none = page.locator('#f-hazard input[value="none"]');
  const found = [];
  for (let answer = 0; answer < ANSWERS; answer += 1) {
    const asked = answer % 2 === 0;
    const input = asked ? sign : none;
    await input.scrollIntoViewIfNeeded();
    const { x, y, width, height } = await input.boundingBox();
    await page.evaluate(NEXT, asked);
    await page.mouse.click(x + width / 2, y + height / 2);
    found.push(await page.evaluate(() => globalThis.next));
  }
  return { median: share(found), most: share(found, 0.98) };
}

/** The plain page, the first screen as the small script works it, and as the program draws it when one comes back. */
export async function measureAnswers(browser, { plain, own }) {
  const open = async (address) => {
    const page = await slowPage(browser, { line: false });
    await page.addInitScript(WATCH);
    await page.goto(address);
    await page.locator("#f-hazard").waitFor();
    return page;
  };
  const first = async (address, before = async () => {}) => {
    const page = await open(address);
    await before(page);
    const found = await times(page);
    await page.context().close();
    return found;
  };
  return {
    plain: await first(plain),
    script: await first(own),
    program: await first(own, async (page) => {
      await page.locator('#f-hazard input[value="none"]').check();
      await page.locator("button.main").click();
      await page.locator("#f-postcode").waitFor();
      await page.locator("button.back").click();
      await page.locator("#f-hazard").waitFor();
    }),
  };
}
