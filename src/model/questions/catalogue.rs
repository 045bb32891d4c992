//! Every question, in the order in which a stranger would walk: the core first, then the rest, place by place.

use super::when::{
    always, at_an_outbuilding, bought_one, circuit_there, cooks_electrically, described_board_meant, drills,
    garage_stands_apart, has_hot_tub, has_other_metal, has_several_boards, has_shower, has_test_buttons,
    has_two_showers, hazard_passes, hazard_seen, heats_electrically, limit_set, may_drill, may_feed_back,
    may_have_battery, may_have_builders_cable, may_have_gas_pipe, may_have_panels, may_have_water_pipe,
    may_pass_a_farm, no_hazard_seen, off_street, operator_answered, safe, swaps, uses_much, wants_data_link,
    wants_lead,
};
use super::{Place, Question};
use crate::answers::said;

macro_rules! catalogue {
    ($(#[$doc:meta])* $name:ident: $($core:ident $place:ident { $($id:literal $topic:ident.$field:ident $asked:ident;)+ })+) => {
        $(#[$doc])*
        pub static $name: &[Question] = &[$($(Question {
            id: $id,
            path: concat!(stringify!($topic), ".", stringify!($field)),
            place: Place::$place,
            core: catalogue!(@ $core),
            kind: said::$topic::$field.kind,
            asked: $asked,
            get: said::$topic::$field.get,
            set: said::$topic::$field.set,
        },)+)+];
    };
    (@ core) => { always };
    (@ sometimes) => { uses_much };
    (@ rest) => { |_| false };
}

catalogue! {
    /// Every question of the form.
    CATALOGUE:
    core First {
        "hazard" hazard.signs always;
        "hazard-when" hazard.when hazard_passes;
        "hazard-place" hazard.place hazard_seen;
    }
    core Indoors {
        "postcode" home.postcode always;
        "other-point" loads.other_point no_hazard_seen;
        "builders-cable" route.builders_cable may_have_builders_cable;
        "parking" parking.place no_hazard_seen;
        "tenure" home.tenure no_hazard_seen;
        "home" home.kind no_hazard_seen;
        "age" home.age no_hazard_seen;
        "showers" loads.showers no_hazard_seen;
        "cooking" loads.cooking no_hazard_seen;
        "heating" loads.heating no_hazard_seen;
        "hot-tub" loads.hot_tub no_hazard_seen;
        "solar" loads.solar no_hazard_seen;
        "battery" loads.battery no_hazard_seen;
        "follow-solar" wish.follow_solar may_have_panels;
        "outlet" wish.outlet no_hazard_seen;
        "hold-back" wish.hold_back no_hazard_seen;
    }
    sometimes Indoors {
        "highest-half-hour" loads.highest_half_hour no_hazard_seen;
    }
    core Drive {
        "board-there" outbuilding.board_there garage_stands_apart;
        "inlet" parking.inlet no_hazard_seen;
        "route-length" route.length off_street;
        "route-mostly" route.mostly off_street;
        "wifi-bars" signal.wifi_bars off_street;
    }
    core Meter {
        "meter-place" meter.place safe;
        "fuse-carriers" meter.fuse_carriers safe;
        "street-cables" meter.street_cables safe;
        "head-conductors" meter.head_conductors safe;
    }
    sometimes Meter {
        "carrier-rating" meter.carrier_rating safe;
    }
    core Board {
        "protection" board.protection described_board_meant;
        "test-buttons" board.test_buttons described_board_meant;
        "spare-ways" board.spare_ways described_board_meant;
    }
    rest Indoors {
        "old-works" existing.works swaps;
        "circuit-papers" existing.papers circuit_there;
        "same-place" existing.same_place swaps;
        "protected" home.protected no_hazard_seen;
        "shower-power" loads.shower_power has_shower;
        "second-shower-power" loads.second_shower_power has_two_showers;
        "cooking-power" loads.cooking_power cooks_electrically;
        "heating-power" loads.heating_power heats_electrically;
        "hot-tub-power" loads.hot_tub_power has_hot_tub;
        "solar-power" loads.solar_power may_have_panels;
        "battery-power" loads.battery_power may_have_battery;
        "operator-letter" loads.operator_letter may_feed_back;
        "planned" loads.planned no_hazard_seen;
        "lead-length" wish.lead_length wants_lead;
        "holder" wish.holder wants_lead;
        "steered-by" wish.steered_by no_hazard_seen;
        "gives-back" wish.gives_back no_hazard_seen;
        "bought" wish.bought no_hazard_seen;
        "bought-maker" wish.bought_maker bought_one;
        "bought-model" wish.bought_model bought_one;
        "bought-papers" wish.bought_papers bought_one;
        "cars" parking.cars no_hazard_seen;
        "miles" parking.miles_a_day no_hazard_seen;
        "car-comes" parking.car_comes no_hazard_seen;
    }
    rest Drive {
        "spot-to-car" parking.spot_to_car off_street;
        "gas-meter-distance" earthing.gas_meter_distance off_street;
        "shared-drive" parking.shared_drive off_street;
        "ground" route.ground off_street;
        "buried" route.buried off_street;
        "overhead-line" route.overhead_line off_street;
        "route-stretches" route.stretches off_street;
        "walls" route.walls off_street;
        "wall-thickness" route.wall_thickness drills;
        "entry" route.entry may_drill;
        "farm" outbuilding.farm may_pass_a_farm;
        "data-cable" signal.data_cable off_street;
        "mobile-bars" signal.mobile_bars off_street;
        "router-place" signal.router_place wants_data_link;
    }
    rest Meter {
        "meter-kind" meter.kind safe;
        "switch-after" meter.switch_after safe;
        "meter-to-board" meter.to_board safe;
        "backing" meter.backing safe;
        "earth-goes" earthing.conductor_goes safe;
    }
    rest Board {
        "boards" board.boards safe;
        "which-board" board.which has_several_boards;
        "board-case" board.case described_board_meant;
        "rcd-type" board.rcd_type has_test_buttons;
        "surge-device" board.surge_device described_board_meant;
        "wall-space" board.wall_space described_board_meant;
        "board-maker" board.maker described_board_meant;
        "report" board.report safe;
        "feed-length" outbuilding.feed_length at_an_outbuilding;
        "feed-device" outbuilding.feed_device at_an_outbuilding;
        "feed-size" outbuilding.feed_size at_an_outbuilding;
    }
    rest Pipes {
        "gas-pipe" earthing.gas_pipe safe;
        "gas-clamp" earthing.gas_clamp may_have_gas_pipe;
        "water-pipe" earthing.water_pipe safe;
        "water-clamp" earthing.water_clamp may_have_water_pipe;
        "other-metal" earthing.other_metal safe;
        "other-clamp" earthing.other_clamp has_other_metal;
    }
}

catalogue! {
    /// What the installer alone records: by letter, by meter, by looking at what a homeowner can't judge.
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
