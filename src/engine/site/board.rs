//! The board: whether it has a way that a charge point may use.

use super::contradiction::Contradiction;
use super::fact::Fact;
use alloc::vec::Vec;
use model::answers::{Answers, BoardCase, Protection, RcdType, SpareWays, TestButtons};
use model::config::Config;
use model::terms::KnownBy;
use model::units::Probability;

/// What the board has room for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoardState {
    /// Two spare ways or more that are not behind a shared residual-current device: room for surge protection as well.
    OwnWays,
    /// Just one such way: the charge point's device takes it, and nothing else finds room.
    OwnWay,
    /// No spare way, but one that is not behind a shared device can be freed.
    FreedWay,
    /// Spare ways only behind a shared residual-current device.
    SharedWay,
    /// No spare way.
    Full,
    /// Fuse wire or cartridge fuses: reported for an opinion.
    FuseWire,
}

const FROM: &[&str] = &["protection", "test-buttons", "spare-ways"];

/// Infers the board's state from the answers; pushes a contradiction where they disagree.
pub(super) fn infer(answers: &Answers, config: &Config, contradictions: &mut Vec<Contradiction>) -> Fact<BoardState> {
    let board = &answers.board;
    let priors = &config.priors;
    let age = answers.home.age.known().copied();

    if board.protection.is(Protection::FuseWire) {
        if board.test_buttons.is(TestButtons::EachWay) {
            contradictions.push(Contradiction {
                about: "board",
                says: "fuse wire, but a test button on each way: the two do not go together",
                questions: &["protection", "test-buttons"],
            });
            // Arithmetic: nobody can say which of the two is true.
            let values = [(BoardState::FuseWire, Probability::of(0.5)), (BoardState::OwnWays, Probability::of(0.5))];
            return Fact::weighed(&values, KnownBy::Contradicted, FROM);
        }
        return Fact::sure(BoardState::FuseWire, KnownBy::Seen, FROM);
    }
    let fuse_wire = if board.protection.known().is_some() { Probability::NEVER } else { *priors.fuse_wire.of(age) };
    let spare = match board.spare_ways.known() {
        Some(SpareWays::None) => Probability::NEVER,
        Some(SpareWays::One | SpareWays::Several) => Probability::CERTAIN,
        None => *priors.spare_way.of(age),
    };
    let several = match board.spare_ways.known() {
        Some(SpareWays::Several) => Probability::CERTAIN,
        Some(SpareWays::None | SpareWays::One) => Probability::NEVER,
        None => priors.several_ways,
    };
    // No test button, or one on each way: no way is behind a shared device. One button: all ways are. Two: a split board, where usually all
    // are. A Type AC device ahead of the way rules it out as well, wherever one device protects several ways.
    let over_it = board.rcd_type.is(RcdType::Ac) && !board.test_buttons.is(TestButtons::EachWay);
    let own = match board.test_buttons.known() {
        _ if over_it => Probability::NEVER,
        Some(TestButtons::None | TestButtons::EachWay) => Probability::CERTAIN,
        // The probability of a way that is not behind the one device: common practice, no source.
        Some(TestButtons::One) => Probability::of(0.1),
        Some(TestButtons::Two) => priors.own_way_two_buttons,
        None => priors.own_way_unknown,
    };
    let asked =
        [board.protection.known().is_some(), board.spare_ways.known().is_some(), board.test_buttons.known().is_some()];
    let known_by = match asked {
        [true, true, true] => KnownBy::Seen,
        [false, false, false] => KnownBy::Assumed,
        _ => KnownBy::Inferred,
    };
    let breakers = fuse_wire.complement();
    Fact::weighed(
        &[
            (BoardState::OwnWays, breakers * spare * own * several),
            (BoardState::OwnWay, breakers * spare * own * several.complement()),
            (BoardState::SharedWay, breakers * spare * own.complement()),
            (BoardState::FreedWay, breakers * spare.complement() * own * priors.way_freed),
            (BoardState::Full, breakers * spare.complement() * (own * priors.way_freed).complement()),
            (BoardState::FuseWire, fuse_wire),
        ],
        known_by,
        FROM,
    )
}

