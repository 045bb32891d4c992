//! The plan: a small line drawing of the home made from the answers. Nothing is drawn that was not answered.

use crate::said::in_words;
use crate::words;
use engine::design::cable::all_armoured;
use engine::design::laid::laid;
use engine::site::{as_said, said_in_stretches};
use model::answers::{Along, Answers, HomeKind, Inlet, LengthUnit, ParkingPlace};
use model::questions::any_question;
use model::units::{Metres, Ratio};
use std::rc::Rc;
use wording::triage as key;
use yew::prelude::*;

/// The plan's properties.
#[derive(PartialEq, Properties)]
pub struct PlanProps {
    /// The answers to draw.
    pub answers: Rc<Answers>,
    /// The installer's length of a pace in metres.
    pub pace: Ratio,
}

/// The drawing, seen from above: the home on the left, the parked car on the right.
#[component]
pub fn Plan(props: &PlanProps) -> Html {
    let answers = &props.answers;
    let parking = answers.parking.place.known().copied();
    html! {
        <svg class="plan" viewBox="0 0 340 150" role="img" aria-labelledby="plan-title" aria-describedby="plan-long">
            <title id="plan-title">{ words::say(key::PLAN_TITLE) }</title>
            <desc id="plan-long">{ in_a_sentence(answers, props.pace) }</desc>
            { home(answers.home.kind.known().copied()) }
            <path class="line" d="M92 62h18v24H92z M96 68h10 M96 74h10 M96 80h10" />
            <text x="88" y="78" text-anchor="end">{ words::say(key::PLAN_BOARD) }</text>
            if parking != Some(ParkingPlace::Street) {
                { route(answers, props.pace) }
                <path class="line tint" d="M216 66h10v16h-10z" />
            }
            if let Some(place) = parking {
                { standing(place, answers.parking.inlet.known().copied()) }
            }
        </svg>
    }
}

/// The home's outline; the walls run on where a neighbour adjoins.
fn home(kind: Option<HomeKind>) -> Html {
    let outline = "M24 26H136V124H24z";
    let neighbours = match kind {
        Some(HomeKind::Terrace | HomeKind::Flat) => "M24 26V4 M136 26V4 M24 124V146 M136 124V146",
        Some(HomeKind::Semi) => "M24 26V4 M136 26V4",
        Some(HomeKind::Detached) | None => "",
    };
    html! {
        <>
            <path class="line wall" d={outline} />
            <path class="line" d={neighbours} />
        </>
    }
}

/// The cable's route from the board through the wall to the charge point; dashed where it lies in the ground.
fn route(answers: &Answers, pace: Ratio) -> Html {
    let exact = said_in_stretches(answers).map(|stretches| laid(as_said(stretches, pace), all_armoured(answers)));
    let in_ground = match exact {
        Some(laid) => laid.dug > Metres::ZERO,
        None => answers.route.mostly.is(Along::Paving) || answers.route.mostly.is(Along::SoftGround),
    };
    let class = if in_ground { "line cable buried" } else { "line cable" };
    let roughly = answers.route.length.known().map(|length| match length.unit {
        LengthUnit::Metres => format!("{} m", length.value),
        _ => format!("{} m", libm::round(length.in_metres(pace).get())),
    });
    let length = exact.map(|laid| format!("{} m", libm::round(laid.total.get() * 10.0) / 10.0)).or(roughly);
    html! {
        <>
            <path class={class} d="M110 74H216" />
            if let Some(length) = length {
                <text x="176" y="66" text-anchor="middle">{ length }</text>
            }
        </>
    }
}

/// The parking place, and the car with its charging inlet.
fn standing(place: ParkingPlace, inlet: Option<Inlet>) -> Html {
    let ground = match place {
        ParkingPlace::Drive => "M234 30V132 M318 30V132",
        ParkingPlace::AttachedGarage => "M136 34H318V128H136 M318 50V112",
        ParkingPlace::DetachedGarage => "M206 34H318V128H206z",
        ParkingPlace::SharedCarPark => "M234 24V124H318V24 M234 138V128 M318 138V128",
        ParkingPlace::Street => "M226 6V144 M326 6V144",
    };
    let car = "M254 48q0-10 10-10h24q10 0 10 10v62q0 8-10 8h-24q-10 0-10-8z M258 62h36 M258 98h36";
    let spot = match inlet {
        Some(Inlet::Front) => Some((276, 38)),
        Some(Inlet::FrontLeft) => Some((254, 54)),
        Some(Inlet::FrontRight) => Some((298, 54)),
        Some(Inlet::RearLeft) => Some((254, 106)),
        Some(Inlet::RearRight) => Some((298, 106)),
        Some(Inlet::Rear) => Some((276, 118)),
        Some(Inlet::NotKnownYet) | None => None,
    };
    html! {
        <>
            <path class="line" d={ground} />
            <path class="line" d={car} />
            if let Some((x, y)) = spot {
                <circle class="line spot" cx={x.to_string()} cy={y.to_string()} r="4" />
            }
        </>
    }
}

/// The drawing in a sentence, from the same answers.
fn in_a_sentence(answers: &Answers, pace: Ratio) -> String {
    let said: Vec<String> = ["home", "parking", "route-length", "route-mostly", "route-stretches", "inlet"]
        .into_iter()
        .filter_map(any_question)
        .filter(|question| question.id != "route-stretches" || !question.is_open(answers))
        .map(|question| {
            let given = (question.get)(answers);
            let places = [("question", &*words::question(question.id)), ("answer", &*in_words(question, &given, pace))];
            words::fill(key::QUESTION_AND_ANSWER, &places)
        })
        .collect();
    said.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::METRES_IN_A_PACE;

    #[test]
    fn a_route_said_stretch_by_stretch_is_in_the_sentence_and_a_rough_one_says_no_more_than_before() {
        let said = |route: &str| {
            let answers: Answers = serde_json::from_str(&format!("{{\"route\":{route}}}")).unwrap();
            in_a_sentence(&answers, METRES_IN_A_PACE)
        };
        let rough = said(r#"{"length":{"value":8,"unit":"metres"},"mostly":"fence"}"#);
        assert!(!rough.contains("stretch by stretch"), "{rough}");
        let exact = said(r#"{"stretches":[{"along":"fence","length":{"value":8.5,"unit":"metres"}}]}"#);
        assert!(exact.contains("stretch by stretch") && exact.contains("8.5 m"), "{exact}");
    }
}
