//! Conversions of units, against `uom`, a general-purpose library of units, as oracle; and each comes back.

use presurvey::answers::{Length, LengthUnit};
use presurvey::units::written::{Written, read};
use presurvey::units::{
    Amps, Hours, KilowattHours, Kilowatts, Megahertz, Metres, Miles, MilliohmsPerMetre, Ohms, Ratio, Seconds,
    SquareMillimetres, Volts,
};
use proptest::prelude::*;
use uom::si::f64::{
    Area, ElectricCurrent, ElectricPotential, ElectricalResistance, Energy, Frequency, Length as Distance, Power, Time,
};
use uom::si::{
    area, electric_current, electric_potential, electrical_resistance, energy, frequency, length, power, time,
};

/// Ours of what is written, against the oracle's.
#[track_caller]
fn same<Q: Written>(written: &str, oracle: f64) {
    let ours = read::<Q>(written).unwrap_or_else(|why| panic!("{written}: {why}")).number();
    assert!((ours - oracle).abs() <= oracle.abs() * 1e-14, "{written}: {ours} is not {oracle}");
}

#[test]
fn every_spelling_of_a_unit_is_the_oracles() {
    for number in [0.0, 0.1, 1.0, 13.7, 1000.0] {
        for (unit, amps) in [
            ("A", ElectricCurrent::new::<electric_current::ampere>(number)),
            ("mA", ElectricCurrent::new::<electric_current::milliampere>(number)),
            ("kA", ElectricCurrent::new::<electric_current::kiloampere>(number)),
        ] {
            same::<Amps>(&format!("{number}{unit}"), amps.get::<electric_current::ampere>());
        }
        for (unit, volts) in [
            ("V", ElectricPotential::new::<electric_potential::volt>(number)),
            ("mV", ElectricPotential::new::<electric_potential::millivolt>(number)),
            ("kV", ElectricPotential::new::<electric_potential::kilovolt>(number)),
        ] {
            same::<Volts>(&format!("{number}{unit}"), volts.get::<electric_potential::volt>());
        }
        for (unit, ohms) in [
            ("Ω", ElectricalResistance::new::<electrical_resistance::ohm>(number)),
            ("ohm", ElectricalResistance::new::<electrical_resistance::ohm>(number)),
            ("mΩ", ElectricalResistance::new::<electrical_resistance::milliohm>(number)),
            ("mohm", ElectricalResistance::new::<electrical_resistance::milliohm>(number)),
            ("kΩ", ElectricalResistance::new::<electrical_resistance::kiloohm>(number)),
            ("kohm", ElectricalResistance::new::<electrical_resistance::kiloohm>(number)),
        ] {
            same::<Ohms>(&format!("{number}{unit}"), ohms.get::<electrical_resistance::ohm>());
        }
        for (unit, metres) in [
            ("m", Distance::new::<length::meter>(number)),
            ("mm", Distance::new::<length::millimeter>(number)),
            ("cm", Distance::new::<length::centimeter>(number)),
            ("km", Distance::new::<length::kilometer>(number)),
            ("ft", Distance::new::<length::foot>(number)),
        ] {
            same::<Metres>(&format!("{number}{unit}"), metres.get::<length::meter>());
        }
        same::<Miles>(&format!("{number}km"), Distance::new::<length::kilometer>(number).get::<length::mile>());
        for unit in ["mm²", "mm2"] {
            let area = Area::new::<area::square_millimeter>(number);
            same::<SquareMillimetres>(&format!("{number}{unit}"), area.get::<area::square_millimeter>());
        }
        for (unit, kilowatts) in
            [("kW", Power::new::<power::kilowatt>(number)), ("W", Power::new::<power::watt>(number))]
        {
            same::<Kilowatts>(&format!("{number}{unit}"), kilowatts.get::<power::kilowatt>());
        }
        for (unit, energy) in
            [("kWh", Energy::new::<energy::kilowatt_hour>(number)), ("Wh", Energy::new::<energy::watt_hour>(number))]
        {
            same::<KilowattHours>(&format!("{number}{unit}"), energy.get::<energy::kilowatt_hour>());
        }
        for (unit, seconds) in [
            ("s", Time::new::<time::second>(number)),
            ("ms", Time::new::<time::millisecond>(number)),
            ("min", Time::new::<time::minute>(number)),
        ] {
            same::<Seconds>(&format!("{number}{unit}"), seconds.get::<time::second>());
        }
        for (unit, hours) in [("h", Time::new::<time::hour>(number)), ("min", Time::new::<time::minute>(number))] {
            same::<Hours>(&format!("{number}{unit}"), hours.get::<time::hour>());
        }
        for (unit, megahertz) in [
            ("MHz", Frequency::new::<frequency::megahertz>(number)),
            ("GHz", Frequency::new::<frequency::gigahertz>(number)),
        ] {
            same::<Megahertz>(&format!("{number}{unit}"), megahertz.get::<frequency::megahertz>());
        }
    }
}

