// Draws the plans: the route builder, and the reach of the leads. The plans are a program of their own, which returns markup as a tree of
// `[name, attributes, ...children]`; this script makes elements of it, and passes what the homeowner does in them back to the program.
const SVG = "http://www.w3.org/2000/svg";
// These are set as properties of a control: as attributes they would only set its initial state.
const STANDS = ["value", "checked"];

// In a bundle: import { at, fetched, imported } from "./beside.js";
const at = (name) => new URL(name, import.meta.url);
// As everywhere:
const known = (said) => (said === "not-sure" ? undefined : said);

let begun;
// In a bundle:
// A browser may remember that a module failed to load, so another try uses another address.
let imports = 0;
// As everywhere:
const program = () => (begun ??= (async () => {
  // In a bundle: const made = await imported("plans.js");
  const made = await import(at(imports++ ? `plans.js?${imports}` : "plans.js").href);
  // As everywhere:
  await made.default({ module_or_path: at("plans_bg.wasm") });
  return made;
})().catch((gone) => {
  begun = undefined;
  throw gone;
}));

/** The plans' wording in a language as text, with the installer's changes at its end; English where there is none in that language. */
async function words(language, changes = {}) {
  const code = language.split("-")[0];
  for (const name of [code, "en"]) {
    // In a bundle: const answer = await fetched(`plans-${name}.txt`);
    const answer = await fetch(at(`plans-${name}.txt`));
    // As everywhere:
    if (!answer.ok) continue;
    const own = code === "en" ? "" : `${code}.`;
    const changed = Object.entries(changes).filter(([key]) => key.startsWith(own));
    const lines = changed.map(([key, text]) => `${key.slice(own.length)}\t${text.replace(/\s+/g, " ")}\n`);
    return (await answer.text()) + lines.join("");
  }
  throw new Error("no words for the plans");
}

function put(element, attributes) {
  for (const { name } of [...element.attributes]) if (!(name in attributes)) element.removeAttribute(name);
  for (const [name, value] of Object.entries(attributes)) {
    if (!STANDS.includes(name) && element.getAttribute(name) !== value) element.setAttribute(name, value);
  }
}

/** Sets the state of a control; its options have to be in it already. */
function stand(element, attributes) {
  if (element.localName === "option") return element.setAttribute("value", attributes.value);
  if ("value" in attributes && element.value !== attributes.value) element.value = attributes.value;
  if (element.type === "checkbox") element.checked = "checked" in attributes;
}

function made(tree, space) {
  if (typeof tree === "string") return document.createTextNode(tree);
  const [name, attributes, ...inside] = tree;
  const within = name === "svg" ? SVG : space;
  const element = within ? document.createElementNS(within, name) : document.createElement(name);
  put(element, attributes);
  element.append(...inside.map((one) => made(one, within)));
  stand(element, attributes);
  return element;
}

/** Changes a node into the one that a tree describes; elements that are the same stay, with their focus and caret. */
function become(node, tree) {
  if (typeof tree === "string" && node.nodeType === Node.TEXT_NODE) {
    if (node.data !== tree) node.data = tree;
    return;
  }
  const [name, attributes, ...inside] = tree;
  if (typeof tree === "string" || node.localName !== name) {
    const space = node.parentNode.namespaceURI === SVG ? SVG : undefined;
    node.replaceWith(made(tree, space));
    return;
  }
  put(node, attributes);
  while (node.childNodes.length > inside.length) node.lastChild.remove();
  inside.forEach((one, place) => {
    const child = node.childNodes[place];
    child ? become(child, one) : node.append(made(one, node.namespaceURI === SVG ? SVG : undefined));
  });
  stand(node, attributes);
}

/** Shows a tree in a place; `focus` is the id of the element to focus, if any. */
function show(place, tree, focus) {
  place.firstChild ? become(place.firstChild, tree) : place.append(made(tree));
  if (focus) place.querySelector(`#${focus}`)?.focus();
}

/**
 * Listens to a place: calls `does` with the `data-does` of a pressed button, `says` with the `data-says` and the content of a changed
 * field, and `comes` when the focus comes to a row; each also with the index of the row.
 */
