// Runs in frame.html, the page of the build that others put into an iframe: reads the query, and tells the page around how tall the form
// is and what happens in it. Its messages hold no answers.
import { EVENTS, EVENT_STEP } from "./declared.js";

const form = document.querySelector("presurvey-form");
const page = new CSSStyleSheet();
page.replaceSync("body { margin: 0; display: flow-root; }");
document.adoptedStyleSheets = [page];

// The page says once, in the form around it, where enquiries go. A page of an earlier build says it in the element's own attributes.
const action = form.closest("form")?.getAttribute("action");
if (action) {
  if (!form.hasAttribute("submit")) form.setAttribute("submit", action);
  // Written as the action is: drafts of earlier builds are kept under the address as it is written.
  if (!form.hasAttribute("config")) form.setAttribute("config", action.replace(/[^/]*$/, "config"));
}

// Anybody can make a link to this page. So the query may give only a config of this page's own origin, a language and a scheme, but no
// name, no telephone number and no address to send to.
const query = new URLSearchParams(location.search);
for (const name of ["language", "scheme"]) if (query.has(name)) form.setAttribute(name, query.get(name));
const config = query.get("config");
if (config !== null) {
  const address = URL.canParse(config, location.href) ? new URL(config, location.href) : undefined;
  if (address?.origin === location.origin) form.setAttribute("config", address.href);
  else console.error(`presurvey: \`config\` in this page's address is ${JSON.stringify(config)}; it may be an address of ${location.origin} alone`);
}

if (parent !== window) {
  const tell = (what) => parent.postMessage({ presurvey: what }, "*");
  const tellHeight = () => tell({ height: Math.ceil(document.body.getBoundingClientRect().height) });
  new ResizeObserver(tellHeight).observe(document.body);
  form.addEventListener(EVENT_STEP, () => tell({ step: true }));
  // Only the site that has the frame in its page is told what happens.
  const site = location.ancestorOrigins?.[0] ?? (document.referrer && new URL(document.referrer).origin);
  for (const name of site && site !== "null" ? EVENTS : []) {
    form.addEventListener(name, ({ detail }) => parent.postMessage({ presurvey: { event: name, detail } }, site));
  }
  addEventListener("message", ({ source, data }) => {
    if (source !== parent || data?.presurvey !== "how tall") return;
    // The page around adjusts the height: a scroll bar would only flicker meanwhile.
    document.documentElement.style.overflow = "hidden";
    tellHeight();
  });
}
