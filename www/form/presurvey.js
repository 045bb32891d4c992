// The element `<presurvey-form>`: it shows the prerendered first screen at once and operates it, while the form's program is being loaded;
// the program draws every later screen. Touches nothing of the page outside its own shadow root.
//
// The build bundles the imports below into this script, so that a page loads one file.
import { beside, checked, imported } from "./checked.js";
import { EVENT_FAILED, EVENT_READY, EVENT_STEP, FAILURE_BLOCKED, FAILURE_UNREACHABLE, LINE_QUEUED } from "./declared.js";
import { linesOf, textOf } from "./draft-lines.js";
import { filled, trusted } from "./filled.js";
import { linesOnLeaving } from "./first-answers.js";
import { HalfDone } from "./half-done.js";
import { glue, isBlocked, make, program } from "./program.js";
import { Screen, dress } from "./screen.js";
import { Spoken, languageOf } from "./spoken.js";
import { ABSENT, WAITS, afterPaint, sayWaiting } from "./waiting.js";

const NAME = "presurvey-form";

// A link of the form's own opens something other than the first screen; the first form on the page takes it.
const ours = "#presurvey-";
let opened = location.hash.startsWith(ours) ? location.hash : history.state?.presurvey;
addEventListener("hashchange", () => location.hash.startsWith(ours) && location.reload());

/** Whether a linked style sheet is there. One that was refused has no rules, or none that may be read. */
const linked = (shadow) => {
  try {
    return shadow.querySelector("link").sheet.cssRules.length;
  } catch {}
};

class PresurveyForm extends HTMLElement {
  /** The element that is shown: a panel, the first screen, or the one in which the program draws. */
  #shown;
  /** The mounted form, while the program runs here. */
  #running;
  /** The draft. */
  #draft;
  /** The first screen, while it is shown. */
  #screen;
  /** Whether the main button was pressed and waits for the program. */
  #waits = false;
  /** The form's language. */
  #spoken = new Spoken();

  connectedCallback() {
    if (!this.#shown) this.#speak();
    else if (this.#draft.lines !== undefined && this.#shown.matches(".program")) this.#begin(false);
  }

  disconnectedCallback() {
    // An element that was only moved is connected again before this runs.
    setTimeout(() => {
      if (this.isConnected || !this.#running) return;
      this.#draft.lines = this.#running.end();
      this.#running = undefined;
    });
  }

  /** The form's language. */
  get language() {
    return languageOf(this);
  }

  // Starting.

  /** Starts once the first screen has been fetched in the form's language. */
  #speak() {
    this.#draft = new HalfDone(this.getAttribute("config") ?? "");
    const learning = this.#spoken.learn(this.language);
    if (!learning) return this.#start();
    make();
    learning.then(() => this.#shown || (this.isConnected && this.#start()));
  }

  #start() {
    trusted(""); // throws where the page refuses the policy: the element's own content then stays
    const shadow = this.shadowRoot ?? this.attachShadow({ mode: "open" });
    // In frame.html a linked style sheet is there already; another would make the browser lay out everything again.
    if (!linked(shadow) && !dress(shadow)) {
      // In a bundle: shadow.append(Object.assign(document.createElement("style"), { textContent: STYLE }));
      shadow.append(Object.assign(document.createElement("link"), { rel: "stylesheet", href: beside("form.css") }));
      // As everywhere:
    }
    let begun;
    try {
      begun = this.#draft.noted();
    } catch {
      // A screen that is operated already may have been answered: it stays, and the database is read meanwhile.
      if (shadow.querySelector(".form")?.screen) return this.#open();
      // Access to localStorage is refused: nothing is shown until the database has been read, so that nothing is replaced then.
      this.#show(document.createElement("div"));
      this.#read().then(() => this.#open(this.#draft.lines));
      return;
    }
    if (opened) this.#follow(begun);
    else this.#open(begun);
  }

  /** Passes a link to the script that opens it (links.js). */
  #follow(begun) {
    const mine = opened;
    opened = undefined;
    this.#show(document.createElement("div"));
    const door = {
      host: this,
      begun: Boolean(begun),
      show: (next) => this.#show(next),
      begin: (lines) => {
        this.#draft.takeUp(lines);
        this.#go(false);
      },
      plainly: () => this.#open(begun),
    };
    const first = ["store.js", "fragment.js", "share.js"].map((file) => checked(file));
    Promise.all(first)
      .then(() => imported("links.js"))
      .then(({ open }) => open(door, mine))
      .catch(() => this.#open(begun));
  }

  /** Shows the panel that offers to continue a draft (`begun`: the note about it, or the draft itself), else the first screen. */
  #open(begun) {
    make();
    if (begun) this.#showBegun();
    else this.#showFirst();
    // An enquiry that waits to be sent is sent without a press.
    if (begun === "queued" || linesOf(begun).has(LINE_QUEUED)) this.#shown.querySelector("[data-does=on]").click();
    afterPaint(() => {
      this.#tell(EVENT_READY);
      for (const part of [program(), this.#spoken.fetchWords()]) part.catch(() => {}); // a failure is reported when the first screen is left
      if (!begun) this.#lookAgain();
    });
  }

  /** After a crash the device may have a draft without a note about it: it is offered as long as nothing was answered. */
  async #lookAgain() {
    const screen = this.#shown;
    const draft = await this.#draft.found().catch(() => {});
    // The page may be painted only once the program runs, which has the draft by then.
    if (!draft || this.#running || this.#shown !== screen || this.#draft.lines !== undefined || this.#waits || !this.isConnected) return;
    this.#draft.takeUp(draft);
    this.#showBegun();
  }

  /** Continues from the draft on the device; without the store's script there is none. */
  #read() {
    return this.#draft.found().then((draft) => this.#draft.takeUp(draft), () => {});
  }

  /** Replaces the element that is shown. */
  #show(next) {
    // On the build's own pages the first screen was in the page before this script.
    const before = this.#shown ?? this.shadowRoot.querySelector(".form");
    if (before === next) {
      // It is shown already.
    } else if (before) {
      before.replaceWith(next);
    } else {
      this.shadowRoot.append(next);
    }
    this.#shown = next;
  }

  #filled(markup) {
    return filled(markup, this, this.#spoken.made.unnamed);
  }

  // A draft on the device.

  #showBegun() {
    const panel = this.#filled(this.#spoken.made.begun);
    const anew = () => {
      this.#showFirst();
      this.#focusTitle();
    };
    panel.addEventListener("click", async ({ target }) => {
      const does = target.closest("[data-does]")?.dataset.does;
      if (does === "again") {
        this.#draft.clear();
        anew();
      } else if (does === "on") {
        await this.#read();
        if (this.#draft.lines) this.#go(false);
        else anew(); // the draft was deleted meanwhile
      }
    });
    this.#show(panel);
  }

  // The first screen.

  #showFirst() {
    // On the build's own pages it is in the page, and may be operated there already (see own-page.js).
    const declared = this.#shown ? undefined : this.shadowRoot.querySelector(`.form[data-version]:lang(${this.language})`);
    const form = declared ?? this.#filled(this.#spoken.made.first);
    this.#show(form);
    const screen = (this.#screen = form.screen ?? new Screen(form));
    screen.changed = () => this.#changed();
    screen.left = () => this.#leave();
    this.#tell(EVENT_STEP, { kind: "screen", step: "hazard" });
    if (screen.touched) this.#changed();
    if (screen.goesOn) this.#leave();
  }

  #changed() {
    this.#wait(false);
    const lines = linesOnLeaving(this.#screen, this.#draft.lines);
    // A draft with nothing but a step is not worth keeping.
    if (lines.size > 1) this.#draft.keep(textOf(lines));
    else this.#draft.clear();
  }

  #leave() {
    this.#draft.lines = textOf(linesOnLeaving(this.#screen, this.#draft.lines));
    this.#go(true);
  }

