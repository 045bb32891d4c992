// Operates the prerendered first screen, on the build's own pages and on anybody's. A part of presurvey.js and of own-page.js.

// Put in by the build.
const STYLE = __STYLE__;

let sheet;

/** Adds the form's style sheet to a shadow root, if it is not there yet. Returns whether that was possible. */
export function dress(shadow) {
  if (!("adoptedStyleSheets" in shadow)) return false;
  if (shadow.adoptedStyleSheets.length > 0) return true;
  if (!sheet) (sheet = new CSSStyleSheet()).replaceSync(STYLE);
  shadow.adoptedStyleSheets = [sheet];
  return true;
}

/**
 * The first screen while it is operated: shows the parts that the answers call for, and can be left only when everything is answered. It
 * works without presurvey.js, which sets `changed` and `left` once it is loaded.
 */
export class Screen {
  /** Called after an answer. */
  changed = () => {};
  /** Called when the main button is pressed and everything is answered. */
  left = () => (this.goesOn = true);
  /** Whether something was answered. */
  touched = false;
  /** Whether it was left before presurvey.js was there to go on. */
  goesOn = false;

  #form;
  /** The parts that depend on answers, each with the node that keeps its place while it is hidden. */
  #parts;
  /** Whether the main button was pressed too soon. */
  #pressed = false;
  /** Whether the list of signs is shown beside the emergency advice, so that a further one can be ticked. */
  #lists = false;

  /** `form` is the element with the prerendered markup; its property `screen` is set to this object. */
  constructor(form) {
    this.#form = form;
    form.screen = this;
    form.addEventListener("change", ({ target }) => this.#answered(target));
    form.addEventListener("click", ({ target }) => target.closest?.(".else") && this.#list());
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#leave();
    });
    // A part that does not show is removed, as on the program's screens, and a node keeps its place.
    this.#parts = [...form.querySelectorAll("[data-when], [data-over], [data-where], [data-pressed]")].map((part) => {
      part.hidden = false;
      return [part, document.createComment("")];
    });
    // After a reload a browser may restore what was ticked.
    this.touched = this.ticked("hazard").length > 0;
    this.update();
  }

  inputs(name) {
    return [...this.#form.querySelectorAll(`input[name="${name}"]`)];
  }

  ticked(name) {
    return this.inputs(name).filter((input) => input.checked);
  }

  #answered(input) {
    this.touched = true;
    if (input.name === "hazard" && input.checked) {
      // "None" and "not sure" exclude all other choices.
      for (const other of this.inputs("hazard")) {
        if (other !== input && (input.matches("[data-alone]") || other.matches("[data-alone]"))) other.checked = false;
      }
      // After a new sign, the question when it was noticed has to be answered again.
      for (const other of this.inputs("hazard-when")) other.checked = false;
      this.#lists = false;
    }
    const advice = () => this.#form.querySelector(".emergency");
    const before = advice()?.textContent;
    this.update();
    this.changed();
    // Nobody should have to look for the advice: when it appears or changes, it is scrolled into view and takes the focus, because the list
    // that had it is gone.
    if (advice() && advice().textContent !== before) {
      advice().scrollIntoView();
      advice().querySelector("h3").focus();
    }
  }

  /** Back to the list of signs, beside the advice. */
  #list() {
    this.#lists = true;
    this.update();
    this.inputs("hazard")[0].focus();
  }

  #leave() {
    this.#pressed = true;
    this.update();
    const open = this.#form.querySelector(".trouble")?.closest(".question");
    if (open) {
      open.querySelector("input").focus();
      return;
    }
    this.#pressed = false;
    this.left();
  }

  /** Shows or hides each part by the condition in its attributes. */
  update() {
    const words = (part, name) => part.dataset[name]?.split(" ");
    const signs = this.ticked("hazard").map((input) => input.value);
    if (signs.length === 0) signs.push("open");
    const place = this.ticked("hazard-place")[0]?.value ?? "open";
    const over = this.ticked("hazard-when")[0]?.matches("[data-is-over]");
    for (const [part, gap] of this.#parts) {
      const when = (over && words(part, "over")) || words(part, "when");
      const shows =
        (when?.some((word) => signs.includes(word)) ?? true) &&
        (words(part, "where")?.includes(place) ?? true) &&
        (this.#pressed || !part.matches("[data-pressed]"));
      if (shows) gap.replaceWith(part);
      else part.replaceWith(gap);
    }
    // Emergency advice fills the screen.
    const page = this.#form.querySelector("form");
    if (!this.#form.querySelector(".emergency")) page.removeAttribute("data-danger");
    else page.setAttribute("data-danger", this.#lists ? "lists" : "shown");
    for (const question of this.#form.querySelectorAll("fieldset.question")) {
      const told = [...question.querySelectorAll(".hint, .trouble")];
      question.setAttribute("aria-describedby", told.map((one) => one.id).join(" "));
    }
  }
}
