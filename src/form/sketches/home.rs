//! Homes, and where a car stands beside them.

use super::{Line, Sketch, grain, outline, sketch, tinted};

/// Every drawing of a home.
pub fn sketches() -> Vec<Sketch> {
    [
        ("home-detached", vec![ground(), tinted("M34 73V40L60 18L86 40V73z"), outline("M28 45L60 18L92 45"), grain("M54 73V57h12v16 M42 46h10v10h-10z M68 46h10v10h-10z")]),
        ("home-semi-detached", vec![ground(), tinted("M22 73V40L36 22H60V73z"), outline("M60 22H84L98 40V73H60 M18 45L36 22 M102 45L84 22"), grain("M44 73V58h10v15 M66 73V58h10v15 M28 46h10v9h-10z M82 46h10v9h-10z")]),
        ("home-terrace", vec![ground(), tinted("M44 73V38H76V73z"), outline("M6 38H114V73 M6 73V38 M2 42L12 22H108L118 42 M44 38V22 M76 38V22"), grain("M12 73V58h9v15 M50 73V58h9v15 M84 73V58h9v15 M27 46h9v9h-9z M63 46h9v9h-9z M99 46h9v9h-9z")]),
        ("home-flat", vec![ground(), outline("M28 73V6H92V73 M28 23H92 M28 40H92 M28 57H92 M60 6V57"), tinted("M60 23H92V40H60z"), grain("M38 12h10v6h-10z M72 12h10v6h-10z M38 29h10v6h-10z M72 29h10v6h-10z M38 46h10v6h-10z M72 46h10v6h-10z M54 73V61h12v12")]),
        ("parking-drive", vec![ground(), house(), tinted(car(58))]),
        ("parking-attached-garage", vec![ground(), house(), outline("M46 44H116V73"), tinted(car(56))]),
        ("parking-detached-garage", vec![ground(), outline("M4 73V48L17 36L30 48V73"), outline("M46 73V44L81 30L116 44V73"), tinted(car(54))]),
        ("parking-shared-car-park", vec![ground(), outline("M4 14H116 M4 22H116 M12 22V73 M20 22V73 M100 22V73 M108 22V73"), grain("M32 73v-8 M92 73v-8"), tinted(car(36))]),
        ("parking-street", vec![outline("M4 67H44v6H116"), outline("M6 67V40L22 24L38 40V67"), grain("M16 67V54h10v13 M108 73V18h-10"), tinted(car(50))]),
    ]
    .into_iter()
    .map(|(name, lines)| sketch(name, lines))
    .collect()
}

fn ground() -> Line {
    outline("M2 73h116")
}

/// A house at the left.
fn house() -> Line {
    outline("M6 73V42L26 22L46 42V73 M20 73V58h12v15")
}

/// A car from the side, its left end here.
fn car(left: usize) -> String {
    let wheels = [left + 6, left + 37].map(|wheel| format!("M{wheel} 68a5 5 0 0 0 10 0"));
    format!("M{left} 68v-9l9-3 8-9h18l9 9 9 3v9h-6a5 5 0 0 0-10 0h-21a5 5 0 0 0-10 0z {} {}", wheels[0], wheels[1])
}
