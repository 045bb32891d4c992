//! The flags: what the installer must know about a home. Each flag is one rule in one file; its sentences are in the wording files.
//!
//! A rule uses the site and the design, never another flag. The order comes from the weights, so adding a flag moves no other. A flag's
//! file holds its rule, its source, a cause that raises it, and its tests. Why it matters and what to do about it stand in
//! `www/wording/en/flags.ftl` alone, beside what the homeowner is told.

mod cause;
mod causes;
mod flag;
mod raised;
mod weight;

pub use cause::{Cause, May};
pub use flag::{Evidence, Flag, Seen, Source};
pub use raised::{Raised, unfolded};
pub use weight::Weight;

use alloc::string::ToString;
use alloc::vec::Vec;
use model::answers::OperatorAnswer;
use model::units::Probability;

// The list of flags is made from the file names: add a file, run `cargo xtask accept`.
// begin list
mod asbestos_when_drilling;
mod backing_board_suspect;
mod battery_beside;
mod board_full;
mod board_seen_disagrees;
mod bonding_not_seen;
mod bought_already;
mod builders_cable;
mod buried_services;
mod cable_on_a_fence;
mod carrier_rating_is_a_bound;
mod communal_meter;
mod conservation_area;
mod demand_over_limit;
mod device_to_confirm;
mod digging;
mod direct_current_not_sensed;
mod earthing_unknown;
mod farm_building;
mod fire_stopping;
mod footway_crossing;
mod fuse_rating_not_read;
mod fuse_wire_board;
mod generation_without_letter;
mod half_hour_hides_load;
mod half_hour_implausible;
mod hazard_long_ago;
mod hazard_not_sure;
mod hazard_seen;
mod high_work;
mod higher_risk_building;
mod landlord;
mod larger_cable;
mod lead_reaches_one_way;
mod lead_too_short;
mod length_beyond_use;
mod listed;
mod load_limit_designed;
mod looped_supply;
mod main_switch_not_read;
mod near_gas_meter;
mod night_heating;
mod no_loop_seen;
mod no_size_passes;
mod no_surge_device;
mod no_wall_space;
mod northern_ireland;
mod off_peak_not_steered;
mod old_point_replaced;
mod operator_dates_disagree;
mod operator_refused;
mod operators_limit;
mod outbuilding_board;
mod outbuilding_electrode;
mod outside_area;
mod outside_meter_box;
mod overhead_line;
mod planned_load;
mod pme_outdoors;
mod power_both_ways;
mod report_to_photograph;
mod scottish_flat;
mod scottish_planning;
mod second_charge_point;
mod several_boards;
mod shared_car_park;
mod shared_ground;
mod shared_residual_device;
mod signal_marginal;
mod split_phase;
mod street_parking;
mod supplier_must_isolate;
mod supply_counts_disagree;
mod supply_not_counted;
mod supports_in_a_fire;
mod surge_device_finds_no_gap;
mod tails_long;
mod thick_wall;
mod three_phase;
mod tn_s_may_be_pme;
mod tt_electrode;
mod type_ac_upstream;
mod weak_signal;
mod which_board;

