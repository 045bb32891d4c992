// The plain form, for sites that refuse WebAssembly: contact details, a few words and photos, sent as a web form.

import {
  EVENT_FAILED, EVENT_SENT, EVENT_STEP, FAILURE_NO_ANSWER, FAILURE_REFUSED, LINES_OF_CONTACT, LINES_OF_HAZARD, LINE_PHOTO, LINE_SECRETS,
  PHOTO_OF_ANYTHING,
} from "./declared.js";
import { linesOf, textOf } from "./draft-lines.js";

// Put in by the build: the markup by language (see src/form/widget/prerendered/plain.rs).
const MADE = __MADE__;

const MOST_PHOTOS = 12;
const LONGEST = 1600; // pixels; common practice, no source
const QUALITY = 0.82; // of the JPEG; common practice, no source
const WAITS = [800, 2500, 6000]; // milliseconds between tries
const AGAIN = 60_000; // milliseconds until sending is tried again after the last of them; this program's choice

const FIELDS = ["name", "telephone", "email", "postcode", "when", "note"];

/** The name of a photo's line in a draft. */
const photoLine = (name) => `${LINE_PHOTO} ${name}`;
/** The name of the photo that a line with this name describes. */
const photoOf = (line) => line.split(" ")[1];

/**
 * Starts the plain form. `around` is what presurvey.js passes in: the form's element, the language, the draft (see half-done.js), the
 * emergency advice that is shown now, and the functions `show`, `filled` and `tell`.
 */
