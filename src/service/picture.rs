//! Checks that a picture is plain: pixels and what is needed to decode them, but no camera data, no location, no second picture.
//!
//! A JPEG is walked marker by marker (ITU-T T.81, annex B), a WebP chunk by chunk (RIFF container, RFC 9649). Only segments that a browser
//! writes when it re-encodes are accepted, so that unknown kinds are refused too; crates that edit metadata skip what they don't know.
//! Nothing is decoded: an accepted picture may still be broken inside. The same walk drops from a JPEG what is refused ([`strip_jpeg`]).

/// Kind of picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureKind {
    /// JPEG.
    Jpeg,
    /// WebP.
    Webp,
}

impl PictureKind {
    /// Its media type, such as `image/jpeg`.
    #[must_use]
    pub const fn media_type(self) -> &'static str {
        match self {
            Self::Jpeg => "image/jpeg",
            Self::Webp => "image/webp",
        }
    }

    /// The kind with this media type; `None` for any other type.
    #[must_use]
    pub fn of_media_type(text: &str) -> Option<Self> {
        [Self::Jpeg, Self::Webp].into_iter().find(|kind| text.trim().eq_ignore_ascii_case(kind.media_type()))
    }
}

/// Why a picture is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotPlain {
    /// Neither JPEG nor WebP, or broken.
    #[error("this is not a JPEG or WebP picture; it may be one that was re-encoded by the browser")]
    NotAPicture,
    /// It ends too early.
    #[error("this picture is cut short; send it again")]
    Cut,
    /// It carries something besides its pixels.
    #[error("this picture still carries {0}; it may hold its pixels alone: re-encode it first")]
    Carries(&'static str),
}

/// Checks that a picture is plain and tells which kind it is.
///
/// # Errors
/// [`NotPlain`]: what is wrong with it.
pub fn check_picture(bytes: &[u8]) -> Result<PictureKind, NotPlain> {
    if bytes.starts_with(&[0xff, 0xd8]) {
        check_jpeg(bytes).map(|()| PictureKind::Jpeg)
    } else if bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP") {
        check_webp(bytes).map(|()| PictureKind::Webp)
    } else {
        Err(NotPlain::NotAPicture)
    }
}

/// Width and height in pixels from a JPEG's frame header (T.81, B.2.2: precision, lines, samples a line); `None` if there is none. For
/// pictures that passed [`check_picture`].
#[must_use]
pub(super) fn jpeg_size(bytes: &[u8]) -> Option<(u32, u32)> {
    let number = |at: usize| Some(u16::from_be_bytes(bytes.get(at..at + 2)?.try_into().ok()?));
    let mut at = 2;
    loop {
        while *bytes.get(at)? == 0xff {
            at += 1;
        }
        match bytes[at] {
            0xc4 | 0xcc => {}
            0xc0..=0xcf => return Some((number(at + 6)?.into(), number(at + 4)?.into())),
            _ => {}
        }
        at += 1 + usize::from(number(at + 1)?);
    }
}

fn check_jpeg(bytes: &[u8]) -> Result<(), NotPlain> {
    let end = walk_jpeg(bytes, |segment| carried(segment).map_or(Ok(()), |what| Err(NotPlain::Carries(what))))?;
    if end == bytes.len() { Ok(()) } else { Err(NotPlain::Carries("something after its end")) }
}

/// A JPEG without what it carries besides its pixels.
pub(super) struct Stripped<'a> {
    /// The JPEG: nothing was decoded, its pixels are the same to the bit.
    pub(super) bytes: Vec<u8>,
    /// The EXIF that it carried, a TIFF file of its own; the first where there are several.
    pub(super) exif: Option<&'a [u8]>,
}

/// Drops every segment of a JPEG that [`check_picture`] refuses, and all that follows its end.
///
/// # Errors
/// [`NotPlain`] if it is no whole JPEG.
pub(super) fn strip_jpeg(bytes: &[u8]) -> Result<Stripped<'_>, NotPlain> {
    let mut stripped = Stripped { bytes: bytes.get(..2).unwrap_or_default().to_vec(), exif: None };
    walk_jpeg(bytes, |segment| {
        if carried(segment).is_none() {
            stripped.bytes.extend([0xff, segment.marker]);
            stripped.bytes.extend(segment.length.to_be_bytes());
            stripped.bytes.extend(segment.held);
            stripped.bytes.extend(segment.coded);
        } else if let Some(exif) = segment.held.strip_prefix(b"Exif\0\0".as_slice()).filter(|_| segment.marker == 0xe1)
        {
            stripped.exif.get_or_insert(exif);
        }
        Ok(())
    })?;
    stripped.bytes.extend([0xff, 0xd9]);
    Ok(stripped)
}

/// A segment of a JPEG.
#[derive(Clone, Copy)]
struct Segment<'a> {
    marker: u8,
    length: u16,
    held: &'a [u8],
    /// The coded data that follow it, where it begins a scan.
    coded: &'a [u8],
}

