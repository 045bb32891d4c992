//! What driving costs, by the homeowner's own figures: its fields, and the closed lists that they are chosen from.

use crate::answers::Answer;
use crate::units::PencePerKilowattHour;

topic! {
    /// What driving costs, by the homeowner's own figures.
    pub struct Cost at cost {
        /// By day.
        day: PencePerKilowattHour,
        /// At night.
        night: PencePerKilowattHour,
        /// At public charge points.
        public: PencePerKilowattHour,
    }
}
