//! The energy that a car uses a mile, and the hours that a night offers for charging.

use super::about::tables;

tables! {
    figures {
        /// Energy a mile at the charge point.
        A_MILE / A_MILE_TABLE: KilowattHoursPerMile = 0.3; PRACTICE "", "energy a mile";
        CommonPractice, "no source";

        /// Hours of a night's charging.
        A_NIGHT / A_NIGHT_TABLE: Hours = 7.0; PRACTICE "", "hours available at night";
        CommonPractice, "no source";

        /// The least current that a charge point offers a car: below it charging pauses.
        LEAST_CHARGE / LEAST_CHARGE_TABLE: Amps = 6.0; IEC_61851 "", "least charge current";
        FromMemory, "not seen";
    }
}
