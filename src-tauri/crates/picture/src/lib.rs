//! A picture as a phone or a browser gives it, made fit to keep.
//!
//! What comes in is a stranger's file; what goes out is written here from the pixels alone. So
//! nothing that lay beside them survives: where and when it was taken and with what (Exif, XMP,
//! IPTC), comments, a smaller picture inside, colour profiles, bytes behind the end. The picture
//! is turned upright as its Exif says, its colours are taken into sRGB, and it is made smaller:
//! a wear mark can still be seen, and a hundred of them can still be passed on.
//!
//! A crate of its own, since it needs nothing of the others, reads hostile files, and keeps the
//! codecs out of everything but `api`.
#![deny(missing_docs)]

mod colour;

use std::io::Cursor;

use image::codecs::jpeg::{JpegDecoder, JpegEncoder};
use image::imageops::FilterType;
use image::{
    DynamicImage, ExtendedColorType, ImageDecoder, ImageError, ImageFormat, ImageReader, Limits,
    RgbImage,
};

/// The longest edge of a picture that is kept, in pixels.
pub const EDGE_PX: u32 = 2048;

/// The longest edge of a thumbnail, in pixels.
pub const THUMBNAIL_PX: u32 = 320;

/// The most pixels that a picture may have. The largest that phones give as they come is 64
/// million (9248 by 6936).
pub const MOST_PIXELS: u64 = 68_000_000;

/// The longest file that is read, in bytes.
pub const MOST_BYTES: u64 = 48 << 20;

/// What decoding may take up, in bytes.
const MOST_MEMORY: u64 = 208 << 20;

const PICTURE_QUALITY: u8 = 84;
const THUMBNAIL_QUALITY: u8 = 76;

/// A JPEG file that was written here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Jpeg {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// Its width in pixels.
    pub width_px: u32,
    /// Its height in pixels.
    pub height_px: u32,
}

/// A picture fit to keep, and a small one of the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prepared {
    /// At most [`EDGE_PX`] on an edge.
    pub picture: Jpeg,
    /// At most [`THUMBNAIL_PX`] on an edge.
    pub thumbnail: Jpeg,
}

/// Why a file can't be taken as a picture.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum PictureError {
    /// Neither JPEG nor PNG nor WebP.
    #[error("not a JPEG, PNG or WebP picture")]
    Unknown,
    /// HEIC or another of its family, which no free library reads safely: phones can be set to take
    /// JPEG, and hand one out when a browser asks for a picture.
    #[error("a HEIC picture")]
    Heic,
    /// More than [`MOST_BYTES`], or than [`MOST_PIXELS`], or than fits in memory.
    #[error("too large a picture")]
    TooLarge,
    /// It begins as a picture and can't be read as one.
    #[error("a damaged picture: {0}")]
    Damaged(String),
}

impl From<ImageError> for PictureError {
    fn from(error: ImageError) -> Self {
        match error {
            ImageError::Limits(_) => Self::TooLarge,
            error => Self::Damaged(error.to_string()),
        }
    }
}

/// Makes a picture fit to keep. Equal bytes give equal pictures.
///
/// # Errors
/// [`PictureError`]; nothing larger than its limits is decoded.
pub fn prepare(file: &[u8]) -> Result<Prepared, PictureError> {
    if file.len() as u64 > MOST_BYTES {
        return Err(PictureError::TooLarge);
    }
    let picture = shrink(read(file)?, EDGE_PX);
    let thumbnail = shrink(picture.clone(), THUMBNAIL_PX);
    Ok(Prepared {
        picture: write(&picture.into_rgb8(), PICTURE_QUALITY)?,
        thumbnail: write(&thumbnail.into_rgb8(), THUMBNAIL_QUALITY)?,
    })
}

/// The size of a picture as [`prepare`] writes them, read from its beginning: for a file that came
/// from elsewhere, before anybody is shown it.
///
/// # Errors
/// [`PictureError::Unknown`] for anything but JPEG; [`PictureError::TooLarge`] above [`EDGE_PX`];
/// [`PictureError::Damaged`].
pub fn size(jpeg: &[u8]) -> Result<(u32, u32), PictureError> {
    if !matches!(image::guess_format(jpeg), Ok(ImageFormat::Jpeg)) {
        return Err(PictureError::Unknown);
    }
    let (width, height) = JpegDecoder::new(Cursor::new(jpeg))?.dimensions();
    if width.max(height) > EDGE_PX {
        return Err(PictureError::TooLarge);
    }
    Ok((width, height))
}

