// The printed copy, as it is handed to the printer.

/**
 * Presses "Print or save a copy" and returns what is handed to the printer: the markup and the style sheet.
 *
 * The dialog of a real print would stay open for ever, so the frame's own `print` is replaced.
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
