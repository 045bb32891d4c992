//! How grave a flag is.

model::answers::choices::words! {
    /// Four weights, gravest first.
    pub enum Weight {
        /// Nothing may be done until this is resolved.
        Stop => "stop",
        /// To be settled before a date is agreed.
        SettleBeforeBooking => "settle-before-booking",
        /// It moves the price.
        ChangesThePrice => "changes-the-price",
        /// Good to know.
        WorthKnowing => "worth-knowing",
    }
}
