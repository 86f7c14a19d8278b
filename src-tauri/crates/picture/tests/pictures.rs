//! What phones hand over, what strangers might, and what comes out.
#![allow(clippy::unwrap_used)]

mod made;

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, ExtendedColorType, GenericImageView, ImageEncoder, Rgb, RgbImage, Rgba};
use made::{SECRETS, exif, jpeg_that_tells_all, png_with, quarters, webp_with};
use picture::{EDGE_PX, Jpeg, PictureError, THUMBNAIL_PX, prepare, reduce, size};
use proptest::prelude::*;

fn open(jpeg: &Jpeg) -> RgbImage {
    let image = image::load_from_memory_with_format(&jpeg.bytes, image::ImageFormat::Jpeg)
        .unwrap()
        .into_rgb8();
    assert_eq!(image.dimensions(), (jpeg.width_px, jpeg.height_px));
    image
}

fn near(found: Rgb<u8>, wanted: [u8; 3]) {
    for (found, wanted) in found.0.into_iter().zip(wanted) {
        assert!(found.abs_diff(wanted) < 12, "{found} is not {wanted}");
    }
}

/// The segments of a JPEG file up to its scan, by marker (ITU-T T.81, B.1.1.4), and whether it
/// ends with its end.
fn markers(jpeg: &[u8]) -> Vec<u8> {
    assert_eq!(jpeg[..2], [0xff, 0xd8]);
    assert_eq!(jpeg[jpeg.len() - 2..], [0xff, 0xd9]);
    let (mut at, mut found) = (2, Vec::new());
    while found.last() != Some(&0xda) {
        assert_eq!(jpeg[at], 0xff);
        found.push(jpeg[at + 1]);
        at += 2 + usize::from(u16::from_be_bytes([jpeg[at + 2], jpeg[at + 3]]));
    }
    found
}

#[test]
fn nothing_that_lay_beside_the_pixels_comes_out() {
    let image = quarters(640, 480);
    let files = [
        ("jpeg", jpeg_that_tells_all(&image, 1)),
        ("png", png_with(&image, &exif(1))),
        ("webp", webp_with(&image, &exif(1))),
    ];
    for (name, file) in files {
        let holds = |bytes: &[u8], secret: &[u8]| bytes.windows(secret.len()).any(|w| w == secret);
        let told = SECRETS.iter().filter(|secret| holds(&file, secret)).count();
        assert!(told >= 2, "{name} was made to tell {told}");
        let prepared = prepare(&file).unwrap();
        for jpeg in [&prepared.picture, &prepared.thumbnail] {
            for secret in SECRETS {
                let text = String::from_utf8_lossy(secret);
                assert!(!holds(&jpeg.bytes, secret), "{name} still tells {text}");
            }
            // Of the optional segments only JFIF's own sixteen bytes: no APP1 to APP15, no comment.
            let optional: Vec<_> = markers(&jpeg.bytes)
                .into_iter()
                .filter(|marker| matches!(marker, 0xe0..=0xef | 0xfe))
                .collect();
            assert_eq!(optional, [0xe0], "{name}");
            assert_eq!(jpeg.bytes[4..11], *b"\0\x10JFIF\0");
        }
        near(*open(&prepared.picture).get_pixel(20, 20), [200, 30, 30]);
    }
}

/// Other tests take a photo of this file; it is made here, and made anew with `MAKE_FILES` set.
#[test]
fn the_camera_file_of_other_tests_is_the_one_that_is_made_here() {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../../tests/e2e/files/camera.jpg"
    );
    let made = made::camera_file();
    if std::env::var_os("MAKE_FILES").is_some() {
        std::fs::write(path, &made).unwrap();
    }
    assert!(std::fs::read(path).unwrap() == made, "made otherwise");
}

