// The printed copy, read where it would be printed.

/**
 * Presses "Print or save a copy" and gives back what was handed to the printer: its markup and its sheet.
 *
 * The dialog of a real print would stay open for ever: the frame's own `print` is heard instead.
 */
export async function printed(page) {
  await page.evaluate(() => {
    const made = HTMLIFrameElement.prototype;
    const view = Object.getOwnPropertyDescriptor(made, "contentWindow");
    Object.defineProperty(made, "contentWindow", {
      get() {
        const around = view.get.call(this);
        if (around) around.print = () => (window.printed = around.document);
        return around;
      },
    });
  });
  await page.locator(".copy button").click();
  await page.waitForFunction(() => window.printed !== undefined);
  return page.evaluate(() => ({
    html: window.printed.documentElement.outerHTML,
    sheet: [...window.printed.adoptedStyleSheets[0].cssRules].map((rule) => rule.cssText).join("\n"),
    folded: window.printed.querySelectorAll("details:not([open])").length,
  }));
}
