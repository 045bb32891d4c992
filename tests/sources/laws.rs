//! What holds of every route and load, through the register of figures.

use crate::{number, work};
use presurvey::figures::Working;
use proptest::prelude::*;

const ALONG: [&str; 6] = ["inside", "loft-or-floor", "outside-wall", "fence", "soft-ground", "paving"];

/// Size of a cable as a number; none where no size passes.
fn size(working: &Working) -> Option<f64> {
    working.number
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_longer_route_never_needs_a_smaller_cable_nor_drops_less(
        stretches in prop::collection::vec((0..6_usize, 0.0..60.0_f64), 1..5),
        at in 0..4_usize,
        more in 0.0..200.0_f64,
        amps in 6..40_u32,
        arrangement in prop::sample::select(vec!["tn-c-s", "tn-s", "tt"]),
        device: bool,
    ) {
        let route = |stretches: &[(usize, f64)]| {
            let each: Vec<String> = stretches.iter().map(|(along, metres)| format!("{}:{metres:.3}m", ALONG[*along])).collect();
            each.join(",")
        };
        let mut longer = stretches.clone();
        let at = at % longer.len();
        longer[at].1 += more;
        let device = if device { "yes" } else { "no" };
        let choose = |stretches: &[(usize, f64)]| {
            let given = format!("current={amps}A arrangement={arrangement} residual-device={device} route={}", route(stretches));
            work("cable-size", &given).unwrap()
        };
        let (short, long) = (size(&choose(&stretches)), size(&choose(&longer)));
        prop_assert!(long.is_none() || short.is_some_and(|short| short <= long.unwrap()), "{short:?} {long:?}");
        for fixed in [6, 10, 16] {
            let drop = |stretches: &[(usize, f64)]| {
                number("voltage-drop", &format!("current={amps}A size={fixed}mm2 route={}", route(stretches)))
            };
            prop_assert!(drop(&stretches) <= drop(&longer) + 1e-12);
        }
    }

    #[test]
    fn more_load_never_leaves_more_headroom(fuse in 40..120_u32, demand in 0.0..120.0_f64, more in 0.0..60.0_f64) {
        let at = |name: &str, demand: f64| number(name, &format!("fuse={fuse}A demand={demand:.4}A{}", if name == "headroom" { "" } else { " current=32A" }));
        prop_assert!(at("headroom", demand + more) <= at("headroom", demand));
        prop_assert!(at("fixed-limit", demand + more) <= at("fixed-limit", demand));
    }

    #[test]
    fn more_of_anything_never_lowers_the_maximum_demand(
        each in prop::collection::vec(0.0..50.0_f64, 1..5), more in 0.0..50.0_f64,
        key in prop::sample::select(vec!["lighting", "heating", "cooking", "showers", "in-full", "sockets", "charge-points"]),
    ) {
        let list = |each: &[f64]| each.iter().map(|amps| format!("{amps:.4}A")).collect::<Vec<_>>().join(",");
        let mut another = each.clone();
        another.push(more);
        let mut larger = each.clone();
        larger[0] += more;
        let total = |each: &[f64]| number("maximum-demand", &format!("{key}={}", list(each)));
        prop_assert!(total(&another) >= total(&each) - 1e-9);
        prop_assert!(total(&larger) >= total(&each) - 1e-9);
    }

    #[test]
    fn a_hotter_place_or_more_company_never_carries_more(a in 20.0..55.0_f64, warmer in 0.0..20.0_f64, grouped in 1..9_u32, size in prop::sample::select(vec![6, 10, 16])) {
        let carries = |temperature: f64, grouped: u32| {
            number("cable-capacity", &format!("size={size}mm2 ambient={temperature:.3}C grouped={grouped}"))
        };
        let hot = (a + warmer).min(55.0);
        prop_assert!(carries(hot, grouped) <= carries(a, grouped));
        prop_assert!(carries(a, grouped + 1) <= carries(a, grouped));
    }
}