/// The eight orientations of Exif (CIPA DC-008, tag 0x0112): each is undone, so that the red
/// quarter is at the top left again.
#[test]
fn a_picture_held_any_way_comes_out_upright() {
    let upright = quarters(640, 480);
    let turned: [(u16, RgbImage); 8] = {
        use image::imageops::{flip_horizontal as h, flip_vertical as v};
        use image::imageops::{rotate90 as r90, rotate180 as r180, rotate270 as r270};
        // As the sensor saw it: the inverse of what the reader has to do.
        [
            (1, upright.clone()),
            (2, h(&upright)),
            (3, r180(&upright)),
            (4, v(&upright)),
            (5, h(&r90(&upright))),
            (6, r270(&upright)),
            (7, h(&r270(&upright))),
            (8, r90(&upright)),
        ]
    };
    for (orientation, image) in turned {
        for file in [
            made::jpeg_with(&image, &exif(orientation)),
            png_with(&image, &exif(orientation)),
            webp_with(&image, &exif(orientation)),
        ] {
            let Jpeg {
                width_px,
                height_px,
                ..
            } = prepare(&file).unwrap().picture;
            assert_eq!(
                (width_px, height_px),
                (640, 480),
                "orientation {orientation}"
            );
            let found = open(&prepare(&file).unwrap().picture);
            near(*found.get_pixel(20, 20), [200, 30, 30]);
            near(*found.get_pixel(620, 20), [30, 200, 30]);
            near(*found.get_pixel(20, 460), [30, 30, 200]);
            near(*found.get_pixel(620, 460), [220, 220, 220]);
        }
    }
}

#[test]
fn a_large_one_is_made_smaller_and_a_small_one_is_not_made_larger() {
    for (width, height, picture, thumbnail) in [
        (5000, 3000, (EDGE_PX, 1229), (THUMBNAIL_PX, 192)),
        (3000, 5000, (1229, EDGE_PX), (192, THUMBNAIL_PX)),
        (2049, 100, (EDGE_PX, 100), (THUMBNAIL_PX, 16)),
        (200, 100, (200, 100), (200, 100)),
        (1, 1, (1, 1), (1, 1)),
        (6000, 1, (EDGE_PX, 1), (THUMBNAIL_PX, 1)),
    ] {
        let file = made::jpeg_with(&quarters(width, height), &[]);
        let prepared = prepare(&file).unwrap();
        let size = |jpeg: &Jpeg| (jpeg.width_px, jpeg.height_px);
        assert_eq!(size(&prepared.picture), picture, "{width} by {height}");
        assert_eq!(size(&prepared.thumbnail), thumbnail, "{width} by {height}");
        assert!(prepared.thumbnail.bytes.len() <= prepared.picture.bytes.len());
        open(&prepared.picture);
        open(&prepared.thumbnail);
    }
}

#[test]
fn a_kept_picture_is_looked_at_before_it_is_shown() {
    let kept = prepare(&made::jpeg_with(&quarters(640, 480), &[]))
        .unwrap()
        .picture;
    assert_eq!(size(&kept.bytes), Ok((640, 480)));
    let smaller = reduce(&kept.bytes, 100).unwrap();
    assert_eq!((smaller.width_px, smaller.height_px), (100, 75));
    near(*open(&smaller).get_pixel(5, 5), [200, 30, 30]);
    let large = made::jpeg_with(&quarters(EDGE_PX + 1, 8), &[]);
    assert_eq!(size(&large), Err(PictureError::TooLarge));
    assert_eq!(reduce(&large, 100), Err(PictureError::TooLarge));
    let png = png_with(&quarters(8, 8), &exif(1));
    assert_eq!(size(&png), Err(PictureError::Unknown));
    assert!(matches!(
        size(b"\xff\xd8\xff\xe0"),
        Err(PictureError::Damaged(_))
    ));
}

#[test]
fn the_same_file_gives_the_same_picture() {
    let file = jpeg_that_tells_all(&quarters(640, 480), 1);
    assert_eq!(prepare(&file).unwrap(), prepare(&file).unwrap());
}

/// Colours of Display P3 (SMPTE EG 432-1 with the curve of sRGB): its red at 0.8 is a red that sRGB
/// writes higher. From the published matrices of both spaces, with D65 as white: linear sRGB red of
/// P3's red primary is 1.2249 times it (CSS Color 4, sample code for conversions).
#[test]
fn colours_are_taken_into_srgb_by_the_profile() {
    let linear: f64 = ((0.6_f64 + 0.055) / 1.055).powf(2.4) * 1.2249;
    let expected = ((1.055 * linear.powf(1.0 / 2.4) - 0.055) * 255.0).round();
    let image = RgbImage::from_pixel(64, 64, Rgb([153, 0, 0]));
    let profile = moxcms::ColorProfile::new_display_p3().encode().unwrap();
    let mut file = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut file, 100);
    encoder.set_icc_profile(profile).unwrap();
    encoder
        .encode(image.as_raw(), 64, 64, ExtendedColorType::Rgb8)
        .unwrap();
    let found = open(&prepare(&file).unwrap().picture).get_pixel(32, 32).0[0];
    assert!(
        (f64::from(found) - expected).abs() <= 3.0,
        "{found} is not {expected}"
    );
}

