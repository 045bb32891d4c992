// Ways to share an enquiry other than by this project's service: a plain form post to an ordinary web host, the device's share sheet, a
// file, a message. Also printing, and the link that carries a draft to another device. Loaded on demand.
//
// A letter is `{ fields, summary, record, photos }`: the fields of a plain web form, the enquiry in plain text, the record as JSON, and the
// photos as blobs.
import { compressed } from "./fragment.js";

const WORDS = __WORDS__;

/** Posts a letter as a web form, with field names as PHP and others expect them. Returns `[status, text, seconds to wait]`. */
export async function post(url, { fields, summary, record, photos }) {
  const form = new FormData();
  for (const [name, value] of fields) form.append(name, value);
  form.append("summary", summary);
  form.append("enquiry", new Blob([record], { type: "application/json" }), "enquiry.json");
  photos.forEach((photo, at) => form.append("photo[]", photo, `photo-${at + 1}.jpg`));
  const headers = { accept: "application/json" };
  const answer = await fetch(url, { method: "POST", body: form, headers, signal: AbortSignal.timeout(180_000) });
  return [answer.status, await answer.text(), Number(answer.headers.get("retry-after")) || 0];
}

/** Draws the ways to share a letter into a place of a form; to be called again for each new letter. */
export function offer(place, host, letter) {
  const says = speaker(host);
  const told = line("", "status");
  const able = (does) => async () => {
    try {
      told.textContent = (await does(letter)) ?? "";
    } catch (problem) {
      // Cancelled by the homeowner: nothing to say.
      told.textContent = problem.name === "AbortError" ? "" : says("ways-failed");
    }
  };
  const copy = async ({ summary }) => (await navigator.clipboard.writeText(summary), says("ways-copied"));
  const to = (address, text) => {
    const href = `${address}?body=${encodeURIComponent(letter.summary)}`;
    return element("a", { href, textContent: text, className: "quiet" });
  };
  const telephone = host.getAttribute("telephone")?.replace(/[^+\d]/g, "");
  const email = host.getAttribute("email")?.trim();
  const texts = element("div", { className: "takers" });
  if (navigator.clipboard) texts.append(button(says("ways-copy"), able(copy)));
  if (email) texts.append(to(`mailto:${encodeURIComponent(email).replace("%40", "@")}`, says("ways-mail")));
  if (telephone) texts.append(to(`sms:${telephone}`, says("ways-message")));
  const shares = navigator.share ? [button(says("ways-share"), able(share)), line(says("ways-share-text"), "", "hint")] : [];
  const saves = [button(says("ways-save"), able(save)), line(says("ways-save-text"), "", "hint")];
  const title = element("h3", { textContent: says("ways-title") });
  place.replaceChildren(title, ...shares, ...saves, texts, line(says("ways-text-only"), "", "hint"), told);
}

async function share({ summary, photos }) {
  const files = photos.map((photo, at) => new File([photo], `photo-${at + 1}.jpg`, { type: photo.type }));
  const whole = { text: summary, files };
  await navigator.share(files.length && navigator.canShare?.(whole) ? whole : { text: summary });
}

/** Saves the letter and its photos as one ZIP file. */
async function save({ summary, record, photos }) {
  const text = new TextEncoder();
  const files = [["enquiry.txt", text.encode(summary)], ["enquiry.json", text.encode(record)]];
  for (const [at, photo] of photos.entries()) files.push([`photo-${at + 1}.jpg`, new Uint8Array(await photo.arrayBuffer())]);
  const href = URL.createObjectURL(new Blob(zip(files), { type: "application/zip" }));
  element("a", { href, download: "enquiry.zip" }).click();
  setTimeout(() => URL.revokeObjectURL(href), 60_000);
}

/** The parts of a ZIP file (PKWARE's APPNOTE 6.3, 4.3 and 4.4), its files stored uncompressed: photos would not get smaller. */
function zip(files) {
  const parts = [];
  const list = [];
  let at = 0;
  for (const [name, bytes] of files) {
    const named = new TextEncoder().encode(name);
    // Version 2.0, names in UTF-8, stored, 1980-01-01 0:00, checksum, both sizes, length of the name, nothing more.
    const head = words([2, 20], [2, 0x800], [2, 0], [2, 0], [2, 33], [4, crc32(bytes)], [4, bytes.length], [4, bytes.length], [2, named.length], [2, 0]);
    parts.push(words([4, 0x04034b50]), head, named, bytes);
    list.push(words([4, 0x02014b50], [2, 20]), head, words([2, 0], [2, 0], [2, 0], [4, 0], [4, at]), named);
    at += 4 + head.length + named.length + bytes.length;
  }
  const size = list.reduce((sum, part) => sum + part.length, 0);
  return [...parts, ...list, words([4, 0x06054b50], [2, 0], [2, 0], [2, files.length], [2, files.length], [4, size], [4, at], [2, 0])];
}

