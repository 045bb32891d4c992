//! Photos that a plain form brings as a phone made them: cleaned before they are kept. Until then each lies in a file of its own to which
//! nothing refers, and which is removed whatever becomes of the form.
//!
//! A JPEG that stands upright loses the segments that it may not carry, and keeps its pixels to the bit. One that its EXIF says to turn, and
//! a PNG or WebP picture, is decoded, turned and encoded as JPEG (by the crate image), because what is shown upright by EXIF alone would lie
//! on its side without. [`check_picture`] has the last word on either. The same bytes give the same photo, so that a form that is sent twice
//! names it alike.

use super::limits::PHOTO_BYTES;
use super::picture::{NotPlain, PictureKind, check_picture, jpeg_size, strip_jpeg};
use axum::body::Bytes;
use image::codecs::jpeg::JpegEncoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageEncoder, ImageError, ImageReader, Limits, RgbImage, imageops};
use std::io::Cursor;
use std::sync::Arc;
use tokio::sync::{Semaphore, SemaphorePermit};

/// The most pixels of a picture that is decoded: this program's choice. It is what the largest usual mode of a phone makes (from memory).
const MOST_PIXELS: u64 = 50_000_000;
/// The most bytes of such a picture while it is decoded: arithmetic, three colours of one byte each.
const MOST_DECODED: u64 = 3 * MOST_PIXELS;
/// The quality of what is encoded anew, of 100: this program's choice, so that labels on a board stay readable.
const QUALITY: u8 = 88;

/// The most forms whose photos wait to be cleaned: this program's choice. Each may hold as many bytes as a form may have.
const MOST_WAITING: usize = 16;

/// Whose turn it is: one picture at a time, whoever sends it, since decoding takes much room and a processor.
#[derive(Debug)]
pub(super) struct Turns {
    waiting: Semaphore,
    at_work: Arc<Semaphore>,
}

impl Default for Turns {
    fn default() -> Self {
        Self { waiting: Semaphore::new(MOST_WAITING), at_work: Arc::new(Semaphore::new(1)) }
    }
}

impl Turns {
    /// A place among the forms that wait; `None` where there is none left.
    pub(super) fn place(&self) -> Option<SemaphorePermit<'_>> {
        self.waiting.try_acquire().ok()
    }

    /// Cleans a photo on a thread apart when its turn comes. Whoever stops waiting for it frees the turn only once that thread is done.
    ///
    /// # Errors
    /// As for [`clean`].
    pub(super) async fn clean(&self, bytes: Bytes) -> Result<Photo, NotCleaned> {
        let turn = Arc::clone(&self.at_work).acquire_owned().await;
        let cleaned = tokio::task::spawn_blocking(move || {
            let photo = clean(&bytes);
            drop(turn);
            photo
        });
        cleaned.await.unwrap_or_else(|why| {
            tracing::error!(error = %why, "the decoder gave up on a photo; it is refused");
            Err(NotCleaned::NotAPicture)
        })
    }
}

/// A photo as it is stored.
#[derive(Debug)]
pub(super) struct Photo {
    pub(super) bytes: Vec<u8>,
    pub(super) width: u32,
    pub(super) height: u32,
}

