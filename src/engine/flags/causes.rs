//! Reasons why a cause may make a job less involved, where several flags share one.

pub(super) const COUNTED_AGAIN: &str = "counts that contradicted one another, or more of them, are counted again";
pub(super) const A_WAY_OF_ITS_OWN: &str = "it stands in place of a way that digs or is longer";
pub(super) const NOT_FIXED: &str = "fixing one bought already is not priced or timed until its papers are seen";
pub(super) const LONG_AGO: &str = "what passed long ago stands in place of a danger that counts";
pub(super) const THERE_ALREADY: &str = "a cable or circuit that is there may do, and then nothing is run or dug";
pub(super) const AT_ITS_FEED: &str =
    "at an outbuilding's feed nothing is isolated at the meter, so that no supplier is waited for";
pub(super) const NOT_THE_BOARD_MEANT: &str =
    "of two boards only the one that is meant counts: with the other goes a contradiction in what was seen of it";
pub(super) const SEEN_AGAIN: &str = "what was seen of the board contradicted itself and is seen again";
pub(super) const EARTHING_KNOWN: &str = "with the earthing known, a breaker alone may do in the board";
