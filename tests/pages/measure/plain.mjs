// The same first screen as a plain page: its markup in the page's own HTML, its styles in a linked sheet, and a script of
// some forty lines. It is made from the built files, so that it is always the same screen, and put beside them, so that
// it is served the same way.
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { brotliCompressSync, constants } from "node:zlib";

/** What the plain page does by itself: works the screen's conditions, and refuses to go on before all is answered. */
const SCRIPT = `const form = document.querySelector(".form");
const all = (what) => [...form.querySelectorAll(what)];
const inputs = (name) => all(\`input[name="\${name}"]\`);
const ticked = (name) => inputs(name).filter((input) => input.checked).map((input) => input.value);
let pressed = false;

function update() {
  const signs = ticked("hazard");
  if (signs.length === 0) signs.push("open");
  const place = ticked("hazard-place")[0] ?? "open";
  for (const part of all("[data-when], [data-where], [data-pressed]")) {
    const { when, where } = part.dataset;
    part.hidden = !(
      (when === undefined || when.split(" ").some((word) => signs.includes(word))) &&
      (where === undefined || where.split(" ").includes(place)) &&
      (pressed || !part.matches("[data-pressed]"))
    );
  }
}

form.addEventListener("change", ({ target }) => {
  if (target.name === "hazard" && target.checked) {
    for (const other of inputs("hazard")) {
      if (other !== target && (target.matches("[data-alone]") || other.matches("[data-alone]"))) other.checked = false;
    }
  }
  update();
});

form.addEventListener("submit", (event) => {
  event.preventDefault();
  pressed = true;
  update();
  const open = all(".trouble").find((one) => !one.closest("[hidden]"));
  if (open) open.closest(".question").querySelector("input").focus();
  else location.hash = "next";
});

update();
`;

const page = (head, main) => `<!doctype html>
<html lang="en-GB">
<head>
  <meta charset="utf-8">
  <title>A page to measure by</title>
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <link rel="icon" href="data:,">
${head}
</head>
<body>
${main}
<footer><p>What else is on the page.</p></footer>
</body>
</html>
`;

/** A page whose HTML holds none of the form, as a stranger's page; the form's files are at `files`, the service at `origin`. */
export const embedding = (origin, files, style) =>
  page(
    `${style}\n<script type="module" src="${files}/presurvey.js"></script>`,
    `<presurvey-form config="${origin}/api/config" submit="${origin}/api/enquiries" installer="Invented Installer" telephone="01632 960 000"></presurvey-form>`,
  );

/** Its own style: the element is as high as the window, so that nothing below it moves when the form comes. */
export const RESERVED = "presurvey-form { display: block; min-height: 100vh }";

/**
 * Puts two pages beside the built ones in `folder`: `plain.html`, and `embedded.html`, a page with the form's files copied
 * beside it. (All in one file would be a little faster than `plain.html`; the strict policy under which our pages are
 * served refuses that.) Returns the number of the plain script's lines.
 */
export async function putPlainPages(folder) {
  const built = Object.fromEntries(
    await Promise.all(["index.html", "page.css", "form.css"].map(async (name) => [name, await readFile(join(folder, name), "utf8")])),
  );
  const [, screen] = built["index.html"].match(/<template shadowrootmode="open">.*?(<div class="form".*?)<\/template>/s);
  const [above] = built["index.html"].match(/<header>.*?<\/header>/s);
  const files = {
    "plain.html": page(
      '<link rel="stylesheet" href="plain.css">\n<script type="module" src="plain.js"></script>',
      `${above}\n<main>${screen}</main>`,
    ),
    "plain.css": built["page.css"] + built["form.css"].replaceAll(":host", "main"),
    "plain.js": SCRIPT,
    "embedded.html": embedding("", ".", '<link rel="stylesheet" href="embedded.css">'),
    "embedded.css": RESERVED,
  };
  for (const [name, text] of Object.entries(files)) {
    const packed = brotliCompressSync(text, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } });
    await writeFile(join(folder, name), text);
    await writeFile(join(folder, `${name}.br`), packed);
  }
  return SCRIPT.trim().split("\n").length;
}
