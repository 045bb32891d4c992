// Links of our own that lead into the form, read from the address's fragment, which no server sees: a half-done form coming from
// another device, and what is added to an enquiry that was sent. Fetched only when such a link is opened.
//
// `door` is the element's own: `host`, `begun` (whether something is half done here), `show(element)`,
// `begin(lines)`, and `plainly()` for the form as it is without a link.
import {
  DRAFT_VERSION, LINES_THAT_MOVE, LINE_LINK, LINE_LOOK, LINE_REFERENCE, LINE_SETTLE, LINE_STEP, LINE_VERSION,
} from "./declared.js";
import { linesOf, textOf, written } from "./draft-lines.js";
import { button, element, line, speaker } from "./share.js";
import { expanded } from "./fragment.js";
import { Store } from "./store.js";

/** What may come from another device: answers and where one was; neither who asks, nor secrets, nor photos. */
const MOVES = new RegExp(LINES_THAT_MOVE);
const MOST_LINES = 400;

export async function open(door, link) {
  // Out of the address bar, for others read along there; remembered so that loading the page again opens it again.
  history.replaceState({ ...history.state, presurvey: link }, "", location.href.split("#")[0]);
  const [kind, value] = link.slice(1).split("=");
  if (kind === "presurvey-move") await move(door, value ?? "");
  else if (kind === "presurvey-link") await follow(door, value ?? "");
  else leave(door);
}

/** To the form as it is without a link. */
function leave(door) {
  done();
  door.plainly();
}

/** The link has done what it is for. */
function done() {
  const { presurvey, ...rest } = history.state ?? {};
  history.replaceState(rest, "");
}

/** A panel in the form's place: what it says, and what can be done. */
function panel(door, title, texts, buttons) {
  const made = element("div", { className: "form", lang: door.host.language });
  const heading = element("h2", { textContent: title, tabIndex: -1 });
  const actions = element("div", { className: "actions" });
  actions.append(...buttons);
  made.append(...(title ? [heading] : []), ...texts.map((text) => line(text, "status")), actions);
  door.show(made);
}

/** Goes on with the program; until it has come, and where it does not come, that is said here (see `#say` of the element). */
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

// From another device.

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

/** A draft's lines as far as they may move; nothing where another version wrote them. */
function movable(text) {
  const lines = JSON.parse(text);
  const isText = (part) => typeof part === "string" && part.length < 10_000;
  const isLine = (each) => Array.isArray(each) && each.length === 2 && each.every(isText);
  if (!Array.isArray(lines) || lines.length > MOST_LINES || !lines.every(isLine)) throw new Error("no draft");
  if (lines[0]?.[0] !== LINE_VERSION) throw new Error("no draft");
  if (lines[0][1] !== DRAFT_VERSION) return undefined;
  return [lines[0], ...lines.filter(([name]) => MOVES.test(name))];
}

// Adding to what was sent.

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
  // Whether meter and board may be looked at is the service's word each time; without it they may not.
  const { questions, looks } = await answer.json();
  // Kept apart from a form that was begun here; what this link brought before and was not sent yet is still there.
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
