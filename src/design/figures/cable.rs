//! Figures of the cable: capacity as laid, voltage drop, longest runs, and the smallest size that passes every check.

use super::fault_loop::{ARRANGEMENT, BREAKER, C_MIN, EXTERNAL, external};
use super::{
    Arguments, Figure, FigureError, Kind, NOMINAL, OneOf, Reached, Takes, Value, from_table, needed, rows, usual,
    without,
};
use crate::answers::{Along, Word, choices::words};
use crate::design::cable::{piece, rating_for};
use crate::design::capacity::{
    self, CableType, Factors, Method, iz, needed as needed_capacity, published, published_ambient, published_drop,
};
use crate::design::loop_impedance::BreakerType;
use crate::design::sizing::{CHECKS, Check, Disconnects, Needs, Piece, SIZES, check, choose};
use crate::design::voltage_drop::{longest, most_per_amp_metre, reduced_load, voltage_drop};
use crate::site::Run;
use crate::tables::about::{BS_7671, Published, Table};
use crate::tables::disconnection::{RESIDUAL, RESIDUAL_TABLE};
use crate::tables::{rating_factors, voltage};
use crate::units::{
    Amps, Celsius, Count, Metres, MillivoltsPerAmpMetre, Ohms, Ratio, SoilResistivity, SquareMillimetres, Volts,
};
use alloc::string::ToString;
use alloc::vec::Vec;

/// The register of this file.
pub const FIGURES: &[&Figure] = &[
    &CABLE_SIZE,
    &NEEDED_CAPACITY,
    &SMALLEST_BY_CAPACITY,
    &CABLE_CAPACITY,
    &VOLTAGE_DROP,
    &REDUCED_LOAD_FACTOR,
    &LONGEST_RUN_BY_VOLTAGE_DROP,
    &MOST_VOLTAGE_DROP,
];

words! {
    /// How circuits lie together.
    pub enum Grouping {
        /// Bunched, enclosed or embedded.
        Bunched => "bunched",
        /// In a single layer, touching.
        Touching => "touching",
        /// In a single layer, one diameter apart.
        Spaced => "spaced",
        /// Buried direct, touching.
        BuriedTouching => "buried-touching",
        /// Buried direct, 0.25 m apart.
        BuriedApart => "buried-apart",
        /// In ducts that touch.
        Ducts => "ducts",
    }
}

impl Grouping {
    const fn published(self) -> Published<Count, Ratio> {
        match self {
            Self::Bunched => rating_factors::GROUPED_BUNCHED,
            Self::Touching => rating_factors::GROUPED_TOUCHING,
            Self::Spaced => rating_factors::GROUPED_SPACED,
            Self::BuriedTouching => rating_factors::BURIED_TOUCHING,
            Self::BuriedApart => rating_factors::BURIED_APART,
            Self::Ducts => rating_factors::DUCTS_TOUCHING,
        }
    }
}

const fn factor(key: &'static str, is: &'static str) -> Takes {
    without(key, is, Kind::Ratio, "1, or looked up")
}

const CELSIUS_70: fn() -> Value = || Value::Celsius(Celsius::of(70.0));
const BEARS: Takes = usual("bears", "what the cable's insulation bears: 70 or 90 °C", Kind::Celsius, CELSIUS_70);

/// The surroundings of a cable.
const SURROUNDINGS: &[Takes] = &[
    without("ambient", "ambient temperature", Kind::Celsius, "30 °C in air, 20 °C in the ground"),
    BEARS,
    without("in-ground", "whether the cable is in the ground", Kind::YesNo, "by its method, or no"),
    without("grouped", "how many circuits lie together, this one included", Kind::Count, "it lies alone"),
    usual("grouping", "how they lie", Kind::Word(Grouping::WORDS), || Value::Word(Grouping::Bunched.word())),
    without("in-insulation", "length that insulation surrounds (times method C)", Kind::Metres, "none"),
    without("soil", "thermal resistivity of the soil", Kind::SoilResistivity, "2.5 K·m/W"),
    usual("duct", "whether it lies in a duct in the ground", Kind::YesNo, || Value::YesNo(false)),
    factor("ambient-factor", "Ca in place of `ambient`"),
    factor("grouping-factor", "Cg in place of `grouped`"),
    factor("insulation-factor", "Ci in place of `in-insulation`"),
    factor("soil-factor", "Cs in place of `soil`"),
    factor("depth-factor", "Cd: depth in the ground"),
    usual("fuse-wire", "whether a semi-enclosed fuse protects it (Cc)", Kind::YesNo, || Value::YesNo(false)),
    usual("overload", "whether it is buried and protected against overload (Cc)", Kind::YesNo, || Value::YesNo(false)),
];

