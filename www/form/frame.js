// Runs in frame.html, the page of ours that stands in an iframe on somebody else's page: reads the query, and tells
// the page around how tall the form is. What it tells holds nothing of what was answered.
import { EVENT_STEP } from "./declared.js";

const form = document.querySelector("presurvey-form");
const page = new CSSStyleSheet();
page.replaceSync("body { margin: 0; display: flow-root; }");
document.adoptedStyleSheets = [page];

// Anybody can make a link to this page. So the query names no telephone number, no name and nowhere to send to, but a config
// of this page's own origin, and a language.
const query = new URLSearchParams(location.search);
const language = query.get("language");
if (language !== null) form.setAttribute("language", language);
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
  addEventListener("message", ({ source, data }) => {
    if (source !== parent || data?.presurvey !== "how tall") return;
    // The page around follows the height: a scroll bar would only come and go while it does.
    document.documentElement.style.overflow = "hidden";
    tellHeight();
  });
}
