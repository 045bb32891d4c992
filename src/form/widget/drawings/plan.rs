//! The plan: a small line drawing of this home that grows with the answers.

use crate::widget::el::{El, drawing, el, path};
use crate::widget::speech::Speech;
use model::answers::{Along, Answers, HomeKind, MeterPlace, ParkingPlace};
use wording::form as words;

/// A car from the side.
const CAR: &str = "M218 100h-4v-12l14-4 12-14h34l14 14 12 4v12h-6 M236 100h44 M222 100a7 7 0 0 1 14 0a7 7 0 0 1-14 0 M280 100a7 7 0 0 1 14 0a7 7 0 0 1-14 0";

/// The ground with a house on it; below, with a block of flats.
const HOUSE: &str = "M4 104H316 M24 104V48L78 14L132 48V104";
const FLAT: &str = "M4 104H316 M24 104V8H132V104 M24 44H132";

/// A drawing of this home in a few lines; what was not answered is not drawn.
#[must_use]
pub fn plan(answers: &Answers, speech: &Speech) -> El {
    let parking = answers.parking.place.known().copied();
    let along = answers.route.mostly.known().copied();
    let label = |x, y, text| el("text").class("small").set("x", x).set("y", y).text(text);
    // The cable's route, by what it mostly runs along: through the house, on its wall, along the fence, or under ground.
    let way = match along {
        Some(Along::Inside) => Some(("M90 84H134V78", "line run")),
        Some(Along::LoftOrFloor) => Some(("M84 74V48H134V62", "line run")),
        Some(Along::OutsideWall) => Some(("M84 92V98H134V78", "line run")),
        Some(Along::Fence) => Some(("M90 88H206", "line run")),
        Some(Along::SoftGround | Along::Paving) => Some(("M84 92V112H206V92", "line run buried")),
        None => None,
    };
    // A charge point that is fed from the garage's own board has its cable begin there.
    let at_garage = parking == Some(ParkingPlace::DetachedGarage) && answers.outbuilding.board_there.is(true);
    let way = if at_garage { way.map(|_| ("M206 82V90H190V82", "line run")) } else { way };
    let flat = answers.home.kind.known() == Some(&HomeKind::Flat);
    let far = matches!(along, Some(Along::Fence | Along::SoftGround | Along::Paving));
    let (point, (x, y)) = match (at_garage, far) {
        (true, _) => ("M186 66h8v16h-8z", ("136", "42")),
        (_, true) => ("M202 74h8v16h-8z", ("176", "52")),
        _ => ("M130 62h8v16h-8z", ("142", "56")),
    };
    let mut plan = drawing("plan", "0 0 320 132", speech.say(words::PLAN_TITLE), speech.say(words::PLAN_TEXT))
        .with(path("line", if flat { FLAT } else { HOUSE }.into()));
    // The route begins at the board, so the board is drawn with it.
    if way.is_some() || !answers.board.protection.is_not_asked() {
        let (board, (x, y)) =
            if at_garage { ("M200 66h12v16h-12z", ("216", "54")) } else { ("M76 74h14v18h-14z", ("68", "68")) };
        plan = plan.with(path("line tint", board.into())).with(label(x, y, speech.say(words::PLAN_BOARD)));
    }
    if let Some(place) = answers.meter.place.known() {
        let meter = if *place == MeterPlace::OutsideBox { "M14 78h10v16h-10z" } else { "M30 78h10v16h-10z" };
        plan = plan.with(path("line", meter.into())).with(label("4", "118", speech.say(words::PLAN_METER)));
    }
    if let Some((line, class)) = way {
        plan = plan.with(path(class, line.into())).with(path("line tint", point.into())).with(label(
            x,
            y,
            speech.say(words::PLAN_POINT),
        ));
    }
    match parking {
        Some(ParkingPlace::AttachedGarage) => plan = plan.with(path("line", "M132 62H250V104".into())),
        Some(ParkingPlace::DetachedGarage) => plan = plan.with(path("line", "M198 104V58H306V104".into())),
        _ => {}
    }
    if parking.is_some() {
        plan = plan.with(path("line", CAR.into())).with(label("250", "124", speech.say(words::PLAN_CAR)));
    }
    plan
}
