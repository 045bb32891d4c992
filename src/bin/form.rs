//! Start of the page.

fn main() {}