/// Surroundings as factors, and the rows they are from.
struct Around {
    factors: Factors,
    rows: Vec<(Table, alloc::string::String)>,
}

impl Around {
    fn of(given: &Arguments, method: Option<Method>) -> Result<Self, FigureError> {
        let in_ground = given.perhaps("in-ground").unwrap_or(method == Some(Method::D));
        let mut around = Self { factors: Factors::REFERENCE, rows: Vec::new() };
        if let Some(temperature) = given.perhaps::<Celsius>("ambient") {
            let bears: Celsius = given.get("bears")?;
            let column = published_ambient(in_ground, bears).ok_or_else(|| FigureError::NotAllowed {
                key: "bears",
                given: bears.to_string(),
                why: "no table is for it".to_string(),
                allowed: "70 °C, 90 °C".to_string(),
            })?;
            around.factors.ambient = around.cautious("ambient", &column, temperature)?;
        }
        if let Some(count) = given.perhaps::<Count>("grouped") {
            let column = given.get::<OneOf<Grouping>>("grouping")?.0.published();
            around.factors.grouping = around.cautious("grouped", &column, count)?;
        }
        if let Some(length) = given.perhaps::<Metres>("in-insulation") {
            around.factors.insulation = capacity::insulation(length);
            match rating_factors::INSULATION.rows.iter().find(|(row, _)| *row >= length) {
                Some((row, _)) => around.rows.push((rating_factors::INSULATION.table, row.to_string())),
                None => around.rows.push((rating_factors::INSULATION_LONG_TABLE, "".to_string())),
            }
        }
        if let Some(soil) = given.perhaps::<SoilResistivity>("soil") {
            let column = if given.get("duct")? { rating_factors::SOIL_DUCT } else { rating_factors::SOIL_DIRECT };
            around.factors.soil = around.cautious("soil", &column, soil)?;
        }
        if given.get("fuse-wire")? {
            around.factors.device = around.factors.device * rating_factors::FUSE_WIRE;
            around.rows.push((rating_factors::FUSE_WIRE_TABLE, "".to_string()));
        }
        if given.get("overload")? {
            around.factors.device = around.factors.device * rating_factors::BURIED_OVERLOAD;
            around.rows.push((rating_factors::BURIED_OVERLOAD_TABLE, "".to_string()));
        }
        for (key, instead_of, factor) in [
            ("ambient-factor", "ambient", &mut around.factors.ambient),
            ("grouping-factor", "grouped", &mut around.factors.grouping),
            ("insulation-factor", "in-insulation", &mut around.factors.insulation),
            ("soil-factor", "soil", &mut around.factors.soil),
            ("depth-factor", "", &mut around.factors.depth),
        ] {
            let Some(plain) = given.perhaps::<Ratio>(key) else { continue };
            if given.is_given(instead_of) {
                return Err(FigureError::NotAllowed {
                    key,
                    given: plain.to_string(),
                    why: alloc::format!("`{instead_of}` is given too"),
                    allowed: "one of the two".to_string(),
                });
            }
            *factor = plain;
        }
        Ok(around)
    }

    /// The row at or after a key: the cautious one of two neighbours.
    fn cautious<K: PartialOrd + ToString + Copy>(
        &mut self,
        key: &'static str,
        column: &Published<K, Ratio>,
        at: K,
    ) -> Result<Ratio, FigureError> {
        let row = column.rows.iter().find(|(row, _)| *row >= at);
        let (row, factor) = row.ok_or_else(|| rows::none(key, &column.table, at.to_string()))?;
        self.rows.push((column.table, row.to_string()));
        Ok(*factor)
    }