/// Every flag, in the order of their files' names.
pub const FLAGS: &[Flag] = &[
    asbestos_when_drilling::FLAG,
    backing_board_suspect::FLAG,
    battery_beside::FLAG,
    board_full::FLAG,
    board_seen_disagrees::FLAG,
    bonding_not_seen::FLAG,
    bought_already::FLAG,
    builders_cable::FLAG,
    buried_services::FLAG,
    cable_on_a_fence::FLAG,
    carrier_rating_is_a_bound::FLAG,
    communal_meter::FLAG,
    conservation_area::FLAG,
    demand_over_limit::FLAG,
    device_to_confirm::FLAG,
    digging::FLAG,
    direct_current_not_sensed::FLAG,
    earthing_unknown::FLAG,
    farm_building::FLAG,
    fire_stopping::FLAG,
    footway_crossing::FLAG,
    fuse_rating_not_read::FLAG,
    fuse_wire_board::FLAG,
    generation_without_letter::FLAG,
    half_hour_hides_load::FLAG,
    half_hour_implausible::FLAG,
    hazard_long_ago::FLAG,
    hazard_not_sure::FLAG,
    hazard_seen::FLAG,
    high_work::FLAG,
    higher_risk_building::FLAG,
    landlord::FLAG,
    larger_cable::FLAG,
    lead_reaches_one_way::FLAG,
    lead_too_short::FLAG,
    length_beyond_use::FLAG,
    listed::FLAG,
    load_limit_designed::FLAG,
    looped_supply::FLAG,
    main_switch_not_read::FLAG,
    near_gas_meter::FLAG,
    night_heating::FLAG,
    no_loop_seen::FLAG,
    no_size_passes::FLAG,
    no_surge_device::FLAG,
    no_wall_space::FLAG,
    northern_ireland::FLAG,
    off_peak_not_steered::FLAG,
    old_point_replaced::FLAG,
    operator_dates_disagree::FLAG,
    operator_refused::FLAG,
    operators_limit::FLAG,
    outbuilding_board::FLAG,
    outbuilding_electrode::FLAG,
    outside_area::FLAG,
    outside_meter_box::FLAG,
    overhead_line::FLAG,
    planned_load::FLAG,
    pme_outdoors::FLAG,
    power_both_ways::FLAG,
    report_to_photograph::FLAG,
    scottish_flat::FLAG,
    scottish_planning::FLAG,
    second_charge_point::FLAG,
    several_boards::FLAG,
    shared_car_park::FLAG,
    shared_ground::FLAG,
    shared_residual_device::FLAG,
    signal_marginal::FLAG,
    split_phase::FLAG,
    street_parking::FLAG,
    supplier_must_isolate::FLAG,
    supply_counts_disagree::FLAG,
    supply_not_counted::FLAG,
    supports_in_a_fire::FLAG,
    surge_device_finds_no_gap::FLAG,
    tails_long::FLAG,
    thick_wall::FLAG,
    three_phase::FLAG,
    tn_s_may_be_pme::FLAG,
    tt_electrode::FLAG,
    type_ac_upstream::FLAG,
    weak_signal::FLAG,
    which_board::FLAG,
];

/// What raises each, in the same order.
pub const CAUSES: &[Cause] = &[
    asbestos_when_drilling::CAUSE,
    backing_board_suspect::CAUSE,
    battery_beside::CAUSE,
    board_full::CAUSE,
    board_seen_disagrees::CAUSE,
    bonding_not_seen::CAUSE,
    bought_already::CAUSE,
    builders_cable::CAUSE,
    buried_services::CAUSE,
    cable_on_a_fence::CAUSE,
    carrier_rating_is_a_bound::CAUSE,
    communal_meter::CAUSE,
    conservation_area::CAUSE,
    demand_over_limit::CAUSE,
    device_to_confirm::CAUSE,
    digging::CAUSE,
    direct_current_not_sensed::CAUSE,
    earthing_unknown::CAUSE,
    farm_building::CAUSE,
    fire_stopping::CAUSE,
    footway_crossing::CAUSE,
    fuse_rating_not_read::CAUSE,
    fuse_wire_board::CAUSE,
    generation_without_letter::CAUSE,
    half_hour_hides_load::CAUSE,
    half_hour_implausible::CAUSE,
    hazard_long_ago::CAUSE,
    hazard_not_sure::CAUSE,
    hazard_seen::CAUSE,
    high_work::CAUSE,
    higher_risk_building::CAUSE,
    landlord::CAUSE,
    larger_cable::CAUSE,
    lead_reaches_one_way::CAUSE,
    lead_too_short::CAUSE,
    length_beyond_use::CAUSE,
    listed::CAUSE,
    load_limit_designed::CAUSE,
    looped_supply::CAUSE,
    main_switch_not_read::CAUSE,
    near_gas_meter::CAUSE,
    night_heating::CAUSE,
    no_loop_seen::CAUSE,
    no_size_passes::CAUSE,
    no_surge_device::CAUSE,
    no_wall_space::CAUSE,
    northern_ireland::CAUSE,
    off_peak_not_steered::CAUSE,
    old_point_replaced::CAUSE,
    operator_dates_disagree::CAUSE,
    operator_refused::CAUSE,
    operators_limit::CAUSE,
    outbuilding_board::CAUSE,
    outbuilding_electrode::CAUSE,
    outside_area::CAUSE,
    outside_meter_box::CAUSE,
    overhead_line::CAUSE,
    planned_load::CAUSE,
    pme_outdoors::CAUSE,
    power_both_ways::CAUSE,
    report_to_photograph::CAUSE,
    scottish_flat::CAUSE,
    scottish_planning::CAUSE,
    second_charge_point::CAUSE,
    several_boards::CAUSE,
    shared_car_park::CAUSE,
    shared_ground::CAUSE,
    shared_residual_device::CAUSE,
    signal_marginal::CAUSE,
    split_phase::CAUSE,
    street_parking::CAUSE,
    supplier_must_isolate::CAUSE,
    supply_counts_disagree::CAUSE,
    supply_not_counted::CAUSE,
    supports_in_a_fire::CAUSE,
    surge_device_finds_no_gap::CAUSE,
    tails_long::CAUSE,
    thick_wall::CAUSE,
    three_phase::CAUSE,
    tn_s_may_be_pme::CAUSE,
    tt_electrode::CAUSE,
    type_ac_upstream::CAUSE,
    weak_signal::CAUSE,
    which_board::CAUSE,
];
// end list

