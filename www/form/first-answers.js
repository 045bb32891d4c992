// Writes the answers of the first screen as lines of a draft. A part of presurvey.js.
import { FIRST_STEP, LINES_OF_HAZARD, LINE_STEP } from "./declared.js";
import { linesOf, written } from "./draft-lines.js";

/** The lines of a draft, as the program writes them, when the first screen is left; lines of other screens stay as they were. */
export function linesOnLeaving(screen, before) {
  const lines = linesOf(before);
  const signs = screen.ticked("hazard");
  const alone = signs.find((input) => input.matches("[data-alone]"))?.value;
  const chosen = (name) => screen.ticked(name)[0]?.value;
  const given = alone === "not-sure" ? alone : alone ? [] : signs.map((input) => input.value);
  const said = { signs: signs.length && given, when: chosen("hazard-when"), place: chosen("hazard-place") };
  for (const name in said) {
    if (said[name]) lines.set(LINES_OF_HAZARD + name, written(said[name]));
    else lines.delete(LINES_OF_HAZARD + name);
  }
  return lines.set(LINE_STEP, FIRST_STEP);
}