    fn shown(self, mut reached: Reached) -> Reached {
        let each = [
            ("Ca", self.factors.ambient),
            ("Cg", self.factors.grouping),
            ("Ci", self.factors.insulation),
            ("Cs", self.factors.soil),
            ("Cd", self.factors.depth),
            ("Cc", self.factors.device),
        ];
        for (name, factor) in each.into_iter().filter(|(_, factor)| *factor != Ratio::of(1.0)) {
            reached = reached.step(name, factor);
        }
        for (table, at) in self.rows {
            reached = reached.row(&table, &at);
        }
        reached
    }
}

const RATING: Takes = needed("rating", "rating of the protective device, In", Kind::Amps);
const CABLE: Takes =
    usual("cable", "kind of cable", Kind::Word(CableType::WORDS), || Value::Word(CableType::TwinAndEarth.word()));
const METHOD: Takes =
    usual("method", "reference method of installation", Kind::Word(Method::WORDS), || Value::Word(Method::C.word()));
const SIZE: Takes = needed("size", "cross-section of the line conductor", Kind::SquareMillimetres);
const PERHAPS_SIZE: Takes = without(
    "size",
    "cross-section of the line conductor",
    Kind::SquareMillimetres,
    "needed where no figure stands in its place",
);
const CURRENT: Takes = needed("current", "design current, Ib", Kind::Amps);
const APPENDIX_4: &[(crate::tables::about::Publication, &str)] = &[(BS_7671, "Appendix 4")];

fn laid(given: &Arguments) -> Result<(CableType, Method, Published<SquareMillimetres, Amps>), FigureError> {
    let (cable, method) = (given.get::<OneOf<CableType>>("cable")?.0, given.get::<OneOf<Method>>("method")?.0);
    let column = published(cable, method).ok_or_else(|| FigureError::NotAllowed {
        key: "method",
        given: method.word().to_string(),
        why: alloc::format!("no table has it for {}", cable.word()),
        allowed: Method::ALL
            .iter()
            .filter(|method| published(cable, **method).is_some())
            .map(|method| method.word())
            .collect::<Vec<_>>()
            .join(", "),
    })?;
    Ok((cable, method, column))
}

const NEEDED_CAPACITY: Figure = Figure {
    name: "needed-capacity",
    gives: "what must be tabulated for a device's rating",
    formula: "It ≥ In / (Ca × Cg × Ci × Cs × Cd × Cc)",
    clauses: APPENDIX_4,
    source: "seen in a revision summary and on the IET's forum, thread 'It and Iz'",
    takes: &[&[RATING], SURROUNDINGS],
    example: "rating=32A ambient=40C",
    work: |given| {
        let around = Around::of(given, None)?;
        let it = needed_capacity(given.get("rating")?, &around.factors);
        Ok(around.shown(Reached::of(it)))
    },
};

const SMALLEST_BY_CAPACITY: Figure = Figure {
    name: "smallest-by-capacity",
    gives: "the smallest size of a cable that carries a device's rating as it is laid",
    formula: "the smallest with It ≥ In / factors, so that In ≤ Iz; equal passes",
    clauses: APPENDIX_4,
    source: "seen in a revision summary and on the IET's forum, thread 'It and Iz'",
    takes: &[&[RATING, CABLE, METHOD], SURROUNDINGS],
    example: "rating=32A cable=multicore method=C ambient=40C",
    work: |given| {
        let rating: Amps = given.get("rating")?;
        let (_, method, column) = laid(given)?;
        let around = Around::of(given, Some(method))?;
        let it = needed_capacity(rating, &around.factors);
        let fits = column.rows.iter().find(|(_, tabulated)| rating.is_within(iz(*tabulated, &around.factors)));
        let Some((size, tabulated)) = fits else {
            return Ok(around.shown(Reached::of(Value::Word("no size of the table is enough")).step("It needed", it)));
        };
        let capacity = iz(*tabulated, &around.factors);
        let reached = Reached::of(*size).step("It needed", it).step("It", *tabulated).step("Iz", capacity);
        Ok(around.shown(reached.row(&column.table, size)))
    },
};

