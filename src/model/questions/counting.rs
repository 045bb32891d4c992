//! Which answers count: an answer whose question would no longer be asked does not.

use super::{CATALOGUE, Question};
use crate::answers::{Answers, RawAnswer};
use alloc::borrow::Cow;
use alloc::vec::Vec;

/// The answers without those whose question is no longer asked, given the other answers. Taking one out may take out others, so this is
/// repeated until nothing changes.
///
/// Answers that the installer recorded ([`Answers::recorded`]) stay, and so do fields that no question of the homeowner's fills. What was
/// sent and stored stays as it is: this is worked out before each assessment. Applied to its own result, it changes nothing.
#[must_use]
pub fn counting(answers: &Answers) -> Cow<'_, Answers> {
    let mut kept = Cow::Borrowed(answers);
    loop {
        let gone = |question: &&Question| {
            !(question.asked)(&kept) && !kept.recorded.has(question.path) && (question.get)(&kept) != RawAnswer::Nothing
        };
        let gone: Vec<&Question> = CATALOGUE.iter().filter(gone).collect();
        if gone.is_empty() {
            return kept;
        }
        for question in gone {
            let taken = (question.set)(kept.to_mut(), &RawAnswer::Nothing);
            debug_assert!(taken, "{} can be taken back", question.id);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{Answer, BoundedCount, HazardSign, HazardWhen, ParkingPlace, Set, SpareWays, WhichBoard};

    fn counted() -> Answers {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers.parking.place = Answer::Known(ParkingPlace::DetachedGarage);
        answers.outbuilding.board_there = Answer::Known(true);
        answers.outbuilding.feed_size = Answer::Known(crate::units::SquareMillimetres::of(6.0));
        answers.outbuilding.farm = Answer::Known(true);
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
        answers
    }

    #[test]
    fn what_is_still_asked_stays_and_nothing_is_copied() {
        let answers = counted();
        assert!(matches!(counting(&answers), Cow::Borrowed(same) if *same == answers));
    }

    /// The meter was counted, and then somebody was not sure of a danger any more.
    #[test]
    fn a_danger_not_ruled_out_takes_back_what_was_seen_at_the_meter() {
        let mut answers = counted();
        answers.hazard.signs = Answer::NotSure;
        assert!(counting(&answers).meter.fuse_carriers.is_not_asked());
        answers.recorded = answers.recorded.with("meter.fuse_carriers");
        assert_eq!(counting(&answers).meter.fuse_carriers, answers.meter.fuse_carriers, "the installer recorded it");
    }

    /// A board in an outbuilding was meant, and then the car stood on the drive after all.
    #[test]
    fn what_leaves_takes_along_what_hung_on_it() {
        let mut answers = counted();
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        let left = counting(&answers);
        assert!(left.outbuilding.board_there.is_not_asked() && left.outbuilding.feed_size.is_not_asked());
        assert_eq!(left.outbuilding.farm, answers.outbuilding.farm, "a cable from the home may pass one as well");
        assert_eq!(left.meter.fuse_carriers, answers.meter.fuse_carriers);
    }

    /// One of two boards was described, and then another is the one that is meant.
    #[test]
    fn what_was_seen_of_a_board_that_is_not_meant_does_not_count() {
        let mut answers = counted();
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        answers.board.boards = Answer::Known(BoundedCount::new(2).unwrap());
        answers.board.spare_ways = Answer::Known(SpareWays::Several);
        for which in [Answer::Known(WhichBoard::Described), Answer::NotSure, Answer::NotAsked] {
            answers.board.which = which;
            assert_eq!(counting(&answers).board.spare_ways, answers.board.spare_ways);
        }
        answers.board.which = Answer::Known(WhichBoard::Another);
        let left = counting(&answers);
        assert!(left.board.spare_ways.is_not_asked());
        assert_eq!((&left.board.boards, &left.board.which), (&answers.board.boards, &answers.board.which));
        answers.board.boards = Answer::Known(BoundedCount::new(1).unwrap());
        assert_eq!(counting(&answers).board.spare_ways, answers.board.spare_ways, "there is only one after all");
    }

    #[test]
    fn a_spark_of_last_year_empties_nothing() {
        let mut answers = counted();
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing]));
        assert!(counting(&answers).meter.fuse_carriers.is_not_asked());
        answers.hazard.when = Answer::Known(HazardWhen::LongAgo);
        assert_eq!(counting(&answers).meter.fuse_carriers, answers.meter.fuse_carriers);
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing, HazardSign::BareMetal]));
        assert!(counting(&answers).meter.fuse_carriers.is_not_asked(), "bare metal stays until it was put right");
    }
}