/// Why a photo can't be cleaned.
#[derive(Debug, PartialEq, Eq, thiserror::Error)]
pub(super) enum NotCleaned {
    #[error("this is not a picture that can be read; it may be JPEG, PNG or WebP")]
    NotAPicture,
    #[error("this is a HEIC or AVIF picture; it may be JPEG, PNG or WebP")]
    Heif,
    #[error("this picture has more pixels than are read; it may have at most fifty million")]
    TooManyPixels,
    #[error(transparent)]
    NotPlain(#[from] NotPlain),
}

impl From<ImageError> for NotCleaned {
    fn from(why: ImageError) -> Self {
        match why {
            ImageError::Limits(_) => Self::TooManyPixels,
            _ => Self::NotAPicture,
        }
    }
}

/// Cleans a photo. Decoding takes long: not for a thread that answers others.
///
/// # Errors
/// [`NotCleaned`]: what is wrong with it.
fn clean(bytes: &[u8]) -> Result<Photo, NotCleaned> {
    let plain = if bytes.starts_with(&[0xff, 0xd8]) {
        let stripped = strip_jpeg(bytes)?;
        match stripped.exif.and_then(Orientation::from_exif_chunk) {
            None | Some(Orientation::NoTransforms) => stripped.bytes,
            turned => encoded_anew(&stripped.bytes, turned)?,
        }
    } else if bytes.get(4..8) == Some(b"ftyp") {
        return Err(NotCleaned::Heif);
    } else {
        encoded_anew(bytes, None)?
    };
    match (check_picture(&plain)?, jpeg_size(&plain)) {
        (PictureKind::Jpeg, Some((width, height))) => Ok(Photo { bytes: plain, width, height }),
        _ => Err(NotCleaned::NotAPicture),
    }
}

/// The picture as a new JPEG, turned as is said here or else as it says itself.
fn encoded_anew(bytes: &[u8], turned: Option<Orientation>) -> Result<Vec<u8>, NotCleaned> {
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|_| NotCleaned::NotAPicture)?;
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(MOST_DECODED);
    reader.limits(limits);
    let mut decoder = reader.into_decoder()?;
    let (width, height) = decoder.dimensions();
    // Asked before a pixel is decoded: a few bytes may promise gigabytes.
    if u64::from(width) * u64::from(height) > MOST_PIXELS || decoder.total_bytes() > MOST_DECODED {
        return Err(NotCleaned::TooManyPixels);
    }
    let turned = turned.map_or_else(|| decoder.orientation(), Ok)?;
    // A profile for other colours than those that are written would spoil them.
    let colours = decoder.icc_profile()?.filter(|profile| profile.get(16..20) == Some(b"RGB "));
    let mut picture = DynamicImage::from_decoder(decoder)?;
    picture.apply_orientation(turned);
    jpeg_within(PHOTO_BYTES, on_white(picture), colours.as_ref())
}

/// A picture as a JPEG of at most so many bytes: encoding anew can make it larger than a photo may be, and a smaller picture is better than
/// none.
fn jpeg_within(most: usize, mut picture: RgbImage, colours: Option<&Vec<u8>>) -> Result<Vec<u8>, NotCleaned> {
    loop {
        let mut jpeg = Vec::new();
        let mut encoder = JpegEncoder::new_with_quality(&mut jpeg, QUALITY);
        if let Some(colours) = colours {
            encoder.set_icc_profile(colours.clone()).map_err(|_| NotCleaned::NotAPicture)?;
        }
        encoder.encode_image(&picture)?;
        let (width, height) = picture.dimensions();
        if jpeg.len() <= most {
            return Ok(jpeg);
        }
        if (width, height) == (1, 1) {
            return Err(NotCleaned::NotAPicture); // its colour profile alone is too large
        }
        picture = imageops::thumbnail(&picture, (width / 2).max(1), (height / 2).max(1));
    }
}