/// Capacity as laid.
pub const CABLE_CAPACITY: Figure = Figure {
    name: "cable-capacity",
    gives: "what a cable carries as it is laid, Iz",
    formula: "Iz = It × Ca × Cg × Ci × Cs × Cd × Cc",
    clauses: APPENDIX_4,
    source: "seen in a revision summary and on the IET's forum, thread 'It and Iz'",
    takes: &[
        &[
            SIZE,
            CABLE,
            METHOD,
            without("rating", "rating of the protective device, to compare with", Kind::Amps, "not compared"),
        ],
        SURROUNDINGS,
    ],
    example: "size=6mm2 method=C ambient=35C grouped=2 rating=32A",
    work: |given| {
        let (_, method, column) = laid(given)?;
        let size: SquareMillimetres = given.get("size")?;
        let around = Around::of(given, Some(method))?;
        let tabulated = rows::at("size", &column, size)?;
        let capacity = iz(tabulated, &around.factors);
        let mut reached = Reached::of(capacity).step("It", tabulated);
        if let Some(rating) = given.perhaps::<Amps>("rating") {
            let carries = rating.is_within(capacity);
            reached = reached.saying(if carries { "In ≤ Iz" } else { "In is over Iz" });
        }
        Ok(around.shown(reached.row(&column.table, &size)))
    },
};

const SHARE: Takes = from_table(
    "share",
    "share of the voltage that may drop",
    Kind::Ratio,
    || Value::Ratio(voltage::DROP_ALLOWED),
    &voltage::DROP_ALLOWED_TABLE,
);
const DROP: Takes =
    without("drop", "tabulated voltage drop", Kind::MillivoltsPerAmpMetre, "looked up by cable and size");
const ROUTE: Takes = without(
    "route",
    "stretches from board to charge point, in place of `length` and `cable`",
    Kind::Route,
    "one stretch",
);
const DATA: Takes = usual("data-pair", "whether a data pair runs beside it", Kind::YesNo, || Value::YesNo(false));

/// The tabulated voltage drop: as given, or looked up.
fn tabulated_drop(given: &Arguments, reached: Reached) -> Result<(MillivoltsPerAmpMetre, Reached), FigureError> {
    if let Some(drop) = given.perhaps("drop") {
        return Ok((drop, reached));
    }
    let size: SquareMillimetres = given.get("size")?;
    let column = published_drop(given.get::<OneOf<CableType>>("cable")?.0);
    let drop = rows::at("size", &column, size)?;
    Ok((drop, reached.step("mV/A/m", drop).row(&column.table, &size)))
}

pub(super) fn pieces(route: &[(Along, Metres)], with_data: bool) -> Vec<Piece> {
    route.iter().map(|(along, length)| piece(&Run { along: *along, length: *length, high: false }, with_data)).collect()
}

