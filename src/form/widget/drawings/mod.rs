//! Drawings in the form: the sketches beside choices and questions, from a sheet that is fetched later; and the two that are drawn here
//! from the answers and the result, the plan of the home and the tape with the price band.

mod plan;
mod sheet;
mod tape;

pub use plan::plan;
pub use sheet::Sheet;
pub use tape::tape;
