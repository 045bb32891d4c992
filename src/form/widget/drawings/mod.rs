//! Drawings in the form: those of the sheet that comes later, beside choices and questions; and those that are made of the
//! answers here, the plan and the tape.

mod plan;
mod sheet;
mod tape;

pub use plan::plan;
pub use sheet::Sheet;
pub use tape::tape;