/// What a segment carries besides pixels; `None` where decoding needs it.
fn carried(segment: Segment) -> Option<&'static str> {
    let Segment { marker, held, .. } = segment;
    match marker {
        // JFIF without a thumbnail.
        0xe0 if held.starts_with(b"JFIF\0") && held.len() == 14 => None,
        0xe0 => Some("a small picture of its own"),
        0xe1 => Some("camera or place data (EXIF or XMP)"),
        0xe2 if held.starts_with(b"ICC_PROFILE\0") => None,
        0xed => Some("picture notes (IPTC)"),
        // The colour transform, which decoding needs.
        0xee if held.starts_with(b"Adobe") && held.len() == 12 => None,
        0xe2..=0xef => Some("data of a camera or a program"),
        0xfe => Some("a comment"),
        _ => None, // tables, frames and scans: no others get here
    }
}

/// Goes from segment to segment of a JPEG; returns where its end is.
fn walk_jpeg<'a>(
    bytes: &'a [u8],
    mut each: impl FnMut(Segment<'a>) -> Result<(), NotPlain>,
) -> Result<usize, NotPlain> {
    let mut at = 2; // after the start of image
    let (mut frame, mut scan) = (false, false);
    loop {
        if *bytes.get(at).ok_or(NotPlain::Cut)? != 0xff {
            return Err(NotPlain::NotAPicture);
        }
        while *bytes.get(at).ok_or(NotPlain::Cut)? == 0xff {
            at += 1; // a marker may be preceded by any number of fill bytes
        }
        let marker = bytes[at];
        at += 1;
        if marker == 0xd9 {
            return if frame && scan { Ok(at) } else { Err(NotPlain::NotAPicture) };
        }
        let length = match bytes.get(at..at + 2).ok_or(NotPlain::Cut)? {
            [high, low] => u16::from_be_bytes([*high, *low]),
            _ => return Err(NotPlain::Cut),
        };
        let end = at + usize::from(length);
        let held = bytes.get(at + 2..end.max(at + 2)).ok_or(NotPlain::Cut)?;
        match marker {
            _ if length < 2 => return Err(NotPlain::NotAPicture),
            0xe0..=0xef | 0xfe => {}
            0xc4 | 0xdb | 0xdd | 0xcc => {} // tables and restart interval
            0xc0..=0xcf => frame = true,
            0xda if frame => scan = true,
            _ => return Err(NotPlain::NotAPicture),
        }
        at = if marker == 0xda { end_of_scan(bytes, end)? } else { end };
        each(Segment { marker, length, held, coded: &bytes[end..at] })?;
    }
}

/// Where the next marker after a scan's coded data is: 0xff 0x00 is data, and restart markers belong to the scan.
fn end_of_scan(bytes: &[u8], from: usize) -> Result<usize, NotPlain> {
    let coded = bytes.get(from..).ok_or(NotPlain::Cut)?;
    coded
        .windows(2)
        .position(|pair| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xff | 0xd0..=0xd7))
        .map(|offset| from + offset)
        .ok_or(NotPlain::Cut)
}

