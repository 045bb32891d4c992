// Markup that was made beforehand, as elements of a form. A part of presurvey.js.

// Where a page asks for it, markup goes through a policy of this name; only this script's own does.
const plainly = { createHTML: (text) => text };
let policy;
/** Markup of this script's own, as the page's policy wants it; throws where the page refuses it. */
export const trusted = (markup) => (policy ??= globalThis.trustedTypes?.createPolicy("presurvey", plainly) ?? plainly).createHTML(markup);

/** Markup as an element, its places filled as text from the attributes of `host`; an installer without a name is `unnamed`. */
export function filled(markup, host, unnamed) {
  const template = document.createElement("template");
  template.innerHTML = trusted(markup);
  const says = (name) => host.getAttribute(name)?.trim();
  const places = { installer: says("installer") || unnamed, telephone: says("telephone") ?? "" };
  const texts = document.createTreeWalker(template.content, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const text = texts.currentNode;
    text.data = text.data.replace(/\{(\w+)\}/g, (gap, name) => places[name] ?? gap);
  }
  // An installer who gives no number is not rung.
  for (const link of template.content.querySelectorAll('[href="tel:{telephone}"]')) {
    if (places.telephone) link.href = `tel:${places.telephone.replaceAll(" ", "")}`;
    else link.remove();
  }
  return document.importNode(template.content.firstElementChild, true);
}