#[test]
fn what_shines_through_stands_on_white() {
    let mut image = image::RgbaImage::from_pixel(40, 40, Rgba([200, 0, 0, 0]));
    image.put_pixel(0, 0, Rgba([0, 0, 0, 255]));
    let mut file = std::io::Cursor::new(Vec::new());
    DynamicImage::from(image)
        .write_to(&mut file, image::ImageFormat::Png)
        .unwrap();
    let found = open(&prepare(&file.into_inner()).unwrap().picture);
    near(*found.get_pixel(30, 30), [255, 255, 255]);
}

#[test]
fn grey_and_sixteen_bit_pictures_are_read() {
    let grey = DynamicImage::from(image::GrayImage::from_pixel(30, 30, image::Luma([90])));
    let deep = DynamicImage::from(image::ImageBuffer::from_pixel(
        30,
        30,
        image::Rgb([90_u16 << 8, 90 << 8, 90 << 8]),
    ));
    for image in [grey, deep] {
        let mut file = std::io::Cursor::new(Vec::new());
        image.write_to(&mut file, image::ImageFormat::Png).unwrap();
        let found = open(&prepare(&file.into_inner()).unwrap().picture);
        near(*found.get_pixel(15, 15), [90, 90, 90]);
        assert_eq!(image.dimensions(), found.dimensions());
    }
}

#[test]
fn heic_is_told_apart_from_what_is_no_picture_at_all() {
    let heic = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic\0\0\0\0";
    assert_eq!(prepare(heic), Err(PictureError::Heic));
    for other in [
        &b""[..],
        b"%PDF-1.7",
        b"GIF89a\x01\0\x01\0",
        b"<svg/>",
        b"\0\0\0\x18ftypisom",
    ] {
        assert_eq!(prepare(other), Err(PictureError::Unknown), "{other:?}");
    }
}

#[test]
fn a_small_file_that_would_be_a_huge_picture_is_refused_before_it_is_decoded() {
    // Zeros shrink a thousandfold: 30,000 by 30,000 in under a megabyte, 2.7 GB unpacked.
    let bomb = made::png_of_zeros(30_000, 30_000);
    assert!(bomb.len() < 1 << 20, "{}", bomb.len());
    assert_eq!(prepare(&bomb), Err(PictureError::TooLarge));
    // Lying sizes, with nothing behind them.
    for (width, height) in [(u32::MAX >> 1, u32::MAX >> 1), (8247, 8247)] {
        let lie = made::png_header(width, height);
        let refused = prepare(&lie).unwrap_err();
        assert!(
            matches!(refused, PictureError::TooLarge | PictureError::Damaged(_)),
            "{refused:?}"
        );
    }
    let mut jpeg = made::jpeg_with(&quarters(16, 16), &[]);
    let frame = jpeg.windows(2).position(|w| w == [0xff, 0xc0]).unwrap();
    jpeg[frame + 5..frame + 9].copy_from_slice(&[0xff; 4]);
    assert_eq!(prepare(&jpeg), Err(PictureError::TooLarge));
    let long = vec![0xff; usize::try_from(picture::MOST_BYTES).unwrap() + 1];
    assert_eq!(prepare(&long), Err(PictureError::TooLarge));
}

#[test]
fn a_picture_that_breaks_off_is_damaged_or_shows_what_there_is() {
    for file in [
        jpeg_that_tells_all(&quarters(64, 48), 1),
        png_with(&quarters(64, 48), &exif(6)),
        webp_with(&quarters(64, 48), &exif(6)),
    ] {
        for length in (0..file.len()).step_by(7) {
            match prepare(&file[..length]) {
                Ok(_) | Err(PictureError::Damaged(_) | PictureError::Unknown) => {}
                Err(other) => panic!("{length}: {other:?}"),
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// Any bytes at any places of a good picture: an answer, never a panic.
    #[test]
    fn a_spoilt_picture_is_answered(
        which in 0..3_usize,
        spoilt in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..12),
    ) {
        let image = quarters(24, 16);
        let mut file = match which {
            0 => jpeg_that_tells_all(&image, 1),
            1 => png_with(&image, &exif(3)),
            _ => webp_with(&image, &exif(3)),
        };
        for (at, byte) in spoilt {
            let at = at.index(file.len());
            file[at] = byte;
        }
        let _ = prepare(&file);
    }
}