fn check_webp(bytes: &[u8]) -> Result<(), NotPlain> {
    let size_at = |at: usize| {
        let field: [u8; 4] = bytes.get(at..at + 4)?.try_into().ok()?;
        usize::try_from(u32::from_le_bytes(field)).ok()
    };
    let whole = size_at(4).ok_or(NotPlain::Cut)?;
    match whole.checked_add(8) {
        Some(end) if end == bytes.len() => {}
        Some(end) if end < bytes.len() => return Err(NotPlain::Carries("something after its end")),
        _ => return Err(NotPlain::Cut),
    }
    let mut at = 12;
    let mut image = false;
    while at < bytes.len() {
        let name = bytes.get(at..at + 4).ok_or(NotPlain::Cut)?;
        let size = size_at(at + 4).ok_or(NotPlain::Cut)?;
        match name {
            b"VP8 " | b"VP8L" => image = true,
            b"VP8X" | b"ALPH" | b"ICCP" => {}
            b"EXIF" | b"XMP " => return Err(NotPlain::Carries("camera or place data (EXIF or XMP)")),
            _ => return Err(NotPlain::Carries("data of a camera or a program")),
        }
        // A chunk of odd size is followed by one padding byte.
        at = size.checked_add(size % 2).and_then(|size| at.checked_add(8)?.checked_add(size)).ok_or(NotPlain::Cut)?;
        if at > bytes.len() {
            return Err(NotPlain::Cut);
        }
    }
    if image { Ok(()) } else { Err(NotPlain::NotAPicture) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The least that passes for a JPEG: JFIF, a quantisation table, a frame, a scan of two coded bytes, the end.
    fn jpeg(extra: &[u8]) -> Vec<u8> {
        let mut bytes = vec![0xff, 0xd8, 0xff, 0xe0, 0, 16];
        bytes.extend(b"JFIF\0\x01\x01\0\0\x01\0\x01\0\0");
        bytes.extend([0xff, 0xdb, 0, 3, 0]);
        bytes.extend(extra);
        bytes.extend([0xff, 0xc0, 0, 3, 8, 0xff, 0xda, 0, 3, 1, 0x12, 0xff, 0x00, 0xff, 0xd0, 0x34, 0xff, 0xd9]);
        bytes
    }

    fn segment(marker: u8, payload: &[u8]) -> Vec<u8> {
        let length = u16::try_from(payload.len() + 2).unwrap().to_be_bytes();
        [&[0xff, marker], &length[..], payload].concat()
    }

    fn webp(chunks: &[(&[u8; 4], &[u8])]) -> Vec<u8> {
        let mut body = b"WEBP".to_vec();
        for (name, data) in chunks {
            body.extend(*name);
            body.extend(u32::try_from(data.len()).unwrap().to_le_bytes());
            body.extend(*data);
            body.extend(vec![0; data.len() % 2]);
        }
        [b"RIFF".as_slice(), &u32::try_from(body.len()).unwrap().to_le_bytes(), &body].concat()
    }

    #[test]
    fn plain_pictures_pass() {
        assert_eq!(check_picture(&jpeg(&[])), Ok(PictureKind::Jpeg));
        assert_eq!(check_picture(&jpeg(&segment(0xe2, b"ICC_PROFILE\0\x01\x01"))), Ok(PictureKind::Jpeg));
        assert_eq!(check_picture(&webp(&[(b"VP8 ", b"odd")])), Ok(PictureKind::Webp));
    }

    #[test]
    fn whatever_a_camera_adds_is_refused() {
        for (marker, payload) in [
            (0xe1, b"Exif\0\0II*\0".as_slice()),
            (0xe1, b"http://ns.adobe.com/xap/1.0/\0"),
            (0xed, b"Photoshop 3.0\0"),
            (0xe2, b"MPF\0"),
            (0xe0, b"JFXX\0\x10"),
            (0xe0, b"JFIF\0\x01\x01\0\0\x01\0\x01\x01\x01\0\0\0"),
            (0xe5, b"anything"),
            (0xfe, b"a comment"),
        ] {
            let refused = check_picture(&jpeg(&segment(marker, payload)));
            assert!(matches!(refused, Err(NotPlain::Carries(_))), "{marker:x} {payload:?}: {refused:?}");
        }
        for name in [b"EXIF", b"XMP ", b"ABCD"] {
            let refused = check_picture(&webp(&[(b"VP8 ", b"data"), (name, b"data")]));
            assert!(matches!(refused, Err(NotPlain::Carries(_))), "{name:?}: {refused:?}");
        }
    }

    #[test]
    fn exif_between_two_scans_is_seen_and_so_is_what_follows_the_end() {
        let plain = jpeg(&[]);
        let (before_end, end) = plain.split_at(plain.len() - 2);
        let hidden = [before_end, &segment(0xe1, b"Exif\0\0"), end].concat();
        assert_eq!(check_picture(&hidden), Err(NotPlain::Carries("camera or place data (EXIF or XMP)")));
        let longer = [plain.as_slice(), b"x"].concat();
        assert_eq!(check_picture(&longer), Err(NotPlain::Carries("something after its end")));
    }

    #[test]
    fn what_is_stripped_is_plain_and_nothing_of_its_pixels_is_gone() {
        let exif = segment(0xe1, b"Exif\0\0II*\0");
        let other = segment(0xe1, b"Exif\0\0other");
        let extra = [exif, segment(0xfe, b"a comment"), segment(0xe2, b"MPF\0"), vec![0xff, 0xff], other].concat();
        let plain = jpeg(&[]);
        let (before_end, end) = plain.split_at(plain.len() - 2);
        let between_scans = segment(0xed, b"Photoshop 3.0\0");
        for bytes in [jpeg(&extra), [&jpeg(&extra), b"a second picture".as_slice()].concat()] {
            let stripped = strip_jpeg(&bytes).unwrap();
            assert_eq!((stripped.bytes, stripped.exif), (plain.clone(), Some(b"II*\0".as_slice())));
        }
        assert_eq!(strip_jpeg(&[before_end, &between_scans, end].concat()).unwrap().bytes, plain);
        assert!(matches!(strip_jpeg(before_end), Err(NotPlain::Cut)));
    }

    proptest! {
        #[test]
        fn any_bytes_are_answered(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
            let _ = check_picture(&bytes);
            let jpeg = [&[0xff, 0xd8], bytes.as_slice()].concat();
            let _ = check_picture(&jpeg);
            if let Ok(stripped) = strip_jpeg(&jpeg) {
                prop_assert_eq!(check_picture(&stripped.bytes), Ok(PictureKind::Jpeg));
            }
            let _ = check_picture(&[b"RIFF\x10\0\0\0WEBP".as_slice(), &bytes].concat());
        }

        #[test]
        fn a_cut_picture_never_passes(cut in 0_usize..48) {
            let whole = jpeg(&[]);
            prop_assume!(cut < whole.len());
            prop_assert!(check_picture(&whole[..cut]).is_err());
        }
    }
}