/// Voltage drop.
pub const VOLTAGE_DROP: Figure = Figure {
    name: "voltage-drop",
    gives: "voltage drop over a route",
    formula: "sum over the stretches of mV/A/m × Ib × length / 1000, at full conductor temperature",
    clauses: &[(BS_7671, "Appendix 4, section 6"), (BS_7671, "Table 4Ab")],
    source: "worked in T. Linsley, Basic Electrical Installation Work (Newnes), p. 302; the reduced-load factor is from memory and only shown",
    takes: &[&[
        without("length", "length of one stretch, one way", Kind::Metres, "needed without `route`"),
        PERHAPS_SIZE,
        CURRENT,
        CABLE,
        DROP,
        ROUTE,
        DATA,
        without("capacity", "tabulated capacity It, to show the drop of the cooler conductor", Kind::Amps, "not shown"),
        BEARS,
        usual("voltage", "voltage that the drop is compared with: to earth, or between lines", Kind::Volts, || {
            Value::Volts(voltage::NOMINAL)
        }),
        SHARE,
    ]],
    example: "length=20m size=6mm2 current=32A",
    work: |given| {
        let ib: Amps = given.get("current")?;
        let nominal: Volts = given.get("voltage")?;
        let mut steps = Reached::of(Volts::ZERO);
        let mut drop = Volts::ZERO;
        match given.perhaps::<Vec<(Along, Metres)>>("route") {
            Some(route) => {
                let size: SquareMillimetres = given.get("size")?;
                for (at, piece) in pieces(&route, given.get("data-pair")?).iter().enumerate() {
                    let column = published_drop(piece.cable);
                    let stretch = voltage_drop(rows::at("size", &column, size)?, ib, piece.length);
                    drop = drop + stretch;
                    let name = alloc::format!("{}, {} of {}", route[at].0.word(), piece.length, piece.cable.word());
                    steps = steps.step(name, stretch).row(&column.table, &size);
                }
            }
            None => {
                let (per, with_row) = tabulated_drop(given, steps)?;
                steps = with_row;
                drop = voltage_drop(per, ib, given.get("length")?);
            }
        }
        let allowed = nominal * given.get::<Ratio>("share")?;
        let within = if drop.is_within(allowed) { "within" } else { "over" };
        steps = steps.step("allowed", allowed);
        if let Some(it) = given.perhaps::<Amps>("capacity") {
            let factor = reduced_load(ib, it, &Factors::REFERENCE, given.get("bears")?);
            steps = steps.step("reduced-load factor Ct", factor).step("with it", drop * factor);
        }
        let share = drop.share_of(nominal);
        let words =
            alloc::format!("{} % of {nominal}, {within} {allowed}", libm::round(share.get() * 10_000.0) / 100.0);
        Ok(Reached { value: Value::Volts(drop), ..steps }.saying(words))
    },
};

const REDUCED_LOAD_FACTOR: Figure = Figure {
    name: "reduced-load-factor",
    gives: "what a conductor drops less because it is cooler than tabulated, Ct",
    formula: "Ct = (230 + tp − (Ca²Cg² − Ib²/It²)(tp − 30)) / (230 + tp), never above 1",
    clauses: &[(BS_7671, "Appendix 4, section 6.1")],
    source: "from memory, not seen: no size is chosen by it",
    takes: &[&[
        CURRENT,
        needed("capacity", "tabulated capacity, It", Kind::Amps),
        BEARS,
        usual("ambient-factor", "Ca", Kind::Ratio, || Value::Ratio(Ratio::of(1.0))),
        usual("grouping-factor", "Cg", Kind::Ratio, || Value::Ratio(Ratio::of(1.0))),
    ]],
    example: "current=32A capacity=47A",
    work: |given| {
        let factors = Factors {
            ambient: given.get("ambient-factor")?,
            grouping: given.get("grouping-factor")?,
            ..Factors::REFERENCE
        };
        Ok(Reached::of(reduced_load(given.get("current")?, given.get("capacity")?, &factors, given.get("bears")?)))
    },
};

const LONGEST_RUN_BY_VOLTAGE_DROP: Figure = Figure {
    name: "longest-run-by-voltage-drop",
    gives: "the longest run whose voltage drop is within its limit",
    formula: "length = share × U × 1000 / (mV/A/m × Ib)",
    clauses: &[(BS_7671, "Appendix 4, section 6"), (BS_7671, "Table 4Ab")],
    source: "arithmetic of the voltage drop",
    takes: &[&[CURRENT, PERHAPS_SIZE, CABLE, DROP, NOMINAL, SHARE]],
    example: "size=10mm2 current=45A",
    work: |given| {
        let (per, steps) = tabulated_drop(given, Reached::of(Metres::ZERO))?;
        let allowed = given.get::<Volts>("voltage")? * given.get::<Ratio>("share")?;
        let run = longest(allowed, per, given.get("current")?);
        Ok(Reached { value: Value::Metres(run), ..steps }.step("allowed", allowed))
    },
};