/// A picture as [`prepare`] writes them, with no edge longer than this.
///
/// # Errors
/// As [`size`].
pub fn reduce(jpeg: &[u8], edge_px: u32) -> Result<Jpeg, PictureError> {
    size(jpeg)?;
    let picture = DynamicImage::from_decoder(JpegDecoder::new(Cursor::new(jpeg))?)?;
    write(
        &shrink(picture, edge_px.max(1)).into_rgb8(),
        PICTURE_QUALITY,
    )
}

/// Upright, opaque, in sRGB, and not much larger than is needed.
fn read(file: &[u8]) -> Result<DynamicImage, PictureError> {
    let format = match image::guess_format(file) {
        Ok(format @ (ImageFormat::Jpeg | ImageFormat::Png | ImageFormat::WebP)) => format,
        _ if is_heic(file) => return Err(PictureError::Heic),
        _ => return Err(PictureError::Unknown),
    };
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(MOST_MEMORY);
    let mut reader = ImageReader::with_format(Cursor::new(file), format);
    reader.limits(limits);
    let mut decoder = reader.into_decoder()?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > MOST_PIXELS || decoder.total_bytes() > MOST_MEMORY {
        return Err(PictureError::TooLarge);
    }
    let orientation = decoder.orientation()?;
    // One that can't be read is as good as none.
    let profile = decoder.icc_profile().unwrap_or_default();
    let decoded = DynamicImage::from_decoder(decoder)?;
    let mut picture = opaque(coarse(decoded, EDGE_PX));
    if let Some(profile) = profile {
        colour::into_srgb(&mut picture, &profile);
    }
    let mut picture = DynamicImage::from(picture);
    picture.apply_orientation(orientation);
    Ok(picture)
}

/// The beginning of an ISO base media file (ISO/IEC 14496-12, 4.3) with a brand of HEIF
/// (ISO/IEC 23008-12, annex B) or AVIF.
fn is_heic(file: &[u8]) -> bool {
    const BRANDS: [&[u8]; 9] = [
        b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1", b"avif",
    ];
    file.get(4..8) == Some(b"ftyp") && file.get(8..12).is_some_and(|brand| BRANDS.contains(&brand))
}

/// Averages a much larger picture down to twice the edge, fast and without much memory.
fn coarse(picture: DynamicImage, edge: u32) -> DynamicImage {
    if picture.width().max(picture.height()) > 2 * edge {
        picture.thumbnail(2 * edge, 2 * edge)
    } else {
        picture
    }
}

fn shrink(picture: DynamicImage, edge: u32) -> DynamicImage {
    let picture = coarse(picture, edge);
    if picture.width().max(picture.height()) > edge {
        picture.resize(edge, edge, FilterType::CatmullRom)
    } else {
        picture
    }
}

/// On white, as a screen or paper shows it.
fn opaque(picture: DynamicImage) -> RgbImage {
    if !picture.color().has_alpha() {
        return picture.into_rgb8();
    }
    let from = picture.into_rgba8();
    let mut onto = RgbImage::new(from.width(), from.height());
    for (to, from) in onto.pixels_mut().zip(from.pixels()) {
        let [red, green, blue, alpha] = from.0.map(u32::from);
        let over = |part: u32| {
            let mixed = (part * alpha + 255 * (255 - alpha) + 127) / 255;
            u8::try_from(mixed).unwrap_or(u8::MAX)
        };
        to.0 = [red, green, blue].map(over);
    }
    onto
}

fn write(picture: &RgbImage, quality: u8) -> Result<Jpeg, PictureError> {
    let (width_px, height_px) = picture.dimensions();
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, quality).encode(
        picture.as_raw(),
        width_px,
        height_px,
        ExtendedColorType::Rgb8,
    )?;
    Ok(Jpeg {
        bytes,
        width_px,
        height_px,
    })
}
