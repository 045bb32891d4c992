//! A circuit that is there already, an old charge point's or a builder's cable; and whether tails and main earthing conductor are large
//! enough for one more load.

use super::fact::Fact;
use model::answers::{Age, Answers, CircuitFound, MainConductors, OtherPoint, ParkingPlace};
use model::terms::KnownBy;
use model::units::Probability;

/// What can be used of a circuit that is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CircuitThere {
    /// There is none, as far as anybody said.
    NotThere,
    /// An old charge point's, used as it is.
    Sound,
    /// An old charge point's: its cable is used, its protective device is changed.
    NewDevice,
    /// A cable that was left for one: it takes a way of the board like any other circuit.
    CableAlone,
    /// It can't be used: a new circuit.
    NotUsable,
}

impl CircuitThere {
    /// Whether the circuit has a way in the board already.
    #[must_use]
    pub const fn has_a_way(self) -> bool {
        matches!(self, Self::Sound | Self::NewDevice)
    }

    /// Whether the circuit's cable is used.
    #[must_use]
    pub const fn keeps_cable(self) -> bool {
        matches!(self, Self::Sound | Self::NewDevice | Self::CableAlone)
    }
}

/// Where an old charge point works and has papers: the probability that its circuit is sound, and that it needs another device; otherwise
/// it can't be used. What makes it unusable: 2.5 or 4 mm² of cable, a Type AC or single-pole device, a loop or insulation that fails.
/// Common practice, no source.
const WORKS_WITH_PAPERS: [f64; 2] = [0.7, 0.2];
/// The same without papers: common practice, no source.
const WORKS: [f64; 2] = [0.5, 0.3];
/// The same where it no longer works, or nobody said: common practice, no source.
const STOPPED: [f64; 2] = [0.35, 0.3];
/// A builder's cable that can be proved from end to end, with papers and without: common practice, no source.
const CABLE_PROVED: [f64; 2] = [0.85, 0.6];

/// Infers what can be used of an old charge point's circuit or a builder's cable: as the installer found it, otherwise weighted by the
/// answers.
pub(super) fn infer(answers: &Answers) -> Fact<CircuitThere> {
    const FROM: &[&str] = &["other-point", "builders-cable", "old-works", "circuit-papers"];
    let (point, cable) = (&answers.loads.other_point, &answers.route.builders_cable);
    let old = point.is(OtherPoint::Replaced);
    if !old && (!cable.is(true) || answers.parking.place.is(ParkingPlace::Street)) {
        let said = point.known().is_some() || cable.known().is_some();
        let known_by = if said { KnownBy::Said } else { KnownBy::Assumed };
        return Fact::sure(CircuitThere::NotThere, known_by, FROM);
    }
    let existing = &answers.existing;
    if let Some(found) = existing.circuit.known() {
        let found = match found {
            CircuitFound::NotUsable => CircuitThere::NotUsable,
            CircuitFound::Sound | CircuitFound::NewDevice if !old => CircuitThere::CableAlone,
            CircuitFound::Sound => CircuitThere::Sound,
            CircuitFound::NewDevice => CircuitThere::NewDevice,
        };
        return Fact::sure(found, KnownBy::Seen, &["circuit-found"]);
    }
    if old && existing.same_place.is(false) {
        // Its cable ends in another place.
        return Fact::sure(CircuitThere::NotUsable, KnownBy::Said, &["same-place"]);
    }
    let papers = existing.papers.is(true);
    if !old {
        let proved = Probability::of(CABLE_PROVED[usize::from(!papers)]);
        return Fact::chance(CircuitThere::CableAlone, CircuitThere::NotUsable, proved, KnownBy::Inferred, FROM);
    }
    let [sound, device] = match existing.works.known() {
        Some(true) if papers => WORKS_WITH_PAPERS,
        Some(true) => WORKS,
        Some(false) | None => STOPPED,
    };
    Fact::weighed(
        &[
            (CircuitThere::Sound, Probability::of(sound)),
            (CircuitThere::NewDevice, Probability::of(device)),
            (CircuitThere::NotUsable, Probability::of(1.0 - sound - device)),
        ],
        KnownBy::Inferred,
        FROM,
    )
}

/// The probabilities that the main earthing conductor alone, and that tails and conductor, are too small, by the home's age: tails of 16
/// mm² and a main earth of 6 mm² were usual once. Common practice, no source.
fn too_small(age: Option<Age>) -> [f64; 2] {
    match age {
        Some(Age::Since2000) => [0.02, 0.01],
        Some(Age::To1999) => [0.12, 0.06],
        Some(Age::Before1930 | Age::To1966) => [0.2, 0.15],
        None => [0.12, 0.08],
    }
}

/// Infers whether they are large enough. No homeowner can tell; the installer records what was found.
pub(super) fn infer_conductors(answers: &Answers) -> Fact<MainConductors> {
    if let Some(found) = answers.meter.conductors.known() {
        return Fact::sure(*found, KnownBy::Seen, &["main-conductors"]);
    }
    let [earth, both] = too_small(answers.home.age.known().copied());
    Fact::weighed(
        &[
            (MainConductors::Enough, Probability::of(1.0 - earth - both)),
            (MainConductors::MainEarthSmall, Probability::of(earth)),
            (MainConductors::BothSmall, Probability::of(both)),
        ],
        KnownBy::Assumed,
        &[],
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, ParkingPlace};

    #[test]
    fn what_nobody_spoke_of_is_not_there() {
        assert_eq!(infer(&Answers::default()).values(), [(CircuitThere::NotThere, Probability::CERTAIN)]);
        let mut answers = Answers::default();
        answers.route.builders_cable = Answer::NotSure;
        assert_eq!(infer(&answers).likeliest(), CircuitThere::NotThere);
        answers.route.builders_cable = Answer::Known(true);
        answers.parking.place = Answer::Known(ParkingPlace::Street);
        assert_eq!(infer(&answers).likeliest(), CircuitThere::NotThere, "on the street it leads nowhere");
    }

    #[test]
    fn papers_and_a_point_that_works_make_a_circuit_likelier_to_be_sound() {
        let mut answers = Answers::default();
        answers.loads.other_point = Answer::Known(OtherPoint::Replaced);
        let sound = |answers: &Answers| infer(answers).probability(|there| there == CircuitThere::Sound);
        let nothing_said = sound(&answers);
        answers.existing.works = Answer::Known(true);
        let works = sound(&answers);
        answers.existing.papers = Answer::Known(true);
        let with_papers = sound(&answers);
        assert!(nothing_said < works && works < with_papers);
        answers.existing.circuit = Answer::Known(CircuitFound::Sound);
        assert_eq!(sound(&answers), Probability::CERTAIN, "the installer found it so");
    }

    #[test]
    fn a_builders_cable_is_never_more_than_a_cable() {
        let mut answers = Answers::default();
        answers.route.builders_cable = Answer::Known(true);
        assert_eq!(infer(&answers).likeliest(), CircuitThere::CableAlone);
        for found in [CircuitFound::Sound, CircuitFound::NewDevice] {
            answers.existing.circuit = Answer::Known(found);
            assert_eq!(infer(&answers).values(), [(CircuitThere::CableAlone, Probability::CERTAIN)]);
        }
    }

    #[test]
    fn the_older_the_home_the_likelier_its_tails_are_too_small() {
        let enough = |age| {
            let mut answers = Answers::default();
            answers.home.age = Answer::Known(age);
            infer_conductors(&answers).probability(|found| found == MainConductors::Enough)
        };
        assert!(enough(Age::Before1930) < enough(Age::To1999) && enough(Age::To1999) < enough(Age::Since2000));
    }
}
