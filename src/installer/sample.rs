//! Invented samples for this crate's tests.

use super::ago::Clock;
use super::api::{Agreement, Detail, SignedIn};
use engine::assessment::{
    Band, BeforeVat, BillLine, BillUnit, Complexity, Gate, Gatekeeper, KnownBy, MayApply, Open, Raised, Reason,
    ShownFact, ShownValue, assess,
};
use engine::flags::Weight;
use model::answers::Answers;
use model::config::{GrantFor, Item, ThreeMinutes, demo_config};
use model::units::{Minutes, Pence, Probability, Ratio};
use record::enquiry::{CURRENT_VERSION, Contact, Enquiry, Envelope, Payload, Photo, PhotoPlace, Reach, Reference};

/// A Tuesday in summer, where local time is one hour ahead of UTC.
pub(crate) fn clock() -> Clock {
    Clock { now: "2026-07-14T12:00:00Z".parse().unwrap(), ahead: 60 }
}

/// Somebody who may do everything.
pub(crate) fn owner() -> SignedIn {
    SignedIn { name: "owner".into(), role: "owner".into() }
}

/// Somebody who may neither delete nor export.
pub(crate) fn colleague() -> SignedIn {
    SignedIn { name: "sam".into(), role: "colleague".into() }
}

/// An invented enquiry that has some of everything a page can show.
pub(crate) fn detail() -> Detail {
    let json = r#"{"hazard":{"signs":[]},"home":{"postcode":"ZZ1 1AA","kind":"terrace","tenure":"not-sure"},
        "meter":{"fuse_carriers":1,"head_conductors":4},"route":{"length":{"value":8,"unit":"paces"}}}"#;
    let answers: Answers = serde_json::from_str(json).unwrap();
    let mut assessment = assess(&answers, &demo_config());
    assessment.complexity = Complexity::DependsOnOthers;
    assessment.reasons = vec![Reason::SomebodyElseFirst, Reason::Digging];
    assessment.gates = vec![
        Gate {
            who: Gatekeeper::NetworkOperator,
            probability: Probability::of(0.85),
            counts: true,
            on_paper: false,
            why: vec!["a looped supply".into()],
            wait: "weeks".into(),
            wait_source: String::new(),
        },
        Gate {
            who: Gatekeeper::Landlord,
            probability: Probability::of(0.1),
            counts: false,
            on_paper: false,
            why: vec!["tenure not known".into()],
            wait: "days".into(),
            wait_source: String::new(),
        },
    ];
    assessment.band = Some(Band {
        low: Pence(140_000),
        likely: Pence(190_000),
        high: Pence(310_000),
        vat: Pence(31_667),
        charge_point: Pence(62_400),
        plainest: Pence(90_000),
        before_vat: Some(BeforeVat {
            low: Pence(116_000),
            likely: Pence(158_333),
            high: Pence(259_000),
            rate: Ratio::of(0.2),
            dated: false,
        }),
    });
    assessment.grants = vec![MayApply {
        name: "an invented grant".into(),
        who: GrantFor::FlatOrRented,
        most: Pence(50_000),
        likely_after: Some(Pence(140_000)),
        read: jiff::civil::date(2026, 11, 26),
        source: "an invented source".into(),
    }];
    assessment.flags = vec![
        Raised {
            code: "looped-supply".into(),
            weight: Weight::SettleBeforeBooking,
            probability: Probability::of(0.85),
            evidence: vec!["one fuse carrier, four conductors".into()],
            source: "common practice, no source".into(),
            usual: false,
        },
        Raised {
            code: "never-heard-of-it".into(),
            weight: Weight::WorthKnowing,
            probability: Probability::CERTAIN,
            evidence: vec!["something seen".into()],
            source: "invented".into(),
            usual: false,
        },
    ];
    assessment.work = vec![BillLine {
        item: Item::CableInside,
        probability: Probability::of(0.6),
        quantity: Ratio::of(8.0),
        unit: BillUnit::Metre,
        minutes: ThreeMinutes { low: Minutes::of(40.0), likely: Minutes::of(75.0), high: Minutes::of(120.0) },
        labour: Pence(17_000),
        materials: Pence(4_050),
        price: Pence(21_050),
        expected: Pence(12_630),
        day: 1,
        after: vec![Item::DrillWall],
        set_at: Vec::new(),
    }];
    assessment.assumed = vec![Item::CableInside];
    assessment.open = vec![Open { question: "tenure".into(), narrows_by: Pence(12_000), settles: true }];
    assessment.facts = vec![ShownFact {
        fact: "main-fuse".into(),
        known_by: KnownBy::Assumed,
        from: vec!["age".into()],
        values: vec![
            ShownValue { value: "100 A".into(), probability: Probability::of(0.65) },
            ShownValue { value: "80 A".into(), probability: Probability::of(0.35) },
        ],
    }];
    let photo =
        |digit: &str, place| Photo { sha256: digit.repeat(64), place, width: 800, height: 600, marks: Vec::new() };
    let payload = Payload {
        contact: Contact {
            name: "Invented Person".into(),
            telephone: "01632 960 000".into(),
            email: "invented@example.invalid".into(),
            reach: Some(Reach::Telephone),
            when: "evenings".into(),
            note: "A note <b>as typed</b>".into(),
            language: "pl".into(),
            address: String::new(),
            supply_number: String::new(),
            consent: true,
            offers: false,
            copy: false,
        },
        as_of: assessment.as_of,
        engine: assessment.engine.clone(),
        config: assessment.config.clone(),
        answers,
        photos: vec![photo("a", PhotoPlace::Meter), photo("b", PhotoPlace::Board)],
        assessment: Some(assessment.clone()),
    };
    Detail {
        client_key: "0123456789abcdef0123456789abcdef".into(),
        handled: false,
        enquiry: Enquiry {
            version: CURRENT_VERSION,
            envelope: Envelope {
                installer: "demo".into(),
                client_key: "0123456789abcdef0123456789abcdef".into(),
                deletion_hash: "c".repeat(64),
                addition_hash: None,
                photo_sizes: vec![1000, 2000],
                reference: Reference::read("BCDF-2346"),
                received: Some("2026-07-14T08:41:00Z".into()),
                keep_until: None,
            },
            payload,
        },
        own_assessment: Some(assessment),
        agreement: Agreement::Equal,
        corrected: None,
        photos_arrived: vec!["a".repeat(64)],
        papers: model::config::demo_setup().papers(),
        job: None,
    }
}