export function begin(around) {
  const { host, language, draft, advice, show, filled, tell } = around;
  const said = linesOf(draft.lines);
  // How long filling it in took is said only of a form that was begun here: robots take no time.
  const begun = said.has(LINES_OF_CONTACT.name) ? undefined : Date.now();
  const made = MADE[language] ?? MADE.en;
  const page = filled(made.form);
  const find = (what) => page.querySelector(what);
  const photos = []; // { copy, line }
  const given = (name) => JSON.parse(said.get(LINES_OF_HAZARD + name) ?? "null");
  const hazard = { signs: given("signs"), when: given("when"), place: given("place") };
  // Drawn once and kept with the draft, so that an enquiry that is sent twice counts once.
  if (!said.has(LINE_SECRETS)) said.set(LINE_SECRETS, `${draw()} ${draw()}`);

  if (advice) find("form").prepend(advice);
  // The homeowner is sent to look at meter and board only where every sign was ruled out.
  const look = hazard.signs?.length === 0 ? "yes" : "no";
  for (const hint of page.querySelectorAll("[data-look]")) hint.hidden = hint.dataset.look !== look;
  for (const name of FIELDS) find(`#c-${name}`).value = said.get(LINES_OF_CONTACT[name]) ?? "";
  tellNotice();

  const remember = () => {
    for (const name of FIELDS) {
      const { value } = find(`#c-${name}`);
      if (value) said.set(LINES_OF_CONTACT[name], value);
      else said.delete(LINES_OF_CONTACT[name]);
    }
    draft.keep(textOf(said));
  };
  page.addEventListener("input", remember);
  find("#c-photo").addEventListener("change", ({ target }) => take([...target.files]));
  find("form").addEventListener("submit", (event) => {
    event.preventDefault();
    if (complain()) send();
  });
  show(page);
  remember();
  findPhotos();
  find("h2").focus();
  host.scrollIntoView();
  tell(EVENT_STEP, { kind: "contact", step: "" });

  // The privacy notice.

  /** Fills in who is responsible, how long an enquiry is kept and where the full notice is, as far as page and config say. */
  async function tellNotice() {
    const link = find(".privacy a");
    const leads = (to) => {
      if (link.parentNode) link.parentNode.hidden = !to?.startsWith("https://");
      link.href = to ?? "";
    };
    leads(host.getAttribute("privacy")?.trim());
    const headers = { Accept: "application/json;format=4" };
    const answer = await fetch(host.getAttribute("config") ?? "", { headers }).catch(() => undefined);
    const config = answer?.ok && (await answer.json().catch(() => undefined));
    if (!config?.installer?.name) return;
    const { name, legal_name: inLaw, privacy } = config.installer;
    for (const one of page.querySelectorAll("[data-text]")) {
      one.textContent = one.dataset.text.replaceAll("{who}", inLaw || name).replaceAll("{days}", config.keep_days);
    }
    if (privacy) leads(privacy);
    find("#c-copy").closest("label").hidden = !config.copies;
  }

  // Missing fields.

  function complain() {
    const has = (name) => find(`#c-${name}`).value.trim() !== "";
    const missing = {
      name: !has("name"),
      telephone: !has("telephone") && !has("email"),
      email: !find("#c-email").validity.valid,
    };
    for (const [name, wrong] of Object.entries(missing)) {
      const field = find(`#c-${name}`);
      find(`#ce-${name}`).hidden = !wrong;
      for (const [told, value] of [["aria-invalid", "true"], ["aria-describedby", `ce-${name}`]]) {
        if (wrong) field.setAttribute(told, value);
        else field.removeAttribute(told);
      }
    }
    find("[aria-invalid=true]")?.focus();
    return !find("[aria-invalid=true]");
  }

  // Photos: decoded and encoded anew, so that they have none of a camera's metadata.

  async function take(files) {
    find("#c-photo").value = "";
    const trouble = (name) => page.querySelectorAll("[data-trouble]").forEach((one) => (one.hidden = one.dataset.trouble !== name));
    trouble();
    for (const file of files) {
      if (photos.length >= MOST_PHOTOS) return trouble("too-many");
      const picture = await createImageBitmap(file).catch(() => undefined);
      if (!picture) {
        trouble("not-a-picture");
        continue;
      }
      const { copy, width, height } = await copied(picture);
      picture.close();
      if (!copy) {
        trouble("no-copy");
        continue;
      }
      const name = await nameOf(copy);
      add(copy, name && photoLine(name));
      if (!name) continue; // the photo can be sent, but not stored
      said.set(photoLine(name), `${PHOTO_OF_ANYTHING} ${width} ${height} ${copy.size}`);
      remember();
      draft.store().then((kept) => kept.keepPhoto(name, copy), () => {});
    }
  }

  /** Adds a photo to those that will be sent, and shows it. */
  function add(copy, line) {
    const photo = { copy, line };
    photos.push(photo);
    const row = find("template").content.firstElementChild.cloneNode(true);
    const image = row.querySelector("img");
    image.src = URL.createObjectURL(copy);
    row.querySelector("button").addEventListener("click", () => {
      photos.splice(photos.indexOf(photo), 1);
      URL.revokeObjectURL(image.src);
      row.remove();
      find("#c-photo").focus();
      if (!line) return;
      said.delete(line);
      remember();
      draft.store().then((kept) => kept.dropPhoto(photoOf(line)), () => {});
    });
    find(".chosen").append(row);
  }

  /** Reads the photos of the draft from the device. */
  async function findPhotos() {
    for (const line of [...said.keys()].filter((name) => name.startsWith(photoLine("")))) {
      const kept = await draft.store().catch(() => undefined);
      const copy = await kept?.photo(photoOf(line));
      if (copy) add(copy, line);
      else said.delete(line);
    }
  }

  // Sending.

  function letter() {
    const text = new FormData();
    for (const name of FIELDS) text.append(name, find(`#c-${name}`).value.trim());
    const signs = hazard.signs === "not-sure" ? ["not-sure"] : hazard.signs?.length ? hazard.signs : ["none"];
    for (const sign of signs) text.append("hazard[]", sign);
    if (hazard.when) text.append("hazard-when", hazard.when);
    if (hazard.place) text.append("hazard-place", hazard.place);
    const copy = find("#c-copy");
    if (copy.checked && !copy.closest("[hidden]")) text.append("copy", "yes");
    if (begun) text.append("seconds", Math.round((Date.now() - begun) / 1000));
    text.append("client_key", said.get(LINE_SECRETS).split(" ")[0]);
    text.append("summary", summary(signs));
    photos.forEach(({ copy }, at) => text.append("photo[]", copy, `photo-${at + 1}.jpg`));
    return text;
  }

  /** The enquiry in plain text. */
  function summary(signs) {
    const rows = FIELDS.map((name) => [find(`label[for=c-${name}]`).textContent, find(`#c-${name}`).value.trim()]);
    rows.unshift(["hazard", [...signs, hazard.when, hazard.place].filter(Boolean).join(", ")]);
    return rows.filter(([, text]) => text).map(([label, text]) => `${label}: ${text}`).join("\n");
  }

  let waits;

  async function send() {
    const state = (name) => {
      find(".sending").hidden = name !== "sending";
      find(".no-answer").hidden = name !== "no-answer";
      find(".refused").hidden = name !== "refused";
      find(".main").disabled = name === "sending";
    };
    state("sending");
    const body = letter();
    for (const wait of [...WAITS, undefined]) {
      const answer = await fetch(host.getAttribute("submit") ?? "", { method: "POST", body }).catch(() => undefined);
      if (answer?.ok) return arrived(await answer.text());
      // No answer, a timeout, a rate limit, or a fault of the server: a later try may succeed.
      const later = !answer || answer.status === 408 || answer.status === 429 || answer.status >= 500;
      if (!later) {
        tell(EVENT_FAILED, { reason: FAILURE_REFUSED });
        return state("refused");
      }
      if (wait) await new Promise((go) => setTimeout(go, wait));
    }
    state("no-answer");
    tell(EVENT_FAILED, { reason: FAILURE_NO_ANSWER });
    // It is sent again by itself until there is an answer.
    const again = () => page.isConnected && !find(".main").disabled && send();
    addEventListener("online", again, { once: true });
    clearTimeout(waits);
    waits = setTimeout(again, AGAIN);
  }

  function arrived(text) {
    let reference, secret;
    try {
      ({ reference, deletion_secret: secret } = JSON.parse(text));
    } catch {
      // An ordinary web host answers in a format of its own.
    }
    const [key] = said.get(LINE_SECRETS).split(" ");
    draft.clear();
    const sent = filled(made.sent);
    if (reference) sent.querySelector(".reference").textContent = reference;
    else sent.querySelector(".told").remove();
    const back = sent.querySelector(".taking-back");
    if (secret) back.querySelector("a").href = `${host.getAttribute("submit")}/${key}/deletion#${secret}`;
    else back.remove();
    show(sent);
    sent.querySelector("h2").focus();
    host.scrollIntoView();
    tell(EVENT_STEP, { kind: "sent", step: "" });
    tell(EVENT_SENT, {});
  }
}

