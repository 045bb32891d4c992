//! Earthing. Source: BS 7671 722.411.4.1.

use super::{chosen, count, fact, has, home, home_under, line, said, stated, values, wanted};
use presurvey::Assessment;
use presurvey::answers::{Answer, Answers, EarthGoes, Length, ParkingPlace, Pipe, Postcode};
use presurvey::assessment::KnownBy;
use presurvey::config::{Earthings, Item, Region, demo_config};
use presurvey::figures::working;
use presurvey::units::Probability;

fn earthed(goes: EarthGoes) -> Assessment {
    home(|answers| answers.earthing.conductor_goes = Answer::Known(goes))
}

/// PME outdoors: a charge point or device that senses it; TN-S could have become PME upstream, and is treated as such.
#[test]
fn pme_and_tn_s_outdoors_want_a_measure_against_a_broken_neutral() {
    for goes in [EarthGoes::ServiceHead, EarthGoes::CableSheath] {
        assert!(chosen(&earthed(goes), "earthing").starts_with("open-pen"), "{goes:?}");
        assert!(line(&earthed(goes), "open-pen").is_some());
    }
    assert!(has(&earthed(EarthGoes::ServiceHead), "pme-outdoors"));
    assert!(has(&earthed(EarthGoes::CableSheath), "tn-s-may-be-pme"));
    let mut config = demo_config();
    config.charge_points.iter_mut().for_each(|point| point.open_pen_sensing = false);
    let device = home_under(&config, |answers| answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead));
    assert_eq!(chosen(&device, "earthing"), "open-pen-device");
    assert_eq!(wanted(&device, Item::OpenPenDevice), Some(1.0));
}

/// A voltage window only where the installation is single-phase.
#[test]
fn a_voltage_window_does_not_serve_three_phases() {
    let phases = |carriers, conductors| {
        home(|answers| {
            answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
            answers.meter.fuse_carriers = count(carriers);
            answers.meter.head_conductors = count(conductors);
        })
    };
    assert_eq!(chosen(&phases(1, 2), "earthing"), "open-pen-sensed-in-the-charge-point");
    assert_eq!(chosen(&phases(3, 4), "earthing"), "open-pen-device");
}

/// TT: electrode proved, with its distances; no open-PEN device needed. Source of 200 Ω: BS 7671 Table 41.5 (from memory).
#[test]
fn tt_wants_its_electrode_proved_and_no_open_pen_device() {
    let tt = earthed(EarthGoes::Rod);
    assert_eq!(stated(&tt, "electrode"), "two-hundred-ohms");
    assert!(line(&tt, "electrode-apart").is_some() && line(&tt, "open-pen").is_none());
    assert_eq!(chosen(&tt, "earthing"), "prove-the-electrode");
    assert!(wanted(&tt, Item::ProveElectrode).is_some() && wanted(&tt, Item::OpenPenDevice).is_none());
    assert!(has(&tt, "tt-electrode"));
}

/// On TT a distribution cable to an outbuilding needs a device of its own.
#[test]
fn an_outbuilding_on_tt_is_flagged_and_a_farm_building_is_section_705() {
    let seen = home(|answers| {
        super::at_the_garages_board(answers);
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::Rod);
        answers.outbuilding.farm = Answer::Known(true);
    });
    assert!(has(&seen, "outbuilding-electrode"));
    assert!(super::flag(&seen, "farm-building").unwrap().source.contains("705"));
}

/// Farm buildings: section 705 wherever the cable begins, crosses or ends, not at an outbuilding's own board alone; never in a flat.
#[test]
fn section_705_follows_wherever_the_cable_meets_a_farm_building() {
    use presurvey::answers::{HomeKind, ParkingPlace};
    for place in [ParkingPlace::Drive, ParkingPlace::AttachedGarage, ParkingPlace::DetachedGarage] {
        let seen = home(|answers| {
            answers.parking.place = Answer::Known(place);
            answers.outbuilding.board_there = Answer::Known(false);
            answers.outbuilding.farm = Answer::Known(true);
        });
        assert!(super::flag(&seen, "farm-building").unwrap().source.contains("705"), "{place:?}");
        assert_eq!(stated(&seen, "farm-building"), "section-705");
    }
    for not in [Answer::Known(false), Answer::NotSure, Answer::NotAsked] {
        let seen = home(|answers| answers.outbuilding.farm = not);
        assert!(!has(&seen, "farm-building") && line(&seen, "farm-building").is_none());
    }
    let flat = home(|answers| {
        answers.home.kind = Answer::Known(HomeKind::Flat);
        answers.outbuilding.farm = Answer::Known(true);
    });
    assert!(!has(&flat, "farm-building"));
}

/// Unknown: the measure is decided as for PME, the loop taken at the highest external impedance of those still alive; flagged.
#[test]
fn unknown_earthing_is_decided_as_for_pme_with_the_highest_loop() {
    let unknown = home(|answers| answers.earthing.conductor_goes = Answer::NotSure);
    assert!(has(&unknown, "earthing-unknown") && fact(&unknown, "earthing").known_by == KnownBy::Assumed);
    assert!(chosen(&unknown, "earthing").starts_with("open-pen"));
    let external = |goes: Answer<EarthGoes>| {
        let all = working(&said(|answers| answers.earthing.conductor_goes = goes), &demo_config());
        let figure = all.into_iter().find(|figure| figure.figure == "earth fault loop impedance").unwrap();
        figure.inputs.into_iter().find(|input| input.name == "external").unwrap().value
    };
    let [pme, tn_s, tt] =
        [EarthGoes::ServiceHead, EarthGoes::CableSheath, EarthGoes::Rod].map(|goes| external(Answer::Known(goes)));
    assert!(pme != tn_s && tn_s != tt);
    assert_eq!(external(Answer::NotSure), tt, "TT is still alive, and has the highest");
}

