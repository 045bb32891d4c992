// What the first screen needs, on pages of our own and on anybody's. A part of presurvey.js and of own-page.js.

// Put in by the build.
const STYLE = __STYLE__;

let sheet;

/** Dresses a shadow root, if it is not dressed yet. Returns whether it could be. */
export function dress(shadow) {
  if (!("adoptedStyleSheets" in shadow)) return false;
  if (shadow.adoptedStyleSheets.length > 0) return true;
  if (!sheet) (sheet = new CSSStyleSheet()).replaceSync(STYLE);
  shadow.adoptedStyleSheets = [sheet];
  return true;
}

/**
 * The first screen at work: shows what the answers on it ask for, and does not leave before all is answered. It needs nothing
 * of the form's own script, which takes it over (`changed`, `left`) once that is there.
 */
export class Screen {
  /** Called after an answer. */
  changed = () => {};
  /** Called when the main button is pressed and everything is answered. */
  left = () => (this.goesOn = true);
  /** Whether something was answered. */
  touched = false;
  /** Whether it was left with nobody there to go on. */
  goesOn = false;

  #form;
  /** The parts that are there or not, each with what stands in its place. */
  #parts;
  /** Whether the main button was pressed too soon. */
  #pressed = false;
  /** Whether the list of signs is shown beside the advice: something else was noticed. */
  #lists = false;

  /** `form` is the markup as it is made beforehand; it remembers its screen under `screen`. */
  constructor(form) {
    this.#form = form;
    form.screen = this;
    form.addEventListener("change", ({ target }) => this.#answered(target));
    form.addEventListener("click", ({ target }) => target.closest?.(".else") && this.#list());
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#leave();
    });
    // A part that does not show is not there, as on the program's screens; its place is kept.
    this.#parts = [...form.querySelectorAll("[data-when], [data-over], [data-where], [data-pressed]")].map((part) => {
      part.hidden = false;
      return [part, document.createComment("")];
    });
    // A browser that loads a page again may tick what was ticked before.
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
      // "None" and "not sure" stand alone.
      for (const other of this.inputs("hazard")) {
        if (other !== input && (input.matches("[data-alone]") || other.matches("[data-alone]"))) other.checked = false;
      }
      // What is new is of now, whatever was said of another.
      for (const other of this.inputs("hazard-when")) other.checked = false;
      this.#lists = false;
    }
    const advice = () => this.#form.querySelector(".emergency");
    const before = advice()?.textContent;
    this.update();
    this.changed();
    // Nobody should have to look for the advice: it comes into view when it comes or changes, and takes the focus, for the list it
    // was asked in is gone.
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

  /** Shows what the answers ask for: each part says itself when it is there. */
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
    // A danger takes the screen.
    const page = this.#form.querySelector("form");
    if (!this.#form.querySelector(".emergency")) page.removeAttribute("data-danger");
    else page.setAttribute("data-danger", this.#lists ? "lists" : "shown");
    for (const question of this.#form.querySelectorAll("fieldset.question")) {
      const told = [...question.querySelectorAll(".hint, .trouble")];
      question.setAttribute("aria-describedby", told.map((one) => one.id).join(" "));
    }
  }
}
