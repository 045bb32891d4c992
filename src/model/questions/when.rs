//! The conditions under which a question is asked, by the answers so far.

use crate::answers::{
    Answers, Cooking, Heating, HomeKind, OperatorAnswer, OtherPoint, ParkingPlace, Pipe, TestButtons, WhichBoard,
};
use crate::units::Kilowatts;

/// Always.
pub fn always(_: &Answers) -> bool {
    true
}

/// Something alarming was noticed.
pub fn hazard_seen(answers: &Answers) -> bool {
    answers.hazard.is_noticed()
}

/// A sign was noticed that may cease by itself, and so may be over.
pub fn hazard_passes(answers: &Answers) -> bool {
    answers.hazard.signs.known().is_some_and(|signs| signs.iter().any(crate::answers::HazardSign::passes))
}

/// A danger is ruled out as far as they can tell: only then may anybody be sent to look at meter, board or pipes.
#[must_use]
pub fn safe(answers: &Answers) -> bool {
    answers.hazard.is_ruled_out()
}

/// No hazard is known: the rest may be asked indoors and on the drive.
pub fn no_hazard_seen(answers: &Answers) -> bool {
    !hazard_seen(answers)
}

/// The car stands somewhere a cable may be run to.
pub fn off_street(answers: &Answers) -> bool {
    no_hazard_seen(answers) && !answers.parking.place.is(ParkingPlace::Street)
}

/// They have an electric shower.
pub fn has_shower(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.loads.showers.known().is_some_and(|showers| showers.get() > 0)
}

/// They have two electric showers or more.
pub fn has_two_showers(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.loads.showers.known().is_some_and(|showers| showers.get() > 1)
}

/// They have a hot tub or sauna.
pub fn has_hot_tub(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.loads.hot_tub.is(true)
}

/// They may have solar panels.
pub fn may_have_panels(answers: &Answers) -> bool {
    no_hazard_seen(answers) && !answers.loads.solar.is(false)
}

/// They may have a battery.
pub fn may_have_battery(answers: &Answers) -> bool {
    no_hazard_seen(answers) && !answers.loads.battery.is(false)
}

/// The home uses so much already that its real demand and its main fuse may decide which procedure of the network operator applies: with a
/// charge point about 60 A or more by likely use, as far as the answers tell. Common practice, no source.
pub fn uses_much(answers: &Answers) -> bool {
    let loads = &answers.loads;
    let showers = loads.showers.known().map_or(0, |showers| showers.get());
    let heats = matches!(loads.heating.known(), Some(Heating::Direct | Heating::Storage | Heating::HeatPump));
    let cooks = loads.cooking.is(Cooking::Electric);
    showers > 1
        || loads.other_point.is(OtherPoint::Kept)
        || [showers > 0, heats, cooks, loads.hot_tub.is(true)].iter().filter(|one| **one).count() > 1
}

/// They heat by electricity.
pub fn heats_electrically(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.loads.heating.known().is_some_and(|heating| *heating != Heating::None)
}

/// The charge point would hang on an outbuilding's board.
pub fn at_an_outbuilding(answers: &Answers) -> bool {
    safe(answers) && answers.outbuilding.board_there.is(true)
}

/// The home has several boards, and the board meant is not already known to be an outbuilding's.
pub fn has_several_boards(answers: &Answers) -> bool {
    let several = answers.board.boards.known().is_some_and(|boards| boards.get() > 1);
    let apart = garage_stands_apart(answers) && answers.outbuilding.board_there.is(true);
    safe(answers) && several && !apart
}

/// The board that was described is the one the charge point may be fed from; where another is meant, nothing answered about this one
/// counts.
pub fn described_board_meant(answers: &Answers) -> bool {
    safe(answers) && !(has_several_boards(answers) && answers.board.which.is(WhichBoard::Another))
}

/// The cable may begin in, cross or end at a farm building: never for a flat or a bay in a car park.
pub fn may_pass_a_farm(answers: &Answers) -> bool {
    let (flat, car_park) =
        (answers.home.kind.is(HomeKind::Flat), answers.parking.place.is(ParkingPlace::SharedCarPark));
    off_street(answers) && !flat && !car_park
}

/// There may be a board other than the home's own.
pub fn garage_stands_apart(answers: &Answers) -> bool {
    safe(answers) && answers.parking.place.is(ParkingPlace::DetachedGarage)
}

/// The board has residual-current devices.
pub fn has_test_buttons(answers: &Answers) -> bool {
    described_board_meant(answers)
        && answers.board.test_buttons.known().is_some_and(|buttons| *buttons != TestButtons::None)
}

/// Something in the home may feed back into the network: panels or a battery that were not said to be none.
pub fn may_feed_back(answers: &Answers) -> bool {
    let none = |power: Option<&Kilowatts>| power.is_some_and(|power| *power == Kilowatts::ZERO);
    let loads = &answers.loads;
    let panels = may_have_panels(answers) && !none(loads.solar_power.known());
    panels || (may_have_battery(answers) && !none(loads.battery_power.known()))
}