/// The least probability at which a mere possibility is flagged: lower, and a simple home would be buried in flags. Common practice, no
/// source.
const WORTH_RAISING: Probability = Probability::of(0.4);

/// Evidence with this probability and observation; `None` where it is under [`WORTH_RAISING`].
fn if_likely(probability: Probability, seen: &str) -> Option<Evidence> {
    if probability < WORTH_RAISING { None } else { Evidence::with(probability, seen) }
}

/// Codes of the flags that the network operator's answer settles.
const OPERATORS: [&str; 5] =
    ["demand-over-limit", "generation-without-letter", "looped-supply", "second-charge-point", "split-phase"];

/// The weight of a flag for this home: one that the network operator's answer settled is only worth knowing.
fn weight(flag: &Flag, seen: &Seen<'_>) -> Weight {
    let answered = seen.answers.operator.answer.known().is_some_and(|answer| *answer != OperatorAnswer::Refused);
    if answered && OPERATORS.contains(&flag.code) { flag.weight.max(Weight::WorthKnowing) } else { flag.weight }
}

/// Every flag that is raised, gravest first, then likeliest, then by name.
#[must_use]
pub fn raise_all(seen: &Seen<'_>) -> Vec<Raised> {
    let mut raised: Vec<Raised> = FLAGS
        .iter()
        .filter_map(|flag| {
            let evidence = (flag.raise)(seen)?;
            Some(Raised {
                code: flag.code.to_string(),
                weight: weight(flag, seen),
                probability: evidence.probability,
                evidence: evidence.seen,
                source: flag.source.to_string(),
                usual: flag.usual,
            })
        })
        .collect();
    raised.sort_by(|a, b| {
        a.weight
            .cmp(&b.weight)
            .then(b.probability.get().total_cmp(&a.probability.get()))
            .then_with(|| a.code.cmp(&b.code))
    });
    raised
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::{FLAGS, Weight};
    use crate::assessment::assess;
    use alloc::string::String;
    use alloc::vec::Vec;
    use model::answers::{
        Age, Along, Answer, Answers, BoundedCount, Cooking, Heating, HomeKind, Length, MeterPlace, OtherPoint,
        ParkingPlace, Postcode, Protection, Set, SpareWays, Tenure, TestButtons,
    };
    use std::{format, fs};
    use wording::{Table, flags_homeowner, flags_installer};

    const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/flags");

    fn files() -> Vec<String> {
        let mut files: Vec<String> = fs::read_dir(FOLDER)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .filter_map(|name| name.strip_suffix(".rs").map(Into::into))
            .filter(|name: &String| !["mod", "cause", "causes", "flag", "raised", "weight"].contains(&name.as_str()))
            .collect();
        files.sort();
        files
    }

    #[test]
    fn the_list_is_up_to_date() {
        let path = format!("{FOLDER}/mod.rs");
        let source = fs::read_to_string(&path).unwrap();
        let (before, rest) = source.split_once("// begin list\n").unwrap();
        let (list, after) = rest.split_once("// end list\n").unwrap();
        let modules: String = files().iter().map(|file| format!("mod {file};\n")).collect();
        let of_each = |what: &str| -> String { files().iter().map(|file| format!("    {file}::{what},\n")).collect() };
        let (entries, causes) = (of_each("FLAG"), of_each("CAUSE"));
        let wanted = format!(
            "{modules}\n/// Every flag, in the order of their files' names.\npub const FLAGS: &[Flag] = &[\n{entries}];\n\n\
             /// What raises each, in the same order.\npub const CAUSES: &[Cause] = &[\n{causes}];\n"
        );
        if std::env::var_os("PRESURVEY_ACCEPT").is_some() {
            fs::write(&path, format!("{before}// begin list\n{wanted}// end list\n{after}")).unwrap();
        } else {
            assert!(list == wanted, "the list of flags is not that of the files: run `cargo xtask accept`");
        }
    }

    #[test]
    fn every_flag_keeps_its_shape() {
        for (file, flag) in files().iter().zip(FLAGS) {
            assert_eq!(flag.code.replace('-', "_"), *file, "a flag is named by its file");
            let source = fs::read_to_string(format!("{FOLDER}/{file}.rs")).unwrap();
            for opening in ["//! **Seen:**", "//! **Source:**"] {
                assert!(source.contains(opening), "{file}.rs has no line `{opening}`");
            }
            for test in ["fn raised_", "fn quiet_", "fn not_sure_"] {
                assert!(
                    source.contains(test),
                    "{file}.rs has no test `{test}…`: one home that raises it, one near miss, one not sure"
                );
            }
        }
    }

    #[test]
    fn every_flag_has_its_words_and_no_words_are_left_over() {
        let has = |table: Table, key: &str| table.iter().any(|(name, _)| name == key);
        for flag in FLAGS {
            assert!(has(flags_homeowner::EN, &format!("flag-{}", flag.code)), "flags.ftl lacks flag-{}", flag.code);
            for part in ["name", "why", "do"] {
                let key = format!("flag-{}-{part}", flag.code);
                assert!(has(flags_installer::EN, &key), "flags.ftl lacks {key}");
            }
        }
        let settled: Vec<&str> =
            FLAGS.iter().filter(|flag| flag.weight == Weight::SettleBeforeBooking).map(|flag| flag.code).collect();
        for code in &settled {
            assert!(has(flags_homeowner::EN, &format!("if-{code}")), "flags.ftl lacks if-{code}");
        }
        let words = FLAGS.len() + settled.len();
        assert_eq!(flags_homeowner::EN.iter().count(), words, "flags.ftl has words of no flag");
        assert_eq!(flags_installer::EN.iter().count(), 3 * FLAGS.len(), "flags.ftl has words of no flag");
    }

    #[test]
    fn an_easy_home_is_not_buried_in_flags() {
        let config = model::config::demo_config();
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
        answers.home.kind = Answer::Known(HomeKind::Detached);
        answers.home.tenure = Answer::Known(Tenure::Own);
        answers.home.age = Answer::Known(Age::Since2000);
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        answers.meter.place = Answer::Known(MeterPlace::OutsideBox);
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
        answers.meter.street_cables = Answer::Known(BoundedCount::new(1).unwrap());
        answers.board.protection = Answer::Known(Protection::Breakers);
        answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
        answers.board.spare_ways = Answer::Known(SpareWays::Several);
        answers.loads.showers = Answer::Known(BoundedCount::new(0).unwrap());
        answers.loads.cooking = Answer::Known(Cooking::Electric);
        answers.loads.heating = Answer::Known(Heating::None);
        answers.loads.hot_tub = Answer::Known(false);
        answers.loads.other_point = Answer::Known(OtherPoint::None);
        answers.route.length = Answer::Known(Length::metres(6.0));
        answers.route.mostly = Answer::Known(Along::OutsideWall);
        answers.signal.wifi_bars = Answer::Known(BoundedCount::new(3).unwrap());

        answers.loads.solar = Answer::Known(false);
        answers.loads.battery = Answer::Known(false);

        let raised = assess(&answers, &config).flags;
        let codes: Vec<&str> = raised.iter().map(|flag| flag.code.as_str()).collect();
        assert!(codes.len() <= 5, "{codes:?}");
        assert!(raised.iter().all(|flag| flag.weight >= Weight::ChangesThePrice), "{codes:?}");
    }

    #[test]
    fn a_home_nobody_could_tell_of_says_so_and_asserts_nothing_grave() {
        let raised = assess(&Answers::default(), &model::config::demo_config()).flags;
        assert!(raised.iter().any(|flag| flag.code == "supply-not-counted"));
        assert!(raised.iter().all(|flag| flag.weight != Weight::Stop));
    }
}