/// Products of quantities, against the oracle's own products.
#[test]
fn products_are_the_oracles() {
    let (amps, ohms, metres) = (13.7, 0.366, 42.0);
    let (current, resistance) = (
        ElectricCurrent::new::<electric_current::ampere>(amps),
        ElectricalResistance::new::<electrical_resistance::ohm>(ohms),
    );
    let volts = (current * resistance).get::<electric_potential::volt>();
    assert!(((Amps::of(amps) * Ohms::of(ohms)).get() - volts).abs() < 1e-12);
    let voltage = ElectricPotential::new::<electric_potential::volt>(230.0);
    assert!(
        (Volts::of(230.0).through(Ohms::of(ohms)).get() - (voltage / resistance).get::<electric_current::ampere>())
            .abs()
            < 1e-9
    );
    let power = Power::new::<power::kilowatt>(9.5);
    assert!(
        (Kilowatts::of(9.5).current_at(Volts::of(230.0)).get() - (power / voltage).get::<electric_current::ampere>())
            .abs()
            < 1e-12
    );
    // mΩ/m × m, by way of a resistance for each metre.
    let each = ElectricalResistance::new::<electrical_resistance::milliohm>(1.83);
    let whole = (each * Distance::new::<length::meter>(metres) / Distance::new::<length::meter>(1.0))
        .get::<electrical_resistance::ohm>();
    assert!(((MilliohmsPerMetre::of(1.83) * Metres::of(metres)).get() - whole).abs() < 1e-15);
    // kW × h.
    let energy: Energy = power * Time::new::<time::hour>(7.0);
    assert!(((Kilowatts::of(9.5) * Hours::of(7.0)).get() - energy.get::<energy::kilowatt_hour>()).abs() < 1e-12);
}

/// What a homeowner says in feet is the oracle's foot.
#[test]
fn a_homeowners_feet_are_feet() {
    let said = Length { value: Ratio::of(50.0), unit: LengthUnit::Feet };
    let oracle = Distance::new::<length::foot>(50.0).get::<length::meter>();
    assert!((said.in_metres(Ratio::of(0.75)).get() - oracle).abs() < 1e-12);
}

/// Reads what is written in each of a quantity's units, and writes it back.
fn comes_back<Q: Written>(number: f64) -> Result<(), TestCaseError> {
    for spelling in Q::UNITS {
        let text = format!("{number:.6}{}", spelling.written);
        let read = read::<Q>(&text).map_err(|why| TestCaseError::fail(format!("{text}: {why}")))?;
        let back = read.number() / spelling.is;
        prop_assert!((back - number).abs() <= 1e-6 + number * 1e-12, "{} came back as {}", text, back);
    }
    Ok(())
}

/// What is no quantity is refused at the door, however it comes.
fn refuses<Q: Written>(may_be_negative: bool) {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert!(Q::made_of(bad).is_err());
    }
    assert_eq!(Q::made_of(-1.0).is_err(), !may_be_negative);
    let unit = Q::UNITS[0].written;
    for bad in ["NaN", "inf", "-inf", "1e3", "", "one"] {
        assert!(read::<Q>(&format!("{bad}{unit}")).is_err(), "{bad}{unit}");
    }
    assert!(read::<Q>("1 furlong").is_err());
}

#[test]
fn what_is_no_quantity_is_refused_at_the_door() {
    use presurvey::units::*;
    refuses::<Amps>(false);
    refuses::<Volts>(false);
    refuses::<Ohms>(false);
    refuses::<Metres>(false);
    refuses::<SquareMillimetres>(false);
    refuses::<MilliohmsPerMetre>(false);
    refuses::<MillivoltsPerAmpMetre>(false);
    refuses::<Kilowatts>(false);
    refuses::<KilowattHours>(false);
    refuses::<Miles>(false);
    refuses::<KilowattHoursPerMile>(false);
    refuses::<PencePerKilowattHour>(false);
    refuses::<Seconds>(false);
    refuses::<Hours>(false);
    refuses::<Celsius>(false);
    refuses::<SoilResistivity>(false);
    refuses::<MaterialFactor>(false);
    refuses::<Megahertz>(false);
    refuses::<Decibels>(false);
    refuses::<Level>(true);
    refuses::<Ratio>(false);
    refuses::<Count>(false);
}

proptest! {
    #[test]
    fn each_conversion_comes_back(number in 0.0..100_000.0_f64) {
        use presurvey::units::*;
        comes_back::<Amps>(number)?;
        comes_back::<Volts>(number)?;
        comes_back::<Ohms>(number)?;
        comes_back::<Metres>(number)?;
        comes_back::<SquareMillimetres>(number)?;
        comes_back::<MilliohmsPerMetre>(number)?;
        comes_back::<MillivoltsPerAmpMetre>(number)?;
        comes_back::<Kilowatts>(number)?;
        comes_back::<KilowattHours>(number)?;
        comes_back::<Miles>(number)?;
        comes_back::<KilowattHoursPerMile>(number)?;
        comes_back::<PencePerKilowattHour>(number)?;
        comes_back::<Seconds>(number)?;
        comes_back::<Hours>(number)?;
        comes_back::<Celsius>(number)?;
        comes_back::<SoilResistivity>(number)?;
        comes_back::<MaterialFactor>(number)?;
        comes_back::<Megahertz>(number)?;
        comes_back::<Decibels>(number)?;
        comes_back::<Level>(number)?;
        comes_back::<Ratio>(number)?;
    }
}
