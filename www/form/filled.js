// Makes elements of prerendered markup. A part of presurvey.js.

// Where a page requires Trusted Types, the markup goes through a policy of this name.
const plainly = { createHTML: (text) => text };
let policy;
/** Prerendered markup in the form that the page's policy requires; throws where the page refuses the policy. */
export const trusted = (markup) => (policy ??= globalThis.trustedTypes?.createPolicy("presurvey", plainly) ?? plainly).createHTML(markup);

/**
 * An element made of prerendered markup, with its placeholders filled in as text from the attributes of `host`; an installer without a name
 * is called `unnamed`.
 */
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
  // Without a telephone number there is no link to ring it.
  for (const link of template.content.querySelectorAll('[href="tel:{telephone}"]')) {
    if (places.telephone) link.href = `tel:${places.telephone.replaceAll(" ", "")}`;
    else link.remove();
  }
  return document.importNode(template.content.firstElementChild, true);
}
