//! The cause of every flag: the smallest change of answers that raises it, and whether it may make a job less involved.

/// Whether a cause may make a job less involved.
#[derive(Clone, Copy, Debug)]
pub enum May {
    /// Never.
    Never,
    /// Only where it stands in place of a graver answer, as said; never where nothing was answered before.
    InPlaceOfAGraver(&'static str),
    /// It is good news as well, takes an uncertainty away, or takes a graver answer back, as said.
    ForThis(&'static str),
}

/// One flag's cause.
pub struct Cause {
    /// The flag.
    pub flag: &'static str,
    /// What is said, in place of what was.
    pub said: &'static str,
    /// Whether that may lower the complexity.
    pub may_lower: May,
}

const fn never(flag: &'static str, said: &'static str) -> Cause {
    Cause { flag, said, may_lower: May::Never }
}

const fn in_place(flag: &'static str, said: &'static str, why: &'static str) -> Cause {
    Cause { flag, said, may_lower: May::InPlaceOfAGraver(why) }
}

const fn lowers(flag: &'static str, said: &'static str, why: &'static str) -> Cause {
    Cause { flag, said, may_lower: May::ForThis(why) }
}

const COUNTED_AGAIN: &str = "counts that contradicted one another, or more of them, are counted again";
const A_WAY_OF_ITS_OWN: &str = "it stands in place of a way that digs or is longer";
const NOT_FIXED: &str = "fixing one bought already is not priced or timed until its papers are seen";
const LONG_AGO: &str = "what passed long ago stands in place of a danger that counts";
const THERE_ALREADY: &str = "a cable or circuit that is there may do, and then nothing is run or dug";
const AT_ITS_FEED: &str =
    "at an outbuilding's feed nothing is isolated at the meter, so that no supplier is waited for";
const NOT_THE_BOARD_MEANT: &str =
    "of two boards only the one that is meant counts: with the other goes a contradiction in what was seen of it";
const SEEN_AGAIN: &str = "what was seen of the board contradicted itself and is seen again";

/// Every flag of the register, in its order.
pub const CAUSES: &[Cause] = &[
    never("asbestos-when-drilling", r#"{"home": {"age": "1930-1966"}, "route": {"walls": 1}}"#),
    never("backing-board-suspect", r#"{"meter": {"backing": "dark-or-fibrous"}, "home": {"age": "1930-1966"}}"#),
    never("battery-beside", r#"{"loads": {"battery": true}}"#),
    never("board-full", r#"{"board": {"spare_ways": "none"}}"#),
    never("board-seen-disagrees", r#"{"board": {"protection": "fuse-wire", "test_buttons": "each-way"}}"#),
    never("bonding-not-seen", r#"{"earthing": {"gas_pipe": "metal", "gas_clamp": false}}"#),
    lowers("bought-already", r#"{"wish": {"bought": true, "bought_papers": false}}"#, NOT_FIXED),
    lowers("builders-cable", r#"{"route": {"builders_cable": true}}"#, THERE_ALREADY),
    never("buried-services", r#"{"route": {"buried": ["gas"]}}"#),
    in_place(
        "cable-on-a-fence",
        r#"{"route": {"stretches": [{"along": "fence", "length": {"value": 8, "unit": "metres"}}]}}"#,
        A_WAY_OF_ITS_OWN,
    ),
    never("carrier-rating-is-a-bound", r#"{"meter": {"carrier_rating": 60}}"#),
    never("communal-meter", r#"{"meter": {"place": "communal"}}"#),
    in_place(
        "conservation-area",
        r#"{"home": {"protected": "conservation-area"}}"#,
        "a listed building wants consent before anything is fixed",
    ),
    never("demand-over-limit", r#"{"loads": {"showers": 4}}"#),
    lowers(
        "device-to-confirm",
        r#"{"board": {"protection": "breakers", "test_buttons": "each-way", "spare_ways": "several", "maker": "an invented name"}}"#,
        "a spare way of its own is found where none was known of",
    ),
    in_place(
        "digging",
        r#"{"route": {"stretches": [{"along": "paving", "length": {"value": 8, "unit": "metres"}}]}}"#,
        A_WAY_OF_ITS_OWN,
    ),
    lowers("direct-current-not-sensed", r#"{"wish": {"bought": true}}"#, NOT_FIXED),
    never("earthing-unknown", r#"{"earthing": {"conductor_goes": "not-sure"}}"#),
    never(
        "farm-building",
        r#"{"parking": {"place": "detached-garage"}, "outbuilding": {"board_there": true, "farm": true}}"#,
    ),
    never("fire-stopping", r#"{"parking": {"place": "shared-car-park"}, "route": {"walls": 1}}"#),
    never("footway-crossing", r#"{"route": {"ground": "footway"}}"#),
    lowers(
        "fuse-rating-not-read",
        r#"{"meter": {"carrier_rating": "not-sure"}}"#,
        "a small rating that was read is graver than one that nobody could read",
    ),
    never("fuse-wire-board", r#"{"board": {"protection": "fuse-wire"}}"#),
    never("generation-without-letter", r#"{"loads": {"solar": true, "solar_power": 5, "operator_letter": false}}"#),
    never("half-hour-hides-load", r#"{"loads": {"highest_half_hour": 3, "solar": true, "solar_power": 3}}"#),
    never("half-hour-implausible", r#"{"loads": {"highest_half_hour": 90}}"#),
    lowers("hazard-long-ago", r#"{"hazard": {"signs": ["arcing"], "when": "long-ago"}}"#, LONG_AGO),
    lowers(
        "hazard-not-sure",
        r#"{"hazard": {"signs": "not-sure"}}"#,
        "a danger that may be there stands in place of one that is",
    ),
    never("hazard-seen", r#"{"hazard": {"signs": ["discolouration"]}}"#),
    lowers(
        "high-work",
        r#"{"route": {"stretches": [{"along": "outside-wall", "length": {"value": 6, "unit": "metres"}, "high": true}]}}"#,
        A_WAY_OF_ITS_OWN,
    ),
    in_place(
        "higher-risk-building",
        r#"{"home": {"postcode": "ZZ1", "kind": "flat"}, "route": {"walls": 1}}"#,
        "a postcode outside the area is graver than one within it",
    ),
    never("landlord", r#"{"home": {"tenure": "rent"}}"#),
    in_place(
        "larger-cable",
        r#"{"route": {"stretches": [{"along": "outside-wall", "length": {"value": 70, "unit": "metres"}}]}}"#,
        A_WAY_OF_ITS_OWN,
    ),
    never(
        "lead-reaches-one-way",
        r#"{"wish": {"outlet": "lead"}, "parking": {"inlet": "front", "spot_to_car": {"value": 2, "unit": "metres"}}}"#,
    ),
    never("lead-too-short", r#"{"wish": {"outlet": "lead", "lead_length": {"value": 10, "unit": "metres"}}}"#),
    never("length-beyond-use", r#"{"route": {"length": {"value": 1000, "unit": "metres"}}}"#),
    never("listed", r#"{"home": {"protected": "listed"}}"#),
    never("load-limit-designed", r#"{"loads": {"cooking": "electric", "showers": 1}}"#),
    in_place("looped-supply", r#"{"meter": {"fuse_carriers": 1, "head_conductors": 4}}"#, COUNTED_AGAIN),
    never("main-switch-not-read", r#"{"loads": {"showers": 2, "cooking": "electric"}}"#),
    never("near-gas-meter", r#"{"earthing": {"gas_meter_distance": {"value": 0.4, "unit": "metres"}}}"#),
    never("night-heating", r#"{"loads": {"heating": "storage"}}"#),
    lowers(
        "no-loop-seen",
        r#"{"home": {"kind": "terrace"}, "meter": {"fuse_carriers": 1, "head_conductors": 2, "street_cables": 1}}"#,
        "that no loop was seen is good news",
    ),
    in_place(
        "no-size-passes",
        r#"{"route": {"stretches": [{"along": "soft-ground", "length": {"value": 900, "unit": "metres"}}]}}"#,
        A_WAY_OF_ITS_OWN,
    ),
    never("no-surge-device", r#"{"board": {"surge_device": false}}"#),
    never("no-wall-space", r#"{"board": {"spare_ways": "none", "wall_space": false}}"#),
    never("northern-ireland", r#"{"home": {"postcode": "BT0"}}"#),
    never("off-peak-not-steered", r#"{"wish": {"steered_by": "charge-point"}}"#),
    lowers("old-point-replaced", r#"{"loads": {"other_point": "replaced"}}"#, THERE_ALREADY),
    lowers(
        "operator-dates-disagree",
        r#"{"operator": {"asked_on": "2026-03-10", "answer": "accepted", "answered_on": "2026-03-02"}}"#,
        "the network operator has answered",
    ),
    never("operator-refused", r#"{"operator": {"answer": "refused"}}"#),
    lowers(
        "operators-limit",
        r#"{"operator": {"answer": "limited", "limit": 60}}"#,
        "the network operator has answered",
    ),
    lowers(
        "outbuilding-board",
        r#"{"parking": {"place": "detached-garage"}, "outbuilding": {"board_there": true, "feed_device": 20}}"#,
        AT_ITS_FEED,
    ),
    lowers(
        "outbuilding-electrode",
        r#"{"parking": {"place": "detached-garage"}, "outbuilding": {"board_there": true}, "earthing": {"conductor_goes": "rod"}}"#,
        AT_ITS_FEED,
    ),
    never("outside-area", r#"{"home": {"postcode": "YY1"}}"#),
    in_place(
        "outside-meter-box",
        r#"{"board": {"spare_ways": "none"}, "meter": {"place": "outside-box"}}"#,
        "a meter in a shared room wants the freeholder's leave",
    ),
    never("overhead-line", r#"{"route": {"overhead_line": true}}"#),
    never("planned-load", r#"{"loads": {"planned": "a heat pump next year"}}"#),
    lowers(
        "pme-outdoors",
        r#"{"earthing": {"conductor_goes": "service-head"}}"#,
        "with the earthing known, a breaker alone may do in the board",
    ),
    never("power-both-ways", r#"{"wish": {"gives_back": true}}"#),
    never("report-to-photograph", r#"{"board": {"report": true}}"#),
    never("scottish-flat", r#"{"home": {"postcode": "EH1", "kind": "flat", "tenure": "own"}}"#),
    never("scottish-planning", r#"{"home": {"postcode": "EH1"}}"#),
    never("second-charge-point", r#"{"loads": {"other_point": "kept"}}"#),
    lowers("several-boards", r#"{"board": {"boards": 2}}"#, NOT_THE_BOARD_MEANT),
    never("shared-car-park", r#"{"parking": {"place": "shared-car-park"}}"#),
    never("shared-ground", r#"{"route": {"ground": "shared"}}"#),
    in_place(
        "shared-residual-device",
        r#"{"board": {"protection": "breakers", "spare_ways": "one", "test_buttons": "two"}}"#,
        SEEN_AGAIN,
    ),
    never("signal-marginal", r#"{"signal": {"level": 70}}"#),
    in_place("split-phase", r#"{"meter": {"fuse_carriers": 2, "head_conductors": 3}}"#, COUNTED_AGAIN),
    never("street-parking", r#"{"parking": {"place": "street"}}"#),
    never("supplier-must-isolate", r#"{"board": {"spare_ways": "none"}, "meter": {"switch_after": false}}"#),
    in_place("supply-counts-disagree", r#"{"meter": {"fuse_carriers": 3, "head_conductors": 2}}"#, COUNTED_AGAIN),
    lowers(
        "supply-not-counted",
        r#"{"meter": {"fuse_carriers": "not-sure", "head_conductors": "not-sure", "street_cables": "not-sure"}}"#,
        "a graver count is taken back",
    ),
    lowers(
        "supports-in-a-fire",
        r#"{"route": {"stretches": [{"along": "inside", "length": {"value": 8, "unit": "metres"}}]}}"#,
        A_WAY_OF_ITS_OWN,
    ),
    lowers(
        "surge-device-finds-no-gap",
        r#"{"board": {"protection": "breakers", "test_buttons": "each-way", "spare_ways": "one", "surge_device": false}, "parking": {"place": "drive"}}"#,
        "one gap is found where none was known of",
    ),
    never("tails-long", r#"{"meter": {"to_board": {"value": 5, "unit": "metres"}, "switch_after": false}}"#),
    never("thick-wall", r#"{"route": {"wall_thickness": {"value": 0.6, "unit": "metres"}}}"#),
    lowers(
        "three-phase",
        r#"{"meter": {"fuse_carriers": 3, "head_conductors": 4}}"#,
        "with the phases counted a loop is less likely than without",
    ),
    lowers(
        "tn-s-may-be-pme",
        r#"{"earthing": {"conductor_goes": "cable-sheath"}}"#,
        "with the earthing known, a breaker alone may do in the board",
    ),
    never("tt-electrode", r#"{"earthing": {"conductor_goes": "rod"}}"#),
    in_place("type-ac-upstream", r#"{"board": {"rcd_type": "ac", "test_buttons": "one"}}"#, SEEN_AGAIN),
    never("weak-signal", r#"{"signal": {"wifi_bars": 1}}"#),
    lowers(
        "which-board",
        r#"{"board": {"boards": 2, "which": "not-sure"}, "parking": {"place": "drive"}}"#,
        NOT_THE_BOARD_MEANT,
    ),
];
