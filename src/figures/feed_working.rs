//! The working of an outbuilding's feed: what is known of it, what is not, and the current it carries.

use super::table_row;
use super::working::{Input, TableRow, Working};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use engine::calculation::feed::{Feeding, Judged, SHARE_OF_DROP, load};
use engine::context::Context;
use engine::design::CableDesign;
use engine::site::Site;
use model::tables::armoured::{ARMOUR_TWO_CORE, ARMOUR_TWO_CORE_LARGER};
use model::tables::conductor_resistance::COPPER_AT_20C;
use model::tables::{armoured, twin_and_earth, voltage};
use model::units::{Amps, SquareMillimetres};

const NOT_KNOWN: &str = "not known";

/// The working where an outbuilding's board is meant; `None` elsewhere. `after` is the cable from that board on.
pub(super) fn of_feed(site: &Site, given: &Context<'_>, after: &CableDesign) -> Option<Working> {
    if !given.answers.outbuilding.board_there.is(true) {
        return None;
    }
    let feeding = Feeding::said(given.answers, given.config);
    let charge = engine::site::drawn(&site.existing, &site.supply, &site.main_fuse, given).likeliest();
    let (judged, most) = (feeding.judged(charge), feeding.most(charge));
    let line = |name: &str, value: String| Input { name: name.to_string(), value };
    let known = |name: &str, value: Option<String>| line(name, value.unwrap_or_else(|| NOT_KNOWN.to_string()));

    let mut steps = alloc::vec![
        line("asked of its cable", load(charge).to_string()),
        known("its cable carries", feeding.capacity().map(|amps| amps.to_string())),
        known("its voltage drop", feeding.drop(load(charge)).map(|drop| drop.to_string())),
        line("voltage drop that it may take", (feeding.allowed * SHARE_OF_DROP).to_string()),
    ];
    if after.from_home.is_none() {
        let both = feeding.drop(load(charge)).map(|_| after.drop.to_string());
        steps.push(known("voltage drop with the cable after it", both));
        steps.push(line("voltage drop allowed in all", after.allowed.to_string()));
        steps.push(known("its R1 + R2, warm, in the fault loop", feeding.r1_plus_r2().map(|ohms| ohms.to_string())));
    }
    if feeding.device_over_cable() {
        steps.push(line("to be looked at", "its device is rated over what its cable carries".to_string()));
    }
    Some(Working {
        figure: "outbuilding's feed".to_string(),
        value: said(judged, charge, most),
        number: Some(most.map_or(0.0, Amps::get)),
        unit: Some(Amps::SYMBOL.to_string()),
        formula: "the greatest charge current under the one drawn, which is the charge point's own or the limit that the whole home is held at, that device (Ib ≤ In), cable (1.4 Ib ≤ Iz) and voltage drop (four fifths of what is allowed) leave, as far as each is known".to_string(),
        inputs: alloc::vec![
            line("the charge point's own current", given.point.current.to_string()),
            line("charge current, as the design holds it", charge.to_string()),
            known("rating of its device", feeding.device.map(|amps| amps.to_string())),
            known("cross-section of its cable", feeding.size.map(|size| size.to_string())),
            known("length of its cable", feeding.length.map(|length| length.to_string())),
        ],
        steps,
        rows: rows(&feeding),
        source: "BS 7671 433.1.1 (from memory) and Table 4Ab (from the origin on); what hangs on it beside, and the share of the drop: common practice, no source".to_string(),
    })
}

fn said(judged: Judged, charge: Amps, most: Option<Amps>) -> String {
    let but = most.map_or_else(String::new, |amps| alloc::format!("; nothing known is against {amps}"));
    match judged {
        Judged::Carries => alloc::format!("it carries {charge}"),
        Judged::NotKnown => alloc::format!("not known whether it carries {charge}; nothing known is against it"),
        Judged::DeviceTooSmall => alloc::format!("its device is rated under {charge}{but}"),
        Judged::CableTooThin => alloc::format!("its cable is too thin for {charge}{but}"),
        Judged::DropsTooMuch => alloc::format!("its voltage drop is too great at {charge}{but}"),
    }
}

/// The table rows that were looked up; none where the size is not known.
fn rows(feeding: &Feeding) -> Vec<TableRow> {
    let Some(size) = feeding.size else { return Vec::new() };
    let under = |rows: &[(SquareMillimetres, Amps)]| rows.iter().rfind(|(row, _)| *row <= size).copied();
    let capacity = match under(armoured::BURIED.rows) {
        Some((row, _)) => table_row(&armoured::BURIED.table, &row.to_string()),
        None => under(twin_and_earth::IN_CONDUIT.rows)
            .and_then(|(row, _)| table_row(&twin_and_earth::IN_CONDUIT.table, &row.to_string())),
    };
    let drop = feeding.length.and_then(|_| {
        let (row, _) = armoured::DROP_90.rows.iter().rfind(|(row, _)| *row <= size)?;
        table_row(&armoured::DROP_90.table, &row.to_string())
    });
    let limits = [capacity, drop, table_row(&voltage::DROP_ALLOWED_TABLE, "")].into_iter().flatten();
    limits.chain(feeding.length.map(|_| in_the_loop(size)).unwrap_or_default()).collect()
}

