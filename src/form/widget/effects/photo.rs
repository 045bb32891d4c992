//! Makes a smaller copy of a picture. The browser decodes and encodes it anew, so the copy has none of the metadata that a camera writes.

use super::secrets::sha256;
use crate::widget::state::{KeptPhoto, PhotoTrouble};
use gloo::utils::{document, window};
use js_sys::{Function, Promise, Reflect, Uint8Array};
use record::enquiry::PhotoPlace;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, CanvasRenderingContext2d, File, HtmlCanvasElement, ImageBitmap, ImageEncodeOptions, OffscreenCanvas,
    OffscreenCanvasRenderingContext2d, Url,
};

/// Longest side of the copy, in pixels; common practice, no source.
const LONGEST: u32 = 1600;
/// JPEG quality of the copy; common practice, no source.
const QUALITY: f64 = 0.82;
const JPEG: &str = "image/jpeg";

/// Makes the photo that the form keeps out of a chosen file: a smaller JPEG without metadata, named by the SHA-256 of its bytes. Returns
/// its description and its bytes.
///
/// # Errors
/// [`PhotoTrouble`]: the page is not served securely, the file is no picture, or the browser could not make the copy.
pub async fn take(file: File, place: PhotoPlace) -> Result<(KeptPhoto, Blob), PhotoTrouble> {
    if !window().is_secure_context() {
        return Err(PhotoTrouble::NotSecure);
    }
    let bitmap = window().create_image_bitmap_with_blob(&file).map_err(|_| PhotoTrouble::NotAPicture)?;
    let bitmap = JsFuture::from(bitmap).await.map_err(|_| PhotoTrouble::NotAPicture)?;
    let bitmap: ImageBitmap = bitmap.unchecked_into();
    let (width, height) = fitted(bitmap.width(), bitmap.height());
    let copy = copied(&bitmap, width, height).await;
    bitmap.close();
    let blob: Blob = copy.map_err(|_| PhotoTrouble::NoCopy)?.dyn_into().map_err(|_| PhotoTrouble::NoCopy)?;
    let buffer = JsFuture::from(blob.array_buffer()).await.map_err(|_| PhotoTrouble::NoCopy)?;
    let bytes = Uint8Array::new(&buffer).to_vec();
    let sha256 = sha256(&bytes).await.ok_or(PhotoTrouble::NotSecure)?;
    let shown_at = Url::create_object_url_with_blob(&blob).map_err(|_| PhotoTrouble::NoCopy)?;
    Ok((KeptPhoto { sha256, place, width, height, bytes: bytes.len() as u64, shown_at }, blob))
}

/// The copy's width and height in pixels: in the picture's own proportions, with the longest side bounded.
fn fitted(width: u32, height: u32) -> (u32, u32) {
    let longest = width.max(height);
    if longest <= LONGEST {
        return (width.max(1), height.max(1));
    }
    let scaled = |side: u32| {
        let side = (u64::from(side) * u64::from(LONGEST) + u64::from(longest) / 2) / u64::from(longest);
        u32::try_from(side).unwrap_or(LONGEST).max(1)
    };
    (scaled(width), scaled(height))
}

/// Draws the picture anew and encodes it as JPEG, on a canvas outside the page where the browser has one.
async fn copied(bitmap: &ImageBitmap, width: u32, height: u32) -> Result<JsValue, JsValue> {
    let (wide, high) = (f64::from(width), f64::from(height));
    if Reflect::has(&js_sys::global(), &"OffscreenCanvas".into()).unwrap_or(false) {
        let canvas = OffscreenCanvas::new(width, height)?;
        let context = canvas.get_context("2d")?.ok_or(JsValue::NULL)?;
        let context: OffscreenCanvasRenderingContext2d = context.unchecked_into();
        context.draw_image_with_image_bitmap_and_dw_and_dh(bitmap, 0.0, 0.0, wide, high)?;
        let options = ImageEncodeOptions::new();
        options.set_type(JPEG);
        options.set_quality(QUALITY);
        return JsFuture::from(canvas.convert_to_blob_with_options(&options)?).await;
    }
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.unchecked_into();
    canvas.set_width(width);
    canvas.set_height(height);
    let context = canvas.get_context("2d")?.ok_or(JsValue::NULL)?;
    let context: CanvasRenderingContext2d = context.unchecked_into();
    context.draw_image_with_image_bitmap_and_dw_and_dh(bitmap, 0.0, 0.0, wide, high)?;
    let mut written = |resolve: Function, _: Function| {
        // If this throws, the promise resolves to null instead of a picture, and the caller finds that by its type.
        if canvas.to_blob_with_type_and_encoder_options(&resolve, JPEG, &JsValue::from_f64(QUALITY)).is_err() {
            let _ = resolve.call1(&JsValue::NULL, &JsValue::NULL);
        }
    };
    JsFuture::from(Promise::new(&mut written)).await
}

#[cfg(test)]
mod tests {
    use super::fitted;

    #[test]
    fn the_longest_side_is_bounded_and_the_shape_kept() {
        assert_eq!(fitted(4000, 3000), (1600, 1200));
        assert_eq!(fitted(3000, 4000), (1200, 1600));
        assert_eq!(fitted(800, 600), (800, 600));
        assert_eq!(fitted(100_000, 1), (1600, 1));
        assert_eq!(fitted(u32::MAX, u32::MAX), (1600, 1600));
    }
}