/// Unknown where the installer's region says TT is usual: as for PME in every case all the same, its cost in the band; the electrode
/// that there may be is priced as an event, the loop taken at the highest external impedance.
#[test]
fn unknown_earthing_is_decided_as_for_pme_even_where_tt_is_likeliest() {
    for tt in [0.8, 1.0] {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.open_pen_sensing = false);
        let usual = Earthings { tn_s: Probability::of((1.0 - tt) / 2.0), tt: Probability::of(tt) };
        config.priors.regions = vec![Region { postcodes: vec!["ZZ9".into()], earthing: Some(usual), fuse: None }];
        let at = |goes: Answer<EarthGoes>| {
            move |answers: &mut Answers| {
                answers.home.postcode = Answer::Known(Postcode::new("ZZ9").unwrap());
                answers.parking.place = Answer::Known(ParkingPlace::Drive);
                answers.route.length = Answer::Known(Length::metres(8.0));
                answers.earthing.conductor_goes = goes;
            }
        };
        for goes in [Answer::NotSure, Answer::NotAsked] {
            let unknown = home_under(&config, at(goes));
            assert_eq!(values(&unknown, "earthing")[0], "TT");
            assert_eq!(fact(&unknown, "earthing").known_by, KnownBy::Assumed);
            assert!(has(&unknown, "earthing-unknown") && !has(&unknown, "tt-electrode"));
            assert_eq!(chosen(&unknown, "earthing"), "open-pen-device-and-prove-the-electrode");
            assert_eq!(stated(&unknown, "open-pen-because"), "earthing-unknown");
            assert!(line(&unknown, "open-pen").is_some() && line(&unknown, "electrode").is_some());
            assert_eq!(wanted(&unknown, Item::OpenPenDevice), Some(1.0), "in every case");
            let electrode = [Item::ProveElectrode, Item::EarthElectrode].map(|item| wanted(&unknown, item).unwrap());
            assert!((electrode.iter().sum::<f64>() - tt).abs() < 1e-6, "{electrode:?}");
            // Its cost moves the whole band, low end and high end.
            let mut free = config.clone();
            free.charge_points.iter_mut().for_each(|point| point.open_pen_sensing = true);
            let (with, without) = (unknown.band.unwrap(), home_under(&free, at(goes)).band.unwrap());
            assert!(with.low > without.low && with.high > without.high, "{with:?} {without:?}");

            let all = working(&said(at(goes)), &config);
            let of = |name: &str| all.iter().find(|figure| figure.figure == name).unwrap();
            let measure = of("earthing measure");
            assert!(measure.formula.contains("not known: decided as for PME"), "{}", measure.formula);
            assert_eq!(measure.value, "open pen device and prove the electrode");
            let steps = &of("earth fault loop impedance").steps;
            assert!(
                steps.iter().any(|step| step.name == "Ze as declared, TT" && step.value.contains("assumed")),
                "{steps:?}"
            );
        }
        let seen = home_under(&config, at(Answer::Known(EarthGoes::Rod)));
        assert_eq!((chosen(&seen, "earthing"), line(&seen, "open-pen-because")), ("prove-the-electrode", None));
        assert_eq!(wanted(&seen, Item::OpenPenDevice), None, "an electrode that was seen needs none");
    }
}

/// Clamps not seen is not bonding absent: probable, priced as an event.
#[test]
fn clamps_not_seen_is_not_bonding_absent() {
    let seen = home(|answers| {
        answers.earthing.gas_pipe = Answer::Known(Pipe::Metal);
        answers.earthing.gas_clamp = Answer::Known(false);
    });
    assert_eq!(values(&seen, "gas-bonding").len(), 2);
    let probability = wanted(&seen, Item::BondGas).unwrap();
    assert!(probability > 0.0 && probability < 1.0, "an event: {probability}");
    assert!(has(&seen, "bonding-not-seen"));
}

/// What else of metal comes in from the ground is bonded too: oil, LPG, structural steel, each with a conductor of its own.
#[test]
fn oil_lpg_and_structural_steel_are_bonded_too() {
    use presurvey::answers::{OtherMetal, Set};
    let with = |metal: &[OtherMetal], clamp| {
        home(|answers| {
            answers.earthing.other_metal = Answer::Known(Set::of(metal));
            answers.earthing.other_clamp = Answer::Known(clamp);
        })
    };
    let bare = with(&[OtherMetal::Oil, OtherMetal::Steel], false);
    let line = bare.work.iter().find(|line| line.item == Item::BondOther).unwrap();
    assert!(line.probability.get() > 0.3 && line.probability.get() < 1.0, "an event");
    assert_eq!(line.quantity.get(), 2.0);
    assert!(has(&bare, "bonding-not-seen"));
    assert_eq!(wanted(&with(&[OtherMetal::Lpg], true), Item::BondOther), None);
    assert_eq!(wanted(&with(&[], false), Item::BondOther), None);
    let unsaid = wanted(&home(|_| {}), Item::BondOther).unwrap();
    assert!(unsaid > 0.0 && unsaid < 0.1, "seldom, where nobody said: {unsaid}");
}
