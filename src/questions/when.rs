//! When a question is asked: what was said so far decides.

use crate::answers::{Answers, Cooking, Heating, OperatorAnswer, ParkingPlace, Pipe, TestButtons};
use crate::units::Kilowatts;

/// Always.
pub fn always(_: &Answers) -> bool {
    true
}

/// Something alarming was noticed.
pub fn hazard_seen(answers: &Answers) -> bool {
    answers.hazard.is_noticed()
}

/// Nothing alarming was noticed: only then is anyone sent near meter or board.
pub fn safe(answers: &Answers) -> bool {
    answers.hazard.signs.known().is_some_and(super::super::answers::Set::is_empty)
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

/// They heat by electricity.
pub fn heats_electrically(answers: &Answers) -> bool {
    no_hazard_seen(answers) && answers.loads.heating.known().is_some_and(|heating| *heating != Heating::None)
}

/// The charge point would hang on an outbuilding's board.
pub fn at_an_outbuilding(answers: &Answers) -> bool {
    safe(answers) && answers.outbuilding.board_there.is(true)
}

/// There may be a board other than the home's own.
pub fn garage_stands_apart(answers: &Answers) -> bool {
    safe(answers) && answers.parking.place.is(ParkingPlace::DetachedGarage)
}

/// The board has residual-current devices.
pub fn has_test_buttons(answers: &Answers) -> bool {
    safe(answers) && answers.board.test_buttons.known().is_some_and(|buttons| *buttons != TestButtons::None)
}

/// Something in the home may feed back into the network: panels or a battery that were not said to be none.
pub fn may_feed_back(answers: &Answers) -> bool {
    let none = |power: Option<&Kilowatts>| power.is_some_and(|power| *power == Kilowatts::ZERO);
    let loads = &answers.loads;
    no_hazard_seen(answers) && !(none(loads.solar_power.known()) && none(loads.battery_power.known()))
}

/// There may be a gas pipe.
pub fn may_have_gas_pipe(answers: &Answers) -> bool {
    safe(answers) && !answers.earthing.gas_pipe.is(Pipe::NoPipe)
}

/// There may be a water pipe.
pub fn may_have_water_pipe(answers: &Answers) -> bool {
    safe(answers) && !answers.earthing.water_pipe.is(Pipe::NoPipe)
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

/// A wall is drilled.
pub fn drills(answers: &Answers) -> bool {
    off_street(answers) && answers.route.walls.known().is_some_and(|walls| walls.get() > 0)
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
}
