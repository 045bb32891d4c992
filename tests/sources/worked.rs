//! Worked examples with their published answers, through the register of figures.
//!
//! Old books work with 240 V or without Cmin: their own constants are given as arguments. Where ours differs, `DIFFERENCE:` says by
//! which of the source's own assumptions; never by a wider tolerance.

use crate::{close, number, step, work};

/// Source: T. Linsley, *Basic Electrical Installation Work* (Newnes), p. 250–251, Example 1: 230 V, 1.15 Ω, 30 A semi-enclosed fuse,
/// 0.4 s, k 115: 200 A, 1.10 mm²; 1.5 mm² accepted.
#[test]
fn w1_adiabatic_of_a_ring_circuit() {
    close(number("fault-current", "impedance=1.15ohm"), 200.0, 1e-9);
    close(number("adiabatic", "current=200A time=0.4s k=115"), 1.10, 0.01);
    assert!(
        work("adiabatic", "current=200A time=0.4s k=115 conductor=1.5mm2").unwrap().value.contains("1.5 mm² is enough")
    );
}

/// Source: Linsley, p. 297–298: 12 kW at 230 V, a 13 A socket in the control unit: 52.17 A, 27.65 A after diversity.
#[test]
fn w2_a_cooker() {
    close(number("cooking-demand", "power=12kW cooking-socket=yes"), 27.65, 0.01);
    close(step("cooking-demand", "power=12kW cooking-socket=yes", "connected"), 52.17, 0.01);
    close(number("load-current", "power=12kW"), 52.17, 0.01);
}

/// Source: J. Whitfield, *The Electricians Guide*, 5th ed. (EPA Press), Example 6.2: 14 kW at 240 V with a socket: 58.3 A, 29.5 A
/// (the answer from memory, its own arithmetic).
#[test]
fn w3_a_cooker_at_240_volts() {
    close(number("cooking-demand", "power=14kW voltage=240V cooking-socket=yes"), 29.5, 0.05);
    close(step("cooking-demand", "power=14kW voltage=240V cooking-socket=yes", "connected"), 58.3, 0.05);
}

/// Source: SELECT, reader's question "What is maximum demand and diversity": 44.8 + 7.92 + 16 + 21.6 = 90.32 A, over a 60 A fuse.
#[test]
fn w4_a_whole_house_by_device_ratings() {
    let house =
        "lighting=6A,6A sockets=32A,32A in-full=16A cooking=32A cooking-socket=yes fuse=60A basis=device-ratings";
    close(number("maximum-demand", house), 90.32, 0.005);
    for (line, published) in [("socket circuits", 44.8), ("lighting", 7.92), ("in full", 16.0), ("cooking", 21.6)] {
        close(step("maximum-demand", house, line), published, 0.005);
    }
    let said = work("maximum-demand", house).unwrap().value;
    assert!(said.contains("device ratings") && said.contains("over the main fuse"), "{said}");
    // Not published: a 32 A charge point without load control beside it.
    close(number("maximum-demand", &format!("{house} charge-points=32A")), 122.32, 0.005);
}

/// Source: IET EngX forum, "It and Iz": In 32 A, Ca 0.87, two-core 70 °C, method C, 36 and 46 A: It ≥ 36.78 A, 6 mm², Iz 40.02 A.
#[test]
fn w5_one_factor() {
    close(number("needed-capacity", "rating=32A ambient-factor=0.87"), 36.78, 0.01);
    close(number("needed-capacity", "rating=32A ambient=40C"), 36.78, 0.01);
    let given = "rating=32A cable=multicore method=C ambient=40C";
    close(number("smallest-by-capacity", given), 6.0, 0.0);
    close(step("smallest-by-capacity", given, "Iz"), 40.02, 0.01);
    // 4 mm² fails by 0.78 A.
    assert!(
        work("cable-capacity", "size=4mm2 cable=multicore ambient=40C rating=32A")
            .unwrap()
            .value
            .contains("In is over Iz")
    );
}

/// Source: globalspec CR4, "Calculating Earth Loop Impedance": 30 m of 6/2.5 mm², × 1.2, Ze 0.15 Ω, limit 1.92 Ω: R1 + R2 0.38, passes.
/// DIFFERENCE: it prints Zs 0.52 Ω, cut off, not rounded: 0.15 + 0.3776 is 0.5276.
#[test]
fn w6_a_shower_circuit() {
    let given = "external=0.15ohm length=30m line=6mm2 protective=2.5mm2 limit=1.92ohm";
    close(number("loop-impedance", given), 0.53, 0.005);
    close(step("loop-impedance", given, "R1 + R2, warm"), 0.38, 0.005);
    assert!(work("loop-impedance", given).unwrap().value.contains("the breaker disconnects"));
}

