//! Source: J. Whitfield, *The Electricians Guide*, 5th ed. (EPA Press), Table 6.2 (as the IET *On-Site Guide*, Appendix A).

use super::{Typed, hold, one};
use crate::{close, number};
use presurvey::tables::about::Grade::Quoted;

pub fn typed() -> Vec<Typed> {
    vec![
        one("lighting: share of the total", Quoted, 0.66),
        one("heating and power: in full up to", Quoted, 10.0),
        one("heating and power: share of the rest", Quoted, 0.5),
        one("cooking: in full up to", Quoted, 10.0),
        one("cooking: share of the rest", Quoted, 0.3),
        one("cooking: for a socket-outlet in the control unit", Quoted, 5.0),
        // One site prints 20 % for the third and later heaters; all others 25 %.
        one("showers: share of those after the two largest", Quoted, 0.25),
        one("socket circuits: share of those after the largest", Quoted, 0.4),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

/// Line by line of Table 6.2, with round figures.
#[test]
fn line_by_line() {
    close(number("maximum-demand", "lighting=10A"), 6.6, 1e-9);
    close(number("maximum-demand", "heating=30A"), 20.0, 1e-9);
    close(number("heating-demand", "heating=13A,13A,4A"), 20.0, 1e-9);
    close(number("maximum-demand", "cooking=30A"), 16.0, 1e-9);
    close(number("maximum-demand", "cooking=30A cooking-socket=yes"), 21.0, 1e-9);
    close(number("maximum-demand", "showers=40A,40A,40A"), 90.0, 1e-9);
    close(number("shower-demand", "showers=40A,40A,40A"), 90.0, 1e-9);
    close(number("maximum-demand", "in-full=16A,20A"), 36.0, 1e-9);
    close(number("maximum-demand", "charge-points=32A,16A"), 48.0, 1e-9); // no diversity: BS 7671 722.311.201
    // Two 32 A rings: 44.8 A by the line for standard circuits; the 42 A of "10 A + 50 %" is the other line's (a public forum's question).
    close(number("maximum-demand", "sockets=32A,32A"), 44.8, 1e-9);
    close(number("maximum-demand", "heating=32A,32A"), 37.0, 1e-9);
}