const MOST_VOLTAGE_DROP: Figure = Figure {
    name: "most-voltage-drop",
    gives: "the most that a cable may drop an ampere and metre",
    formula: "mV/A/m = allowed × 1000 / (Ib × length)",
    clauses: &[(BS_7671, "Appendix 4, section 6")],
    source: "arithmetic of the voltage drop; worked on a cable distributor's page, 'Voltage drop calculations'",
    takes: &[&[
        needed("allowed", "voltage drop allowed", Kind::Volts),
        CURRENT,
        needed("length", "length, one way", Kind::Metres),
    ]],
    example: "allowed=11.5V current=32A length=60m",
    work: |given| {
        Ok(Reached::of(most_per_amp_metre(given.get("allowed")?, given.get("current")?, given.get("length")?)))
    },
};

/// The whole choice.
pub const CABLE_SIZE: Figure = Figure {
    name: "cable-size",
    gives: "the smallest size that passes every check along a route of mixed stretches, and the check that asks for it",
    formula: "the smallest with Ib ≤ In ≤ Iz on every stretch, voltage drop within its limit over the whole length, a fault disconnected by the breaker or a residual-current device, and √(I²t)/k within every protective conductor",
    clauses: &[
        (BS_7671, "Appendix 4"),
        (BS_7671, "411.4.4"),
        (BS_7671, "543.1.3"),
        (BS_7671, "512.1.5"),
        (BS_7671, "722.531.3.101"),
    ],
    source: "a 90 °C cable is rated by the 70 °C table for its terminals; 6 mm² at least: common practice, no source",
    takes: &[&[
        CURRENT,
        without("rating", "rating of the protective device, In", Kind::Amps, "the next standard rating"),
        needed("route", "stretches from board to charge point", Kind::Route),
        DATA,
        EXTERNAL,
        ARRANGEMENT,
        without(
            "external-lowest",
            "lowest external impedance that is possible, for the fault current",
            Kind::Ohms,
            "as `external`",
        ),
        BREAKER,
        usual("residual-device", "whether a residual-current device may be relied on", Kind::YesNo, || {
            Value::YesNo(true)
        }),
        from_table("residual", "its residual current", Kind::Amps, || Value::Amps(RESIDUAL), &RESIDUAL_TABLE),
        NOMINAL,
        C_MIN,
        SHARE,
        usual("ambient-factor", "Ca, on every stretch", Kind::Ratio, || Value::Ratio(Ratio::of(1.0))),
        usual("grouping-factor", "Cg, on every stretch", Kind::Ratio, || Value::Ratio(Ratio::of(1.0))),
    ]],
    example: "current=32A route=inside:5m,outside-wall:8m,soft-ground:20m arrangement=tn-c-s",
    work: |given| {
        let ib: Amps = given.get("current")?;
        let (ze, with_row) = external(given, Reached::of(Ohms::ZERO))?;
        let nominal: Volts = given.get("voltage")?;
        let needs = Needs {
            ib,
            in_: given.perhaps("rating").unwrap_or_else(|| rating_for(ib)),
            breaker: given.get::<OneOf<BreakerType>>("breaker")?.0,
            residual: if given.get("residual-device")? { Some(given.get("residual")?) } else { None },
            nominal,
            c_min: given.get("c-min")?,
            allowed: nominal * given.get::<Ratio>("share")?,
            ze_highest: ze,
            ze_lowest: given.perhaps("external-lowest").unwrap_or(ze),
        };
        let route = given.get::<Vec<(Along, Metres)>>("route")?;
        let mut pieces = pieces(&route, given.get("data-pair")?);
        for piece in &mut pieces {
            piece.factors.ambient = given.get("ambient-factor")?;
            piece.factors.grouping = given.get("grouping-factor")?;
        }
        let chosen = choose(|| pieces.iter().copied(), &needs);
        let mut reached = match chosen.size {
            Some(size) => Reached { value: Value::SquareMillimetres(size), ..with_row },
            None => Reached { value: Value::Word("no size of the tables passes"), ..with_row },
        };
        reached = reached.saying(match (chosen.size, chosen.governs) {
            (Some(_), Check::Smallest) => "the smallest used; no check asks for more".to_string(),
            (Some(_), governs) => alloc::format!("{} governs", governs.word().replace('-', " ")),
            (None, governs) => alloc::format!("no size passes by {}", governs.word().replace('-', " ")),
        });
        reached = reached.step("rating of the device, In", needs.in_);
        for (name, alone) in CHECKS.into_iter().zip(chosen.alone) {
            let name = alloc::format!("smallest by {}", name.word().replace('-', " "));
            reached = reached.step(name, alone.map_or(Value::Word("none"), Value::SquareMillimetres));
        }
        // The stretches with the size chosen, or with the largest that the route's cables are made in.
        let shown = chosen
            .size
            .or_else(|| SIZES.into_iter().rev().find(|size| check(*size, pieces.iter().copied(), &needs).is_some()));
        if let Some(size) = shown {
            for (piece, (along, _)) in pieces.iter().zip(&route) {
                let Some(column) = published(piece.cable, piece.method) else { continue };
                let Some(tabulated) = crate::tables::about::at(column.rows, size) else { continue };
                let name = alloc::format!(
                    "{}, {} of {}, method {}: Iz",
                    along.word(),
                    piece.length,
                    piece.cable.word(),
                    piece.method.word()
                );
                reached = reached
                    .step(name, iz(tabulated, &piece.factors))
                    .row(&column.table, &size)
                    .row(&published_drop(piece.cable).table, &size);
                if piece.factors.device != Ratio::of(1.0) {
                    reached = reached.row(&rating_factors::BURIED_OVERLOAD_TABLE, &"");
                }
            }
        }
        Ok(reached
            .step("voltage drop", chosen.checked.drop)
            .step("earth fault loop, warm", chosen.checked.zs)
            .step("the breaker's limit", chosen.limit)
            .step("disconnected by", Value::Word(chosen.checked.by.word()))
            .step("least protective conductor", chosen.least_protective))
    },
};