  // The program takes over.

  #wait(waits) {
    this.#waits = waits;
    sayWaiting(this.#shown, waits && WAITS);
  }

  /** Goes on with the program, now or once it is loaded. `leaves`: the first screen was answered and is left. */
  async #go(leaves) {
    if (glue && this.#spoken.hasWords) return this.#begin(leaves);
    this.#wait(true);
    const shown = this.#shown;
    const isOver = () => !this.#waits || shown !== this.#shown;
    try {
      await Promise.all([program(), this.#spoken.fetchWords()]);
    } catch (problem) {
      if (isOver() || (isBlocked(problem) && (await this.#goPlain(leaves)))) return;
      this.#tell(EVENT_FAILED, { reason: FAILURE_UNREACHABLE });
      sayWaiting(shown, ABSENT, () => isOver() || this.#go(leaves));
      return;
    }
    if (isOver()) return;
    if (this.isConnected) this.#begin(leaves);
    else this.#wait(false); // the element was removed from the page meanwhile
  }

  #begin(leaves) {
    this.#waits = false;
    this.#screen = undefined; // the first screen is finished
    const place = Object.assign(document.createElement("div"), { className: "program" });
    this.#show(place);
    this.#running = glue.begin(this, place, this.#draft.handOn(), leaves, this.#spoken.words);
  }

  /** Goes on with the plain form instead of the program. Returns whether that was possible. */
  async #goPlain(leaves) {
    this.#tell(EVENT_FAILED, { reason: FAILURE_BLOCKED });
    const plain = await imported("plain.js").catch(() => {});
    if (!plain) return false;
    const draft = this.#draft;
    if (leaves) {
      plain.begin({
        host: this,
        language: this.#spoken.made.language,
        draft,
        advice: this.#shown.querySelector(".emergency"),
        show: (next) => this.#show(next),
        filled: (markup) => this.#filled(markup),
        tell: (name, detail) => this.#tell(name, detail),
      });
    } else {
      // A draft is opened at the first screen, because the plain form follows that.
      const { lines } = draft;
      this.#waits = false;
      this.#showFirst();
      plain.tick(this.#screen, lines);
      draft.lines = lines;
      this.#focusTitle();
    }
    return true;
  }

  #focusTitle() {
    this.#shown.querySelector("h2")?.focus();
    this.scrollIntoView();
  }

  /** Sends an event to the page around; it holds nothing personal. */
  #tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true, detail }));
  }
}

// If another version of this script defined the element first, that one stays.
if (!customElements.get(NAME)) customElements.define(NAME, PresurveyForm);