/// Source: uk.d-i-y, 14 Feb 2019: 32 A over 30 m of armoured 4 or 6 mm², clipped; TN-S 0.8 Ω, core about 3 and armour 7 mΩ/m, B32.
#[test]
fn w7_a_garage_supply_four_checks() {
    for (size, capacity) in [(4, 38.0), (6, 49.0)] {
        close(number("cable-capacity", &format!("size={size}mm2 cable=armoured-70")), capacity, 0.0);
    }
    let drop = |size, share| format!("length=30m size={size}mm2 cable=armoured-70 current=32A share={share}");
    close(number("voltage-drop", &drop(4, "3%")), 10.5, 0.1);
    close(number("voltage-drop", &drop(6, "3%")), 7.0, 0.05);
    let within = |given: &str| !work("voltage-drop", given).unwrap().value.contains("over");
    assert!(!within(&drop(4, "3%")) && within(&drop(4, "5%")));
    assert!(!within(&drop(6, "3%")), "a near miss: 7.008 V against 6.9 V");
    let loop_given = "external=0.8ohm per-metre=10mohm/m warm=1 length=30m rating=32A";
    close(number("loop-impedance", loop_given), 1.1, 1e-9);
    close(step("loop-impedance", loop_given, "the breaker's limit"), 1.37, 0.005);
    assert!(work("loop-impedance", loop_given).unwrap().value.contains("the breaker disconnects"));
    // The post's adiabatic check with its own current.
    close(number("adiabatic", "current=253A time=0.1s k=115"), 0.7, 0.005);
    // DIFFERENCE: it says 230 V over 1.1 Ω is 253 A; it is 209.1 A, and so 0.575 mm².
    close(number("fault-current", "impedance=1.1ohm"), 209.1, 0.01);
    close(number("adiabatic", "current=209.1A time=0.1s k=115"), 0.575, 0.0005);
}

/// Source: a UK cable distributor's page "Voltage drop calculations": 100 A, 150 m, 1.1 mV/A/m: 16.5 V; limit 2.5 % of 415 V as printed
/// 10.5 V (10.375); needed 0.7 mV/A/m.
#[test]
fn w8_three_phases() {
    let given = "length=150m current=100A drop=1.1mV/A/m voltage=415V share=2.5%";
    close(number("voltage-drop", given), 16.5, 0.01);
    assert!(work("voltage-drop", given).unwrap().value.contains("over"));
    close(number("most-voltage-drop", "allowed=10.5V current=100A length=150m"), 0.7, 0.01);
}

/// Source: IET EngX forum, "Calculation of earth fault loop impedance": A 0.021 and 0.022 Ω: 0.030; B 0.061 and 0.026 Ω: 0.066.
#[test]
fn w9_resistance_and_reactance() {
    close(number("impedance", "resistance=0.021ohm reactance=0.022ohm"), 0.030, 0.0005);
    close(number("impedance", "resistance=0.061ohm reactance=0.026ohm"), 0.066, 0.0005);
    // The same in parts: a transformer and two legs.
    close(number("impedance", "resistance=21mohm,40mohm reactance=22mohm,4mohm"), 0.066, 0.0005);
}

/// Source: a design submission on electriciansforums.net, "Can we use the armour of an SWA as the cpc": 1,966 A, 0.1 s, k 46: 13.5 mm²;
/// armour 131 mm² adequate.
#[test]
fn w10_adiabatic_of_armour() {
    close(number("material-factor", "conductor=armour bears=90C"), 46.0, 0.0);
    close(number("adiabatic", "current=1966A time=0.1s k=46"), 13.5, 0.02);
    assert!(work("adiabatic", "current=1966A time=0.1s k=46 conductor=131mm2").unwrap().value.contains("is enough"));
}

/// Source: electriciansforums.net, "The maximum length of cable permissible": 36.2 mΩ/m, limit 7.17 Ω measured, Ze 0.45 Ω: 185 m.
/// DIFFERENCE: the practice-test book prints 498 m: with the 5 s limit of 18.5 Ω (from memory) and no factor for a cold measurement,
/// the wrong limit for lighting.
#[test]
fn w11_the_longest_run_by_the_fault_loop() {
    close(number("measured-limit", "limit=9.58ohm factor=0.75"), 7.17, 0.015);
    let given = |limit: &str| format!("limit={limit} external=0.45ohm per-metre=36.2mohm/m warm=1");
    close(number("longest-run-by-loop-impedance", &given("7.17ohm")), 185.0, 1.0);
    close(number("longest-run-by-loop-impedance", &given("18.5ohm")), 498.0, 1.0);
    // The same from the conductors: 1 mm² twin-and-earth with 1 mm² protective conductor.
    let conductors = "limit=7.17ohm external=0.45ohm line=1mm2 protective=1mm2 warm=1";
    close(number("longest-run-by-loop-impedance", conductors), 185.0, 1.0);
}

