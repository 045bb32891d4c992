// The invented homes of tests/homes as answers to the form: by question, in the order of asking.
import { readFile } from "node:fs/promises";

const home = (name) => new URL(`../../homes/${name}/answers.json`, import.meta.url);

/** A home's answers file without its date: the form sets its own. */
export async function answersOf(name) {
  const answers = JSON.parse(await readFile(home(name), "utf8"));
  delete answers.as_of;
  return answers;
}

/** The path of the answers file. */
export const fileOf = (name) => home(name).pathname;

// The field of the answers file for each question of the core.
const FIELDS = {
  hazard: "hazard.signs",
  "hazard-place": "hazard.place",
  "hazard-when": "hazard.when",
  postcode: "home.postcode",
  parking: "parking.place",
  tenure: "home.tenure",
  home: "home.kind",
  age: "home.age",
  showers: "loads.showers",
  cooking: "loads.cooking",
  heating: "loads.heating",
  "hot-tub": "loads.hot_tub",
  solar: "loads.solar",
  battery: "loads.battery",
  "highest-half-hour": "loads.highest_half_hour",
  "other-point": "loads.other_point",
  "builders-cable": "route.builders_cable",
  outlet: "wish.outlet",
  "follow-solar": "wish.follow_solar",
  "hold-back": "wish.hold_back",
  inlet: "parking.inlet",
  "route-length": "route.length",
  "route-mostly": "route.mostly",
  "wifi-bars": "signal.wifi_bars",
  "meter-place": "meter.place",
  "fuse-carriers": "meter.fuse_carriers",
  "street-cables": "meter.street_cables",
  "head-conductors": "meter.head_conductors",
  "carrier-rating": "meter.carrier_rating",
  "board-there": "outbuilding.board_there",
  protection: "board.protection",
  "test-buttons": "board.test_buttons",
  "spare-ways": "board.spare_ways",
};

/** A home's answers by question, in the words of the form's controls. */
export async function storyOf(name) {
  const answers = await answersOf(name);
  const told = Object.entries(FIELDS).flatMap(([id, path]) => {
    const [topic, field] = path.split(".");
    const said = answers[topic]?.[field];
    return said === undefined ? [] : [[id, inTheForm(said)]];
  });
  return Object.fromEntries(told);
}

function inTheForm(said) {
  if (said === true) return "yes";
  if (said === false) return "no";
  if (Array.isArray(said) && said.length === 0) return ["none"];
  return said;
}
