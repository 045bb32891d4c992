// Opens the links that lead into the form: one carries a draft from another device, the other adds to an enquiry that was sent. They are
// read from the address's fragment, which no server sees. Loaded only when such a link is opened.
//
// `door` is what the form's element passes in: `host` (the element), `begun` (whether there is a draft on this device), `show(element)`,
// `begin(lines)` to go on with a draft, and `plainly()` to open the form as without a link.
import {
  DRAFT_VERSION, LINES_THAT_MOVE, LINE_LINK, LINE_LOOK, LINE_REFERENCE, LINE_SETTLE, LINE_STEP, LINE_VERSION,
} from "./declared.js";
import { linesOf, textOf, written } from "./draft-lines.js";
import { button, element, line, speaker } from "./share.js";
import { expanded } from "./fragment.js";
import { Store } from "./store.js";

/** The names of the lines that are accepted from another device: answers and the step, but no contact, secrets or photos. */
const MOVES = new RegExp(LINES_THAT_MOVE);
const MOST_LINES = 400;

export async function open(door, link) {
  // Removed from the address bar, where others might read it; kept in the history's state, so that a reload opens the link again.
  history.replaceState({ ...history.state, presurvey: link }, "", location.href.split("#")[0]);
  const [kind, value] = link.slice(1).split("=");
  if (kind === "presurvey-move") await move(door, value ?? "");
  else if (kind === "presurvey-link") await follow(door, value ?? "");
  else leave(door);
}

/** Opens the form as without a link. */
function leave(door) {
  done();
  door.plainly();
}

/** Forgets the link, so that a reload does not open it again. */
function done() {
  const { presurvey, ...rest } = history.state ?? {};
  history.replaceState(rest, "");
}

/** Shows a panel in the form's place with a title, texts and buttons. */
function panel(door, title, texts, buttons) {
  const made = element("div", { className: "form", lang: door.host.language });
  const heading = element("h2", { textContent: title, tabIndex: -1 });
  const actions = element("div", { className: "actions" });
  actions.append(...buttons);
  made.append(...(title ? [heading] : []), ...texts.map((text) => line(text, "status")), actions);
  door.show(made);
}

/** Shows a panel with notices about the program while it is being loaded (see waiting.js), then goes on with the program. */
function begin(door, text) {
  const says = speaker(door.host);
  const absent = element("div", { className: "absent", hidden: true });
  const again = button(says("link-again"), () => {});
  again.dataset.does = "try";
  absent.append(line(says("link-absent"), "status"), again);
  const made = element("div", { className: "form", lang: door.host.language });
  made.append(line(says("link-opens"), "status", "waiting"), absent);
  door.show(made);
  door.begin(text);
}

// A draft from another device.

async function move(door, value) {
  const says = speaker(door.host);
  let lines;
  try {
    lines = movable(await expanded(value));
  } catch {
    return told(door, "move-broken");
  }
  if (!lines) return told(door, "move-other");
  const take = async () => {
    const text = written(lines);
    const store = new Store(door.host.getAttribute("config") ?? "");
    if (door.begun) await store.drop();
    await store.keep("", text);
    done();
    begin(door, text);
  };
  if (!door.begun) return take();
  const buttons = [button(says("move-take"), take, "main"), button(says("move-keep"), () => leave(door))];
  panel(door, says("move-here"), [says("move-here-text")], buttons);
}

/** Those lines of a draft that may come from another device; undefined where another version wrote the draft. */
function movable(text) {
  const lines = JSON.parse(text);
  const isText = (part) => typeof part === "string" && part.length < 10_000;
  const isLine = (each) => Array.isArray(each) && each.length === 2 && each.every(isText);
  if (!Array.isArray(lines) || lines.length > MOST_LINES || !lines.every(isLine)) throw new Error("no draft");
  if (lines[0]?.[0] !== LINE_VERSION) throw new Error("no draft");
  if (lines[0][1] !== DRAFT_VERSION) return undefined;
  return [lines[0], ...lines.filter(([name]) => MOVES.test(name))];
}

// Adding to an enquiry that was sent.

async function follow(door, value) {
  const [, key, secret] = value.match(/^([0-9a-f]{32})\.([0-9a-f]{32})$/) ?? [];
  if (!key) return told(door, "link-broken");
  const { host } = door;
  let answer;
  try {
    const headers = { authorization: `Bearer ${secret}` };
    const url = `${host.getAttribute("submit")}/${key}/additions`;
    answer = await fetch(url, { headers, cache: "no-store", signal: AbortSignal.timeout(30_000) });
    if (answer.status === 429 || answer.status >= 500) throw new Error("later");
  } catch {
    const again = button(speaker(host)("link-again"), () => follow(door, value), "main");
    return told(door, "link-unreachable", again);
  }
  if (!answer.ok) return told(door, "link-refused");
  // The service says each time whether the homeowner may be sent to look at meter and board; without its word they are not.
  const { questions, looks } = await answer.json();
  // Stored apart from a form that was started here. Additions by this link that were not sent yet are still there.
  const store = new Store(`${host.getAttribute("config") ?? ""}#${key}`);
  let before = linesOf((await store.read()).draft);
  if (before.has(LINE_REFERENCE)) {
    await store.drop();
    before = new Map();
  }
  for (const name of [LINE_LINK, LINE_SETTLE, LINE_LOOK, LINE_STEP]) before.delete(name);
  const own = [[LINE_LINK, `${key} ${secret}`], [LINE_SETTLE, questions.join(" ")]];
  if (looks === true) own.push([LINE_LOOK, "yes"]);
  const text = textOf(new Map([...own, ...before]));
  await store.keep("", text);
  begin(door, text);
}

function told(door, key, ...buttons) {
  const says = speaker(door.host);
  panel(door, "", [says(key)], [...buttons, button(says("link-form"), () => leave(door))]);
}