function hear(place, { does, says, comes }) {
  const row = (element) => Number(element.closest("[data-at]")?.dataset.at);
  place.addEventListener("click", ({ target }) => {
    const pressed = target.closest("[data-does]:not([aria-disabled])");
    if (pressed) does(pressed.dataset.does, row(pressed));
  });
  place.addEventListener("input", (event) => {
    const field = event.target.closest("[data-says]");
    if (!field) return;
    // The form around only listens to the field that holds the text of all rows.
    event.stopPropagation();
    says(field.dataset.says, row(field), field.type === "checkbox" ? (field.checked ? "yes" : "") : field.value);
  });
  place.addEventListener("focusin", ({ target }) => comes?.(row(target)));
}

/** Sets up the route builder; returns a function that updates it from answers. The form keeps its rows in the field before the place. */
function routeIn(place, { Route }, words, language, config) {
  const route = new Route(words, language, config.thresholds.pace);
  const kept = place.previousElementSibling;
  const complains = () => place.closest("fieldset").querySelector(".trouble")?.id;
  const draw = (focus) => show(place, route.view(complains()), focus);
  const changed = (row, what, value, focus) => {
    if (!route.change(row, what, value)) return;
    kept.value = route.written();
    kept.dispatchEvent(new Event("input", { bubbles: true }));
    draw(focus && route.focus());
  };
  hear(place, {
    does: (what, row) => changed(row, what, "", true),
    says: (what, row, value) => changed(row, what, value),
    comes(row) {
      if (Number.isNaN(row)) return;
      route.come_to(row);
      draw();
    },
  });
  let complained;
  return ({ route: { mostly, length } = {} }) => {
    const far = known(length);
    if (!place.firstChild || kept.value !== route.written()) {
      route.take_up(kept.value, known(mostly) ?? "", String(far?.value ?? ""), far?.unit ?? "");
    }
    draw();
    // When the form shows an error, the row that causes it is focused, once.
    if (complains() && !complained) place.querySelector("[aria-invalid]")?.focus();
    complained = complains();
  };
}

/**
 * Sets up the reach of the leads; returns a function that updates it from answers. To take the inlet being tried as the answer, the
 * question's own choice is clicked, where that is on the screen.
 */
function reachIn(place, { Reach }, words, language, config) {
  const reach = new Reach(words, language);
  const choice = () => place.closest("fieldset").querySelector(`input[value="${reach.tries()}"]`);
  const draw = () => show(place, reach.view(Boolean(choice())));
  hear(place, {
    does(what) {
      if (what === "turn") reach.turn();
      if (what === "move") reach.move_inlet();
      if (what === "take") choice()?.click();
      draw();
    },
  });
  return ({ parking: { inlet, place: stands, spot_to_car } = {}, wish: { outlet } = {} }) => {
    const far = known(spot_to_car);
    const leads = outlet === "socket" ? [] : config.charge_points.map(({ lead }) => lead).filter((lead) => lead > 0);
    reach.take_up(known(inlet) ?? "", known(stands) ?? "", far?.value, far?.unit ?? "", config.thresholds.pace, leads);
    draw();
  };
}

const KINDS = { route: routeIn, reach: reachIn };
const drawn = new WeakMap();

/**
 * Draws the plan of a place (its `data-draws` says which), and updates it whenever it is called again. `config` and `answers` are JSON as
 * the engine takes them. Throws where the program or its wording can't be loaded: the place stays empty, and the next call tries again.
 */
export async function draw(place, config, answers, language) {
  const before = drawn.get(place);
  if (before) {
    before.answers = answers;
    before.update?.(JSON.parse(answers));
    return;
  }
  const mine = { answers };
  drawn.set(place, mine);
  try {
    const setup = JSON.parse(config);
    const [made, said] = await Promise.all([program(), words(language, setup.wording)]);
    mine.update = KINDS[place.dataset.draws](place, made, said, language, setup);
    mine.update(JSON.parse(mine.answers));
  } catch (gone) {
    drawn.delete(place);
    throw gone;
  }
}