/// There may be a gas pipe.
pub fn may_have_gas_pipe(answers: &Answers) -> bool {
    safe(answers) && !answers.earthing.gas_pipe.is(Pipe::NoPipe)
}

/// There may be a water pipe.
pub fn may_have_water_pipe(answers: &Answers) -> bool {
    safe(answers) && !answers.earthing.water_pipe.is(Pipe::NoPipe)
}

/// Something else of metal comes in from the ground.
pub fn has_other_metal(answers: &Answers) -> bool {
    safe(answers) && answers.earthing.other_metal.known().is_some_and(|metal| !metal.is_empty())
}

/// They bought a charge point already.
pub fn bought_one(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.wish.bought.is(true)
}

/// They want a fixed lead.
pub fn wants_lead(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.wish.outlet.is(crate::answers::Outlet::Lead)
}

/// They cook by electricity alone: an oven beside a gas hob hardly differs from home to home.
pub fn cooks_electrically(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.loads.cooking.is(Cooking::Electric)
}

/// A builder may have left a cable: there is no old charge point with a cable of its own, and there is somewhere to run one.
pub fn may_have_builders_cable(answers: &Answers) -> bool {
    off_street(answers) && !matches!(answers.loads.other_point.known(), Some(OtherPoint::Kept | OtherPoint::Replaced))
}

/// An old charge point is replaced.
pub fn swaps(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.loads.other_point.is(OtherPoint::Replaced)
}

/// There is a circuit or a cable already that may be used.
pub fn circuit_there(answers: &Answers) -> bool {
    swaps(answers) || (may_have_builders_cable(answers) && answers.route.builders_cable.is(true))
}

/// A wall is drilled.
pub fn drills(answers: &Answers) -> bool {
    off_street(answers) && answers.route.walls.known().is_some_and(|walls| walls.get() > 0)
}

/// A wall may be drilled.
pub fn may_drill(answers: &Answers) -> bool {
    off_street(answers) && answers.route.walls.known().is_none_or(|walls| walls.get() > 0)
}

/// No data cable is there already.
pub fn wants_data_link(answers: &Answers) -> bool {
    off_street(answers) && !answers.signal.data_cable.is(true)
}

/// The network operator has answered.
pub fn operator_answered(answers: &Answers) -> bool {
    answers.operator.answer.known().is_some()
}

/// The network operator set a limit.
pub fn limit_set(answers: &Answers) -> bool {
    answers.operator.answer.is(OperatorAnswer::Limited)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{Answer, Set};

    #[test]
    fn what_is_not_there_is_asked_no_more_about() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        assert!(may_have_gas_pipe(&answers) && may_have_water_pipe(&answers) && may_feed_back(&answers));
        answers.earthing.gas_pipe = Answer::Known(Pipe::NoPipe);
        answers.earthing.water_pipe = Answer::Known(Pipe::Plastic);
        assert!(!may_have_gas_pipe(&answers) && may_have_water_pipe(&answers));
        answers.loads.solar_power = Answer::Known(Kilowatts::ZERO);
        assert!(may_feed_back(&answers), "a battery may");
        answers.loads.battery_power = Answer::NotSure;
        assert!(may_feed_back(&answers));
        answers.loads.battery_power = Answer::Known(Kilowatts::ZERO);
        assert!(!may_feed_back(&answers));
        answers.loads.battery_power = Answer::Known(Kilowatts::of(3.0));
        assert!(may_feed_back(&answers));
    }

    #[test]
    fn a_plain_no_to_panels_and_battery_ends_the_matter() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        assert!(may_have_panels(&answers) && may_have_battery(&answers));
        answers.loads.solar = Answer::Known(false);
        assert!(!may_have_panels(&answers) && may_feed_back(&answers), "a battery may");
        answers.loads.battery = Answer::Known(false);
        assert!(!may_have_battery(&answers) && !may_feed_back(&answers));
        answers.loads.battery = Answer::NotSure;
        assert!(may_have_battery(&answers) && may_feed_back(&answers));
    }

    #[test]
    fn a_home_with_two_large_loads_is_asked_for_its_half_hour_and_fuse() {
        let mut answers = Answers::default();
        assert!(!uses_much(&answers));
        answers.loads.cooking = Answer::Known(Cooking::Electric);
        assert!(!uses_much(&answers));
        answers.loads.showers = Answer::Known(crate::answers::BoundedCount::new(1).unwrap());
        assert!(uses_much(&answers));
        answers.loads.cooking = Answer::Known(Cooking::Gas);
        assert!(!uses_much(&answers));
        answers.loads.showers = Answer::Known(crate::answers::BoundedCount::new(2).unwrap());
        assert!(uses_much(&answers));
    }
}