/** Numbers as bytes, lowest byte first; each is given as `[bytes, value]`. */
const words = (...numbers) => Uint8Array.from(numbers.flatMap(([bytes, value]) => Array.from({ length: bytes }, (_, byte) => value >>> (8 * byte))));

/** The checksum of a ZIP file's parts (ISO 3309, reflected). */
function crc32(bytes) {
  let crc = -1;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (0xedb88320 & -(crc & 1));
  }
  return ~crc;
}

/**
 * Prints a page of the form by itself, with everything unfolded, headed by the names in `whose` and the date. It is printed from a frame of
 * its own, because the page around is somebody's website.
 */
export function printCopy(page, ...whose) {
  const root = page.getRootNode();
  const frame = element("iframe", { className: "paper", tabIndex: -1 });
  frame.setAttribute("aria-hidden", "true");
  root.append(frame);
  const { contentDocument: paper, contentWindow: around } = frame;
  const sheet = new around.CSSStyleSheet();
  sheet.replaceSync([...root.adoptedStyleSheets].flatMap(({ cssRules }) => [...cssRules]).map(({ cssText }) => cssText).join("\n"));
  paper.adoptedStyleSheets = [sheet];
  paper.documentElement.lang = page.lang;
  paper.title = page.querySelector("h2").textContent;
  const copy = paper.importNode(page, true);
  copy.querySelectorAll("details").forEach((folded) => folded.open = true);
  const day = new Date().toLocaleDateString(paper.documentElement.lang, { dateStyle: "long" });
  copy.prepend(Object.assign(paper.createElement("p"), { className: "whose", textContent: [...whose.filter(Boolean), day].join(" · ") }));
  paper.body.append(copy);
  around.addEventListener("afterprint", () => frame.remove());
  around.print();
}

/** Draws the link that carries a draft's lines to another device; to be called again for each new draft. */
export async function moving(place, host, lines) {
  await showLink(place, host, `presurvey-move=${await compressed(lines)}`, "", "move-text");
}

/**
 * Draws a link to this page with a fragment, with buttons to copy and to share it, under a text if one is given; and, with the secret that
 * deletes the enquiry, a link to the page that does.
 */
export async function showLink(place, host, fragment, deletion, text) {
  const says = speaker(host);
  const link = `${location.href.split("#")[0]}#${fragment}`;
  const field = element("input", { readOnly: true, value: link });
  field.setAttribute("aria-label", says("move-copy"));
  const told = line("", "status");
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(link);
      told.textContent = says("move-copied");
    } catch {
      field.select(); // then it can be copied by hand
    }
  };
  const send = () => navigator.share({ url: link }).catch(() => {});
  const buttons = element("div", { className: "takers" });
  buttons.append(button(says("move-copy"), copy), ...(navigator.share ? [button(says("move-share"), send)] : []));
  const back = deletion ? takingBack(host, says, fragment, deletion) : [];
  place.replaceChildren(...(text ? [line(says(text))] : []), field, buttons, told, ...back);
}

/** The link to the service's page that deletes the enquiry. The secret stands after `#`, which no server sees. */
function takingBack(host, says, fragment, deletion) {
  const [, key] = fragment.match(/=(\w+)\./);
  const href = `${host.getAttribute("submit")}/${key}/deletion#${deletion}`;
  const link = element("a", { href, target: "_blank", rel: "noopener noreferrer", className: "quiet", textContent: says("delete-link") });
  const told = line("", "status");
  const copy = async () => {
    await navigator.clipboard?.writeText(link.href);
    told.textContent = says("move-copied");
  };
  const takers = element("div", { className: "takers" });
  takers.append(link, ...(navigator.clipboard ? [button(says("delete-copy"), copy)] : []));
  return [line(says("delete-text"), "", "hint"), takers, told];
}

/** A function that returns the sentence of a key in the form's language, with its placeholders filled in. */
export function speaker(host) {
  const said = WORDS[host.language] ?? WORDS.en;
  const places = { installer: host.getAttribute("installer") ?? "", telephone: host.getAttribute("telephone") ?? "" };
  return (key) => said[key].replace(/\{(\w+)\}/g, (gap, name) => places[name] ?? gap);
}

/** An element with these properties; its content is set as text, never as markup. */
export const element = (name, properties) => Object.assign(document.createElement(name), properties);

export function line(text, role, className) {
  const made = element("p", { textContent: text });
  if (role) made.setAttribute("role", role);
  if (className) made.className = className;
  return made;
}

export function button(text, does, className = "quiet") {
  const made = element("button", { type: "button", textContent: text, className });
  made.addEventListener("click", does);
  return made;
}