/** Ticks the draft's answers on the first screen, from which the homeowner goes on to the plain form. */
export function tick(screen, draft) {
  const lines = linesOf(draft);
  const given = (name) => JSON.parse(lines.get(LINES_OF_HAZARD + name) ?? "null");
  const signs = given("signs");
  const words = Array.isArray(signs) ? (signs.length ? signs : ["none"]) : [signs];
  for (const input of screen.inputs("hazard")) input.checked = words.includes(input.value);
  screen.update();
  for (const name of ["when", "place"]) {
    for (const input of screen.inputs(`hazard-${name}`)) input.checked = input.value === given(name);
    screen.update();
  }
}

/** Thirty-two random hexadecimal digits. */
const draw = () => hex(crypto.getRandomValues(new Uint8Array(16)));

const hex = (bytes) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");

/** A photo's name, the SHA-256 of its bytes; undefined where the connection is not secure. */
async function nameOf(copy) {
  const digest = await crypto.subtle?.digest("SHA-256", await copy.arrayBuffer());
  return digest && hex(new Uint8Array(digest));
}

/** A smaller copy of a picture as JPEG, with its size; undefined where the browser can't make one. */
async function copied(picture) {
  const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
  const [width, height] = [picture.width, picture.height].map((side) => Math.max(1, Math.round(side * scale)));
  const canvas = Object.assign(document.createElement("canvas"), { width, height });
  const context = canvas.getContext("2d");
  context?.drawImage(picture, 0, 0, width, height);
  const copy = context && (await new Promise((made) => canvas.toBlob(made, "image/jpeg", QUALITY)));
  return { copy, width, height };
}