/// The table rows for its part of the fault loop: its line conductor, and each protective conductor that such a cable may have.
fn in_the_loop(size: SquareMillimetres) -> Vec<TableRow> {
    let Some((line, _)) = COPPER_AT_20C.rows.iter().rfind(|(row, _)| *row <= size) else { return Vec::new() };
    let of_line = |table| table_row(table, &line.to_string());
    let flat = twin_and_earth::cpc(*line).and_then(|cpc| table_row(&COPPER_AT_20C.table, &cpc.to_string()));
    let tables =
        [&COPPER_AT_20C.table, &twin_and_earth::CPC.table, &ARMOUR_TWO_CORE.table, &ARMOUR_TWO_CORE_LARGER.table];
    tables.into_iter().filter_map(of_line).chain(flat).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::working;
    use model::answers::{Answer, Answers, Length};
    use model::config::demo_config;

    fn shown(say: impl FnOnce(&mut Answers)) -> Option<Working> {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(model::answers::Set::NONE);
        answers.parking.place = Answer::Known(model::answers::ParkingPlace::DetachedGarage);
        answers.outbuilding.board_there = Answer::Known(true);
        say(&mut answers);
        working(&answers, &demo_config()).into_iter().find(|figure| figure.figure == "outbuilding's feed")
    }

    fn input<'a>(of: &'a [Input], name: &str) -> &'a str {
        &of.iter().find(|input| input.name == name).unwrap_or_else(|| panic!("no {name} in {of:?}")).value
    }

    /// Sources: BS 7671 Table 4E4B: 4.7 mV/A/m for 10 mm²; 1.4 × 32 A × 20 m × 4.7 mV = 4.2112 V. Table 4D4A, method D: 60 A. IEC 60228:
    /// 1.83 mΩ/m for 10 mm²; armour of two-core cable 6.0 mΩ/m (from memory): (1.83 + 6.0) mΩ/m × 20 m × 1.2 = 0.188 Ω.
    #[test]
    fn a_feed_of_which_all_is_known_is_worked_through() {
        let feed = shown(|answers| {
            answers.outbuilding.feed_device = Answer::Known(Amps::of(40.0));
            answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(10.0));
            answers.outbuilding.feed_length = Answer::Known(Length::metres(20.0));
        })
        .unwrap();
        assert_eq!((feed.value.as_str(), feed.number), ("it carries 32 A", Some(32.0)));
        assert_eq!(input(&feed.steps, "its cable carries"), "60 A");
        assert!(input(&feed.steps, "its voltage drop").starts_with("4.21"), "{:?}", feed.steps);
        assert_ne!(input(&feed.steps, "voltage drop with the cable after it"), NOT_KNOWN);
        assert!(input(&feed.steps, "its R1 + R2, warm, in the fault loop").starts_with("0.188"), "{:?}", feed.steps);
        let rows: Vec<(&str, &str)> = feed.rows.iter().map(|row| (row.row.as_str(), row.value.as_str())).collect();
        for row in [("10 mm²", "1.83 mΩ/m"), ("10 mm²", "4 mm²"), ("4 mm²", "4.61 mΩ/m"), ("10 mm²", "6 mΩ/m")]
        {
            assert!(rows.contains(&row), "{row:?} in {rows:?}");
        }
        assert_eq!(rows.len(), 7);
    }

    #[test]
    fn what_is_not_known_is_named() {
        let feed = shown(|answers| answers.outbuilding.feed_device = Answer::Known(Amps::of(20.0))).unwrap();
        assert_eq!(feed.value, "its device is rated under 32 A; nothing known is against 20 A");
        assert_eq!(input(&feed.inputs, "cross-section of its cable"), NOT_KNOWN);
        assert_eq!(input(&feed.inputs, "length of its cable"), NOT_KNOWN);
        assert!(feed.rows.is_empty());
        let without_length = shown(|answers| {
            answers.outbuilding.feed_device = Answer::Known(Amps::of(40.0));
            answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(10.0));
        })
        .unwrap();
        for unknown in ["voltage drop with the cable after it", "its R1 + R2, warm, in the fault loop"] {
            assert_eq!(input(&without_length.steps, unknown), NOT_KNOWN);
        }
        let nothing = shown(|_| ()).unwrap();
        assert!(nothing.value.starts_with("not known"));
    }

    #[test]
    fn at_the_homes_own_board_there_is_no_feed() {
        for answer in [Answer::Known(false), Answer::NotSure, Answer::NotAsked] {
            assert_eq!(shown(|answers| answers.outbuilding.board_there = answer), None);
        }
    }
}
