//! Every question, in the order in which a homeowner walks through the home: the core first, then the rest, place by place.
//!
//! A line says what the question is called, which field of the answers it fills, when it is asked, and `on` which screen of the form it
//! stands; `last` puts it below the others of its screen.

use super::when::{
    always, at_an_outbuilding, bought_one, circuit_there, cooks_electrically, described_board_meant, drills,
    garage_stands_apart, has_hot_tub, has_other_metal, has_several_boards, has_shower, has_test_buttons,
    has_two_showers, hazard_passes, hazard_seen, heats_electrically, limit_set, may_drill, may_feed_back,
    may_have_battery, may_have_builders_cable, may_have_gas_pipe, may_have_panels, may_have_water_pipe,
    may_pass_a_farm, no_hazard_seen, off_street, operator_answered, safe, swaps, uses_much, wants_data_link,
    wants_lead,
};
use super::{On, Place, Question};
use crate::answers::topics;

macro_rules! catalogue {
    ($(#[$doc:meta])* $name:ident: $($core:ident $place:ident { $($id:literal $topic:ident.$field:ident $asked:ident $(on $screen:literal $($last:ident)?)?;)+ })+) => {
        $(#[$doc])*
        pub static $name: &[Question] = &[$($(Question {
            id: $id,
            path: concat!(stringify!($topic), ".", stringify!($field)),
            place: Place::$place,
            screen: catalogue!(@screen $($screen $($last)?)?),
            core: catalogue!(@ $core),
            kind: topics::$topic::accessors::$field.kind,
            asked: $asked,
            get: topics::$topic::accessors::$field.get,
            set: topics::$topic::accessors::$field.set,
        },)+)+];
    };
    (@screen) => { None };
    (@screen $screen:literal) => { Some(On { screen: $screen, last: false }) };
    (@screen $screen:literal last) => { Some(On { screen: $screen, last: true }) };
    (@ core) => { always };
    (@ sometimes) => { uses_much };
    (@ rest) => { |_| false };
}

catalogue! {
    /// Every question of the form.
    CATALOGUE:
    core First {
        "hazard" hazard.signs always on "hazard" last;
        "hazard-when" hazard.when hazard_passes on "hazard";
        "hazard-place" hazard.place hazard_seen on "hazard";
    }
    core Indoors {
        "postcode" home.postcode always on "start";
        "other-point" loads.other_point no_hazard_seen on "start";
        "builders-cable" route.builders_cable may_have_builders_cable on "start";
        "parking" parking.place no_hazard_seen on "parking";
        "tenure" home.tenure no_hazard_seen on "start";
        "home" home.kind no_hazard_seen on "home";
        "age" home.age no_hazard_seen on "home";
        "showers" loads.showers no_hazard_seen on "kitchen";
        "cooking" loads.cooking no_hazard_seen on "kitchen";
        "heating" loads.heating no_hazard_seen on "heating";
        "hot-tub" loads.hot_tub no_hazard_seen on "heating";
        "solar" loads.solar no_hazard_seen on "sun";
        "battery" loads.battery no_hazard_seen on "sun";
        "follow-solar" wish.follow_solar may_have_panels on "sun";
        "outlet" wish.outlet no_hazard_seen on "wishes";
        "hold-back" wish.hold_back no_hazard_seen on "wishes";
    }
    sometimes Indoors {
        "highest-half-hour" loads.highest_half_hour no_hazard_seen on "half-hour";
    }
    core Drive {
        "board-there" outbuilding.board_there garage_stands_apart on "outbuilding";
        "inlet" parking.inlet no_hazard_seen on "spot";
        "route-length" route.length off_street on "route";
        "route-mostly" route.mostly off_street on "route";
        "wifi-bars" signal.wifi_bars off_street on "spot";
    }
    core Meter {
        "meter-place" meter.place safe on "meter";
        "fuse-carriers" meter.fuse_carriers safe on "carriers";
        "street-cables" meter.street_cables safe on "street";
        "head-conductors" meter.head_conductors safe on "head";
    }
    sometimes Meter {
        "carrier-rating" meter.carrier_rating safe on "rating";
    }
    core Board {
        "protection" board.protection described_board_meant on "board";
        "test-buttons" board.test_buttons described_board_meant on "buttons";
        "spare-ways" board.spare_ways described_board_meant on "ways";
    }
    rest Indoors {
        "old-works" existing.works swaps on "already";
        "circuit-papers" existing.papers circuit_there on "already";
        "same-place" existing.same_place swaps on "already";
        "protected" home.protected no_hazard_seen on "more-home";
        "shower-power" loads.shower_power has_shower on "more-power";
        "second-shower-power" loads.second_shower_power has_two_showers on "more-power";
        "cooking-power" loads.cooking_power cooks_electrically on "more-power";
        "heating-power" loads.heating_power heats_electrically on "more-power";
        "hot-tub-power" loads.hot_tub_power has_hot_tub on "more-power";
        "solar-power" loads.solar_power may_have_panels on "more-solar";
        "battery-power" loads.battery_power may_have_battery on "more-solar";
        "operator-letter" loads.operator_letter may_feed_back on "more-solar";
        "planned" loads.planned no_hazard_seen on "more-power";
        "lead-length" wish.lead_length wants_lead on "more-wishes";
        "holder" wish.holder wants_lead on "more-wishes";
        "steered-by" wish.steered_by no_hazard_seen on "more-wishes";
        "gives-back" wish.gives_back no_hazard_seen on "more-wishes";
        "bought" wish.bought no_hazard_seen on "bought";
        "bought-maker" wish.bought_maker bought_one on "bought";
        "bought-model" wish.bought_model bought_one on "bought";
        "bought-papers" wish.bought_papers bought_one on "bought";
        "cars" parking.cars no_hazard_seen on "more-home";
        "miles" parking.miles_a_day no_hazard_seen on "more-home";
        "car-comes" parking.car_comes no_hazard_seen on "more-home";
    }
    rest Drive {
        "spot-to-car" parking.spot_to_car off_street on "more-drive";
        "gas-meter-distance" earthing.gas_meter_distance off_street on "more-drive";
        "shared-drive" parking.shared_drive off_street on "more-drive";
        "ground" route.ground off_street on "more-drive";
        "overhead-line" route.overhead_line off_street on "more-drive";
        "route-stretches" route.stretches off_street on "stretches";
        "walls" route.walls off_street on "more-route";
        "wall-thickness" route.wall_thickness drills on "more-route";
        "entry" route.entry may_drill on "more-route";
        "buried" route.buried off_street on "more-route";
        "farm" outbuilding.farm may_pass_a_farm on "more-route";
        "data-cable" signal.data_cable off_street on "more-signal";
        "mobile-bars" signal.mobile_bars off_street on "more-signal";
        "router-place" signal.router_place wants_data_link on "more-signal";
    }
    rest Meter {
        "meter-kind" meter.kind safe on "more-meter";
        "switch-after" meter.switch_after safe on "more-meter";
        "meter-to-board" meter.to_board safe on "more-tails";
        "backing" meter.backing safe on "more-tails";
        "earth-goes" earthing.conductor_goes safe on "more-tails";
    }
    rest Board {
        "boards" board.boards safe on "more-board";
        "which-board" board.which has_several_boards on "more-board";
        "board-case" board.case described_board_meant on "more-board";
        "rcd-type" board.rcd_type has_test_buttons on "more-board";
        "surge-device" board.surge_device described_board_meant on "more-board";
        "wall-space" board.wall_space described_board_meant on "more-wall";
        "board-maker" board.maker described_board_meant on "more-wall";
        "report" board.report safe on "more-wall";
        "feed-length" outbuilding.feed_length at_an_outbuilding on "feed";
        "feed-device" outbuilding.feed_device at_an_outbuilding on "feed";
        "feed-size" outbuilding.feed_size at_an_outbuilding on "feed";
    }
    rest Pipes {
        "gas-pipe" earthing.gas_pipe safe on "pipes";
        "gas-clamp" earthing.gas_clamp may_have_gas_pipe on "pipes";
        "water-pipe" earthing.water_pipe safe on "pipes";
        "water-clamp" earthing.water_clamp may_have_water_pipe on "pipes";
        "other-metal" earthing.other_metal safe on "pipes";
        "other-clamp" earthing.other_clamp has_other_metal on "pipes";
    }
}

catalogue! {
    /// The questions that the installer alone answers: from letters, by instrument, or by judging what a homeowner can't.
    INSTALLERS:
    rest Desk {
        "operator-asked-on" operator.asked_on always;
        "operator-answer" operator.answer always;
        "operator-answered-on" operator.answered_on operator_answered;
        "operator-limit" operator.limit limit_set;
        "service-equipment" meter.equipment always;
        "main-conductors" meter.conductors always;
        "circuit-found" existing.circuit circuit_there;
        "signal-level" signal.level off_street;
        "router-distance" signal.router off_street;
        "transfer" signal.transfer off_street;
    }
}
