//! What the network operator was asked and answered, and when; the installer records it: its fields, and the closed lists that they are chosen from.

use crate::answers::Answer;
use crate::units::Amps;
use crate::words;
use jiff::civil::Date;

topic! {
    /// What the network operator was asked and answered, and when; the installer records it.
    pub struct Operator at operator {
        /// The day it was asked.
        asked_on: Date,
        /// The day it answered.
        answered_on: Date,
        /// The answer.
        answer: OperatorAnswer,
        /// The limit on the whole home, where the answer sets one.
        limit: Amps,
    }
}

words! {
    /// What the network operator answered, as the installer records it.
    pub enum OperatorAnswer {
        /// As asked for.
        Accepted => "accepted",
        /// The neighbour's supply is separated: each home has a service of its own.
        Separated => "separated",
        /// A shared service is left as it is, and the charge point accepted on it.
        LeftAsItIs => "left-as-it-is",
        /// Accepted up to a limit on the whole home.
        Limited => "limited",
        /// Refused.
        Refused => "refused",
    }
}