/// What disconnects, in words.
pub(super) const fn in_words(by: Disconnects) -> &'static str {
    match by {
        Disconnects::Breaker => "the breaker disconnects",
        Disconnects::ResidualDevice => "the residual-current device is relied on",
        Disconnects::Neither => "neither breaker nor residual-current device disconnects",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn work(figure: &'static Figure, text: &str) -> Result<super::super::Working, FigureError> {
        figure.working(&Arguments::read(figure, text.split(' '))?)
    }

    #[test]
    fn a_factor_and_what_it_stands_for_are_not_taken_together() {
        let error = work(&NEEDED_CAPACITY, "rating=32A ambient=40C ambient-factor=0.87").unwrap_err();
        assert!(error.to_string().contains("`ambient` is given too"), "{error}");
    }

    #[test]
    fn a_method_that_the_table_lacks_is_refused_and_the_others_are_named() {
        let error = work(&CABLE_CAPACITY, "size=6mm2 method=D").unwrap_err();
        assert!(error.to_string().contains("A, C, 100, 101, 102, 103"), "{error}");
        let error = work(&CABLE_CAPACITY, "size=7mm2").unwrap_err();
        assert!(error.to_string().contains("2.5 mm², 4 mm², 6 mm²"), "{error}");
    }

    #[test]
    fn the_ground_is_told_by_the_method() {
        let of = |text| work(&CABLE_CAPACITY, text).unwrap().number.unwrap();
        assert!((of("size=6mm2 cable=armoured-70 method=D ambient=10C") - 46.0 * 1.10).abs() < 1e-9);
        assert!((of("size=6mm2 cable=armoured-70 method=C ambient=30C") - 49.0).abs() < 1e-9);
    }

    #[test]
    fn the_rows_used_are_named_with_their_grade() {
        let working = work(&CABLE_SIZE, CABLE_SIZE.example).unwrap();
        let row = working.rows.iter().find(|row| row.table == "BS 7671 Table 4D5" && row.value == "47 A").unwrap();
        assert_eq!((row.row.as_str(), row.grade.as_str()), ("6 mm²", "seen secondary"));
        assert!(working.value.starts_with("6 mm²"), "{}", working.value);
    }
}