/// Infers whether the right device can be had for the board: by the installer's list and the maker printed on it; where it is not on that
/// list, by what was seen of the board.
pub(super) fn infer_device(answers: &Answers, config: &Config) -> Fact<bool> {
    const FROM_MAKER: &[&str] = &["board-maker"];
    let board = &answers.board;
    let listed =
        board.maker.known().and_then(|maker| config.devices.iter().find(|device| device.is_for(maker.as_str())));
    match listed {
        Some(device) => Fact::sure(device.double_pole, KnownBy::Inferred, FROM_MAKER),
        // It is not on the list: no answer of the homeowner's settles this, so the installer looks it up.
        None => {
            let by = &config.priors.device_by_buttons;
            let by_buttons = config.priors.device(board.test_buttons.known().copied());
            let metal = board.case.is(BoardCase::Metal);
            let by_case = if metal { by_buttons.max(by.metal_case) } else { by_buttons };
            let left = if board.maker.is_not_sure() { by_case * by.no_name } else { by_case };
            Fact::chance(true, false, left, KnownBy::Assumed, &[])
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, Word};
    use model::config::demo_config;

    fn board(buttons: Answer<TestButtons>, ways: Answer<SpareWays>) -> Fact<BoardState> {
        let mut answers = Answers::default();
        answers.board.protection = Answer::Known(Protection::Breakers);
        answers.board.test_buttons = buttons;
        answers.board.spare_ways = ways;
        infer(&answers, &demo_config(), &mut Vec::new())
    }

    #[test]
    fn a_device_can_be_had_by_what_was_seen_unless_the_installer_has_one_figure_for_all() {
        let had = |config: &Config, buttons| {
            let mut answers = Answers::default();
            answers.board.test_buttons = Answer::Known(buttons);
            infer_device(&answers, config).probability(|had| had)
        };
        let mut config = demo_config();
        let usual = TestButtons::ALL.iter().map(|buttons| had(&config, *buttons)).collect::<Vec<_>>();
        assert!(usual.windows(2).all(|pair| pair[0] < pair[1]), "the newer it looks, the likelier: {usual:?}");
        config.priors.device_available = Probability::of(0.9);
        assert!(TestButtons::ALL.iter().all(|buttons| had(&config, *buttons) == Probability::of(0.9)));
        config.priors.device_by_buttons.one = Probability::of(0.2);
        assert_eq!(had(&config, TestButtons::One), Probability::of(0.2), "by what is seen, once that was said");
    }

    #[test]
    fn a_gap_beside_single_devices_is_a_way_of_its_own() {
        let fact = board(Answer::Known(TestButtons::EachWay), Answer::Known(SpareWays::Several));
        assert_eq!(fact.values(), [(BoardState::OwnWays, Probability::CERTAIN)]);
        let fact = board(Answer::Known(TestButtons::EachWay), Answer::Known(SpareWays::One));
        assert_eq!(fact.values(), [(BoardState::OwnWay, Probability::CERTAIN)], "gaps are counted");
    }

    #[test]
    fn a_gap_behind_a_shared_device_is_probably_no_way_of_its_own() {
        let fact = board(Answer::Known(TestButtons::Two), Answer::Known(SpareWays::One));
        assert_eq!(fact.likeliest(), BoardState::SharedWay);
        assert!(fact.is_unsure());
    }

    #[test]
    fn no_gap_is_full_whatever_the_buttons_say() {
        for buttons in [Answer::NotSure, Answer::Known(TestButtons::One)] {
            assert_eq!(board(buttons, Answer::Known(SpareWays::None)).likeliest(), BoardState::Full);
        }
    }

    #[test]
    fn the_installers_list_says_what_can_be_had_for_a_board() {
        let mut config = demo_config();
        config.devices =
            alloc::vec![model::config::BoardDevice { printed: "Invented Board".into(), double_pole: false }];
        let mut answers = Answers::default();
        answers.board.maker = Answer::Known(model::answers::ShortText::new("invented board").unwrap());
        assert_eq!(infer_device(&answers, &config).values(), [(false, Probability::CERTAIN)]);
        answers.board.maker = Answer::Known(model::answers::ShortText::new("another").unwrap());
        assert!(infer_device(&answers, &config).is_unsure());
        answers.board.maker = Answer::NotSure;
        assert_eq!(infer_device(&answers, &config).known_by, KnownBy::Assumed);
    }

    /// A board with a device on each way is young enough for one more; fuse wire's contemporaries are not.
    #[test]
    fn the_older_a_board_looks_the_rarer_is_a_device_for_it() {
        let chance = |say: &dyn Fn(&mut Answers)| {
            let mut answers = Answers::default();
            say(&mut answers);
            infer_device(&answers, &demo_config()).probability(|there| there)
        };
        let buttons = |buttons| chance(&|answers| answers.board.test_buttons = Answer::Known(buttons));
        let all = [TestButtons::None, TestButtons::One, TestButtons::Two, TestButtons::EachWay].map(buttons);
        assert!(all.is_sorted() && all[0] < Probability::of(0.3) && all[3] > Probability::of(0.8), "{all:?}");
        let metal = chance(&|answers| {
            answers.board.test_buttons = Answer::Known(TestButtons::Two);
            answers.board.case = Answer::Known(BoardCase::Metal);
        });
        assert!(metal > all[2]);
        let unnamed = chance(&|answers| {
            answers.board.test_buttons = Answer::Known(TestButtons::Two);
            answers.board.maker = Answer::NotSure;
        });
        assert!(unnamed < all[2]);
    }

    #[test]
    fn not_sure_keeps_every_state_alive() {
        let mut answers = Answers::default();
        answers.board.protection = Answer::NotSure;
        assert_eq!(infer(&answers, &demo_config(), &mut Vec::new()).values().len(), 6);
    }
}