/// The colours of a picture, on white where it is transparent.
fn on_white(picture: DynamicImage) -> RgbImage {
    if !picture.color().has_alpha() {
        return picture.into_rgb8();
    }
    let picture = picture.into_rgba8();
    RgbImage::from_fn(picture.width(), picture.height(), |across, down| {
        let [red, green, blue, alpha] = picture.get_pixel(across, down).0.map(u16::from);
        let shown = |colour: u16| u8::try_from((colour * alpha + 255 * (255 - alpha)) / 255).unwrap_or(u8::MAX);
        image::Rgb([shown(red), shown(green), shown(blue)])
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::codecs::png::PngEncoder;
    use image::{ExtendedColorType, Rgb, Rgba, RgbaImage};
    use proptest::prelude::*;

    const RED: Rgb<u8> = Rgb([200, 0, 0]);
    const GREEN: Rgb<u8> = Rgb([0, 200, 0]);
    const BLUE: Rgb<u8> = Rgb([0, 0, 200]);
    const WHITE: Rgb<u8> = Rgb([255, 255, 255]);

    /// Wider than high; a colour in each quarter: red, green above, blue, white below.
    fn scene() -> RgbImage {
        RgbImage::from_fn(64, 32, |across, down| match (across < 32, down < 16) {
            (true, true) => RED,
            (false, true) => GREEN,
            (true, false) => BLUE,
            (false, false) => WHITE,
        })
    }

    fn jpeg(picture: &RgbImage) -> Vec<u8> {
        let mut bytes = Vec::new();
        JpegEncoder::new_with_quality(&mut bytes, 95).encode_image(picture).unwrap();
        bytes
    }

    /// EXIF with an orientation, a maker and the place: IFD0 of three entries, the GPS IFD of two.
    fn exif(orientation: u8) -> Vec<u8> {
        let mut tiff = b"MM\0\x2a\0\0\0\x08\0\x03".to_vec();
        tiff.extend(b"\x01\x0f\0\x02\0\0\0\x04Inv\0"); // Make
        tiff.extend([0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0]);
        tiff.extend(b"\x88\x25\0\x04\0\0\0\x01\0\0\0\x32\0\0\0\0"); // where the GPS IFD is: 50
        tiff.extend(b"\0\x01\0\x01\0\x02\0\0\0\x02N\0\0\0\0\0\0\0"); // GPSLatitudeRef
        [b"Exif\0\0".as_slice(), &tiff].concat()
    }

    /// A JPEG with a segment put in after its first one, as a camera would.
    fn with(plain: &[u8], marker: u8, held: &[u8]) -> Vec<u8> {
        let length = u16::try_from(held.len() + 2).unwrap().to_be_bytes();
        [&plain[..20], &[0xff, marker], &length, held, &plain[20..]].concat()
    }

    /// The colours in the middle of the quarters, row by row, each the nearest of the four.
    fn quarters(bytes: &[u8]) -> [Rgb<u8>; 4] {
        let shown = image::load_from_memory(bytes).unwrap().into_rgb8();
        let (width, height) = shown.dimensions();
        [(1, 1), (3, 1), (1, 3), (3, 3)].map(|(across, down)| {
            let found = shown.get_pixel(width * across / 4, height * down / 4).0;
            let far = |of: &Rgb<u8>| -> i32 {
                of.0.iter().zip(found).map(|(a, b)| (i32::from(*a) - i32::from(b)).abs()).sum()
            };
            [RED, GREEN, BLUE, WHITE].into_iter().min_by_key(far).unwrap()
        })
    }

    #[test]
    fn a_photo_that_stands_upright_keeps_its_pixels_to_the_bit() {
        let plain = jpeg(&scene());
        for exif in [exif(1), exif(0), exif(9), b"Exif\0\0broken".to_vec()] {
            assert_eq!(clean(&with(&plain, 0xe1, &exif)).unwrap().bytes, plain);
        }
        let cleaned = clean(&[with(&plain, 0xe2, b"MPF\0"), plain.clone()].concat()).unwrap();
        assert_eq!((&cleaned.bytes, cleaned.width, cleaned.height), (&plain, 64, 32));
        assert_eq!(clean(&plain).unwrap().bytes, plain);
    }

    /// What each orientation does: the TIFF standard (6.0, tag 274, from memory) says which side of the scene the first row and column are.
    #[test]
    fn a_photo_is_turned_as_its_exif_says() {
        let plain = jpeg(&scene());
        for (orientation, upright) in [
            (2, [GREEN, RED, WHITE, BLUE]),
            (3, [WHITE, BLUE, GREEN, RED]),
            (4, [BLUE, WHITE, RED, GREEN]),
            (5, [RED, BLUE, GREEN, WHITE]),
            (6, [BLUE, RED, WHITE, GREEN]),
            (7, [WHITE, GREEN, BLUE, RED]),
            (8, [GREEN, WHITE, RED, BLUE]),
        ] {
            let photo = with(&plain, 0xe1, &exif(orientation));
            let cleaned = clean(&photo).unwrap();
            assert_eq!(quarters(&cleaned.bytes), upright, "{orientation}");
            let size = if orientation < 5 { (64, 32) } else { (32, 64) };
            assert_eq!((cleaned.width, cleaned.height), size, "{orientation}");
            assert_eq!(clean(&photo).unwrap().bytes, cleaned.bytes, "the same photo twice");
        }
    }

    #[test]
    fn what_would_be_too_large_becomes_smaller() {
        let whole = jpeg_within(usize::MAX, scene(), None).unwrap();
        assert_eq!(jpeg_size(&whole), Some((64, 32)));
        let smaller = jpeg_within(whole.len() - 1, scene(), None).unwrap();
        assert_eq!((jpeg_size(&smaller), quarters(&smaller)), (Some((32, 16)), [RED, GREEN, BLUE, WHITE]));
        assert_eq!(jpeg_within(1, scene(), None).unwrap_err(), NotCleaned::NotAPicture);
    }

    #[test]
    fn its_colours_keep_their_profile() {
        let mut profile = vec![0; 128];
        profile[16..20].copy_from_slice(b"RGB ");
        for (space, kept) in [(b"RGB ", true), (b"CMYK", false)] {
            profile[16..20].copy_from_slice(space);
            let held = [b"ICC_PROFILE\0\x01\x01".as_slice(), &profile].concat();
            let photo = with(&with(&jpeg(&scene()), 0xe2, &held), 0xe1, &exif(6));
            let cleaned = clean(&photo).unwrap();
            assert_eq!(cleaned.bytes.windows(held.len()).any(|part| part == held), kept);
        }
    }

    #[test]
    fn a_screenshot_becomes_a_jpeg_on_white() {
        let picture = RgbaImage::from_fn(8, 4, |_, _| Rgba([0, 0, 0, 0]));
        let mut png = Vec::new();
        PngEncoder::new(&mut png).write_image(&picture, 8, 4, ExtendedColorType::Rgba8).unwrap();
        let mut webp = Vec::new();
        let encoder = image::codecs::webp::WebPEncoder::new_lossless(&mut webp);
        encoder.write_image(&picture, 8, 4, ExtendedColorType::Rgba8).unwrap();
        for bytes in [png, webp] {
            let cleaned = clean(&bytes).unwrap();
            assert_eq!((cleaned.width, cleaned.height), (8, 4));
            assert_eq!(quarters(&cleaned.bytes), [WHITE; 4]);
            assert!(clean(&bytes[..bytes.len() / 2]).is_err(), "cut");
        }
    }

    #[test]
    fn what_promises_more_pixels_than_are_read_is_refused_before_it_is_decoded() {
        let mut bomb = with(&jpeg(&scene()), 0xe1, &exif(6));
        let frame = bomb.windows(2).position(|pair| pair == [0xff, 0xc0]).unwrap();
        bomb[frame + 5..frame + 9].copy_from_slice(&[0xff, 0xff, 0xff, 0xff]);
        assert_eq!(clean(&bomb).unwrap_err(), NotCleaned::TooManyPixels);
        let mut png = Vec::new();
        PngEncoder::new(&mut png).write_image(&[0; 3], 1, 1, ExtendedColorType::Rgb8).unwrap();
        png[16..24].copy_from_slice(&[0, 0, 0x7f, 0xff, 0, 0, 0x7f, 0xff]);
        let checksum = crc32(&png[12..29]).to_be_bytes();
        png[29..33].copy_from_slice(&checksum);
        assert_eq!(clean(&png).unwrap_err(), NotCleaned::TooManyPixels);
    }

    /// The checksum of a PNG's chunk (PNG specification, annex D, from memory).
    fn crc32(bytes: &[u8]) -> u32 {
        let after = |crc: u32, byte: &u8| {
            (0..8).fold(crc ^ u32::from(*byte), |crc, _| (crc >> 1) ^ if crc & 1 == 1 { 0xedb8_8320 } else { 0 })
        };
        !bytes.iter().fold(!0, after)
    }

    #[test]
    fn what_is_no_picture_is_refused_in_words() {
        assert_eq!(clean(b"no picture").unwrap_err(), NotCleaned::NotAPicture);
        assert_eq!(clean(b"\0\0\0\x18ftypheic").unwrap_err(), NotCleaned::Heif);
        assert_eq!(clean(b"<svg onload=alert(1)>").unwrap_err(), NotCleaned::NotAPicture);
        let photo = with(&jpeg(&scene()), 0xe1, &exif(6));
        assert_eq!(clean(&photo[..photo.len() - 40]).unwrap_err(), NotCleaned::NotPlain(NotPlain::Cut));
    }

    proptest! {
        #[test]
        fn a_spoilt_photo_is_cleaned_or_refused(at in any::<prop::sample::Index>(), byte in any::<u8>(), orientation in 1..9_u8) {
            let mut photo = with(&jpeg(&scene()), 0xe1, &exif(orientation));
            let at = at.index(photo.len());
            photo[at] = byte;
            if let Ok(cleaned) = clean(&photo) {
                prop_assert_eq!(check_picture(&cleaned.bytes), Ok(PictureKind::Jpeg));
            }
        }
    }
}
