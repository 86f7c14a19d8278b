//! Colours as the picture's own profile means them.

use image::RgbImage;
use moxcms::{ColorProfile, DataColorSpace, Layout, TransformOptions};

/// The longest profile that is looked at, in bytes; those of cameras have a few thousand.
const LONGEST: usize = 1 << 20;

/// Takes a picture's colours into sRGB (IEC 61966-2-1): what a phone with a wide screen writes
/// would look pale without. A profile that can't be used leaves them as they are.
pub(crate) fn into_srgb(picture: &mut RgbImage, profile: &[u8]) {
    if profile.len() > LONGEST {
        return;
    }
    let Ok(profile) = ColorProfile::new_from_slice(profile) else {
        return;
    };
    if profile.color_space != DataColorSpace::Rgb {
        return;
    }
    let made = profile.create_transform_8bit(
        Layout::Rgb,
        &ColorProfile::new_srgb(),
        Layout::Rgb,
        TransformOptions::default(),
    );
    let Ok(transform) = made else { return };
    let mut row_out = vec![0; picture.width() as usize * 3];
    let width = row_out.len();
    for row in picture
        .as_flat_samples_mut()
        .samples
        .chunks_exact_mut(width)
    {
        if transform.transform(row, &mut row_out).is_err() {
            return;
        }
        row.copy_from_slice(&row_out);
    }
}
