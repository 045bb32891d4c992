//! A cable's surroundings as inputs of figures: temperature, grouping, insulation, soil, and the kind of protective device.

use super::{Arguments, FigureError, OneOf, Reached, Takes, Value, ValueKind, table_rows, usual, without};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use engine::calculation::capacity::{self, Factors, Method, published_ambient};
use model::answers::{Word, choices::words};
use model::tables::about::{Published, Table};
use model::tables::rating_factors;
use model::units::{Celsius, Count, Metres, Ratio, SoilResistivity};

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
    without(key, is, ValueKind::Ratio, "1, or looked up")
}

// Arithmetic: the table's own temperature.
const CELSIUS_70: fn() -> Value = || Value::Celsius(Celsius::of(70.0));
pub(super) const BEARS: Takes =
    usual("bears", "what the cable's insulation bears: 70 or 90 °C", ValueKind::Celsius, CELSIUS_70);

/// The surroundings of a cable.
pub(super) const SURROUNDINGS: &[Takes] = &[
    without("ambient", "ambient temperature", ValueKind::Celsius, "30 °C in air, 20 °C in the ground"),
    BEARS,
    without("in-ground", "whether the cable is in the ground", ValueKind::YesNo, "by its method, or no"),
    without("grouped", "how many circuits lie together, this one included", ValueKind::Count, "it lies alone"),
    usual("grouping", "how they lie", ValueKind::Word(Grouping::WORDS), || Value::Word(Grouping::Bunched.word())),
    without("in-insulation", "length that insulation surrounds (times method C)", ValueKind::Metres, "none"),
    without("soil", "thermal resistivity of the soil", ValueKind::SoilResistivity, "2.5 K·m/W"),
    usual("duct", "whether it lies in a duct in the ground", ValueKind::YesNo, || Value::YesNo(false)),
    factor("ambient-factor", "Ca in place of `ambient`"),
    factor("grouping-factor", "Cg in place of `grouped`"),
    factor("insulation-factor", "Ci in place of `in-insulation`"),
    factor("soil-factor", "Cs in place of `soil`"),
    factor("depth-factor", "Cd: depth in the ground"),
    usual("fuse-wire", "whether a semi-enclosed fuse protects it (Cc)", ValueKind::YesNo, || Value::YesNo(false)),
    usual("overload", "whether it is buried and protected against overload (Cc)", ValueKind::YesNo, || {
        Value::YesNo(false)
    }),
];

/// Surroundings as rating factors, and the table rows they are from.
pub(super) struct Around {
    pub(super) factors: Factors,
    rows: Vec<(Table, String)>,
}

impl Around {
    /// Reads them from the arguments. The reference method tells whether the cable is in the ground.
    ///
    /// # Errors
    /// [`FigureError`] where a table has no such row.
    pub(super) fn of(given: &Arguments, method: Option<Method>) -> Result<Self, FigureError> {
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
        let (row, factor) = row.ok_or_else(|| table_rows::none(key, &column.table, at.to_string()))?;
        self.rows.push((column.table, row.to_string()));
        Ok(*factor)
    }

    /// Adds the factors other than one, and their rows, to a result.
    pub(super) fn shown(self, mut reached: Reached) -> Reached {
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