/// Source: uk.d-i-y (16th edition era): 45 A in 10 mm² twin-and-earth, 4 % of 240 V: 49 m.
#[test]
fn w12_the_longest_run_by_voltage_drop() {
    close(number("longest-run-by-voltage-drop", "current=45A size=10mm2 voltage=240V share=4%"), 49.0, 0.6);
    // Today's 5 % of 230 V, computed: 58.1 m.
    close(number("longest-run-by-voltage-drop", "current=45A size=10mm2"), 58.1, 0.05);
}

/// Source: NICEIC *Connections*, spring 2015, p. 61, Table 1: 32 A BS 88-3 at 0.4 s, 0.91 Ω (from memory) × 0.8: 0.72 Ω, rounded down.
#[test]
fn w13_a_limit_is_never_rounded_up() {
    close(number("measured-limit", "limit=0.91ohm"), 0.72, 1e-9);
}

/// Not published: worked by the formula from the tables. 32 A, 20 m, 6 mm² at 7.3 mV/A/m.
#[test]
fn f1_voltage_drop_in_six_square_millimetres() {
    let given = "length=20m size=6mm2 current=32A";
    close(number("voltage-drop", given), 4.672, 1e-9);
    assert!(work("voltage-drop", given).unwrap().value.contains("2.03 %"));
}

/// Not published: the same in 10 mm² at 4.4 mV/A/m.
#[test]
fn f2_voltage_drop_in_ten_square_millimetres() {
    let given = "length=20m size=10mm2 current=32A";
    close(number("voltage-drop", given), 2.816, 1e-9);
    assert!(work("voltage-drop", given).unwrap().value.contains("1.22 %"));
}

/// Not published: TN-C-S 0.35 Ω, 20 m of 6/2.5 mm², × 1.2.
#[test]
fn f3_a_loop_that_both_types_disconnect() {
    let given = "arrangement=tn-c-s length=20m line=6mm2 rating=32A";
    close(number("loop-impedance", given), 0.602, 0.0005);
    for breaker in ["B", "C"] {
        assert!(
            work("loop-impedance", &format!("{given} breaker={breaker}")).unwrap().value.contains("the breaker"),
            "{breaker}"
        );
    }
}

/// Not published: TN-S 0.8 Ω, 40 m of 6/2.5 mm²: Type B passes by 0.07 Ω, Type C relies on the residual-current device.
#[test]
fn f4_a_loop_that_a_type_c_breaker_does_not_disconnect() {
    let given = "arrangement=tn-s length=40m line=6mm2 rating=32A residual=30mA";
    close(number("loop-impedance", given), 1.304, 0.0005);
    assert!(work("loop-impedance", given).unwrap().value.contains("the breaker disconnects"));
    assert!(work("loop-impedance", &format!("{given} breaker=C")).unwrap().value.contains("device is relied on"));
}

/// Not published: TT, 30 mA.
#[test]
fn f5_an_electrode() {
    close(number("electrode-limit", "residual=30mA"), 1666.7, 0.05);
}

/// Not published: In 32 A, Ca 0.94, Cg 0.80, method C, flat twin-and-earth.
#[test]
fn f6_two_factors() {
    let given = "rating=32A ambient=35C grouped=2";
    close(number("needed-capacity", given), 42.55, 0.005);
    close(number("smallest-by-capacity", given), 6.0, 0.0);
    close(step("smallest-by-capacity", given, "It"), 47.0, 0.0);
    close(step("smallest-by-capacity", given, "Iz"), 35.3, 0.05);
}

/// Not published: method 103, 10 mm² carries 32 A exactly, and In ≤ Iz passes.
#[test]
fn f7_exactly_on_its_capacity() {
    close(number("smallest-by-capacity", "rating=32A method=103"), 10.0, 0.0);
    assert!(work("cable-capacity", "size=10mm2 method=103 rating=32A").unwrap().value.contains("In ≤ Iz"));
}

/// Not published: surrounded by insulation for 0.5 m or more, 0.5 × method C: 10 mm² gives 32 A exactly.
#[test]
fn f8_exactly_on_half_of_its_capacity() {
    let given = "rating=32A in-insulation=0.5m";
    close(number("smallest-by-capacity", given), 10.0, 0.0);
    close(step("smallest-by-capacity", given, "Iz"), 32.0, 0.0);
}

/// Not published: a 40 A device for a 32 A charge point, method C, Ca 0.94.
#[test]
fn f9_a_device_larger_than_the_charge_point() {
    close(number("needed-capacity", "rating=40A ambient=35C"), 42.55, 0.005);
    close(number("smallest-by-capacity", "rating=40A ambient=35C"), 6.0, 0.0);
}

/// Not published: PME, supply neutral 25 mm².
#[test]
fn f10_main_bonding() {
    close(number("main-bonding", "supply-neutral=25mm2"), 10.0, 0.0);
}
