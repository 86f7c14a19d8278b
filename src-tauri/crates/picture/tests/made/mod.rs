//! Pictures made for a test, with all that real ones carry beside their pixels.
#![allow(dead_code)]

use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::PngEncoder;
use image::codecs::webp::WebPEncoder;
use image::{ExtendedColorType, ImageEncoder, Rgb, RgbImage};

/// Texts that the files below hold, and that must not come out. The last is a camera's position as
/// Exif writes it.
pub const SECRETS: [&[u8]; 8] = [
    b"Invented Camera 7",
    b"2026:04:14 12:00:00",
    b"Owner: Ines Halloway",
    b"<x:xmpmeta",
    b"a comment in the file",
    b"bytes behind the end",
    b"IPTC caption",
    &GPS_LATITUDE,
];

/// 48° 12' 30", as three fractions of 32-bit numbers.
const GPS_LATITUDE: [u8; 24] = [
    48, 0, 0, 0, 1, 0, 0, 0, 12, 0, 0, 0, 1, 0, 0, 0, 30, 0, 0, 0, 1, 0, 0, 0,
];

/// Red, green, blue and light grey quarters.
pub fn quarters(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        Rgb(match (x < width / 2, y < height / 2) {
            (true, true) => [200, 30, 30],
            (false, true) => [30, 200, 30],
            (true, false) => [30, 30, 200],
            (false, false) => [220, 220, 220],
        })
    })
}

/// A TIFF structure as Exif has it (CIPA DC-008, 4.6), little-endian: camera, orientation, time,
/// owner, and the GPS folder with a latitude.
pub fn exif(orientation: u16) -> Vec<u8> {
    const ENTRIES: u32 = 5;
    let mut head = b"II\x2a\0\x08\0\0\0".to_vec();
    head.extend((ENTRIES as u16).to_le_bytes());
    let after = 8 + 2 + ENTRIES * 12 + 4;
    let mut values: Vec<u8> = Vec::new();
    let mut entry = |tag: u16, kind: u16, count: u32, value: &[u8]| {
        head.extend(tag.to_le_bytes());
        head.extend(kind.to_le_bytes());
        head.extend(count.to_le_bytes());
        if value.len() <= 4 {
            let mut short = value.to_vec();
            short.resize(4, 0);
            head.extend(short);
        } else {
            head.extend((after + values.len() as u32).to_le_bytes());
            values.extend(value);
            values.resize(values.len().next_multiple_of(2), 0);
        }
    };
    let text = |text: &str| [text.as_bytes(), b"\0"].concat();
    let camera = text("Invented Camera 7");
    let time = text("2026:04:14 12:00:00");
    let owner = text("Owner: Ines Halloway");
    entry(0x0110, 2, camera.len() as u32, &camera);
    entry(0x0112, 3, 1, &orientation.to_le_bytes());
    entry(0x0132, 2, time.len() as u32, &time);
    entry(0x013b, 2, owner.len() as u32, &owner);
    // The GPS folder lies behind all values, of which this is the last.
    let gps_at = after
        + [&camera, &time, &owner]
            .iter()
            .map(|value| value.len().next_multiple_of(2) as u32)
            .sum::<u32>();
    entry(0x8825, 4, 1, &gps_at.to_le_bytes());
    head.extend([0; 4]);
    head.extend(values);
    assert_eq!(head.len() as u32, gps_at);
    head.extend(1_u16.to_le_bytes());
    head.extend(2_u16.to_le_bytes());
    head.extend(5_u16.to_le_bytes());
    head.extend(3_u32.to_le_bytes());
    head.extend((gps_at + 2 + 12 + 4).to_le_bytes());
    head.extend([0; 4]);
    head.extend(GPS_LATITUDE);
    head
}

/// A spool on a bench, held on its side by the camera: what the end-to-end tests take a photo of.
pub fn camera_file() -> Vec<u8> {
    let image = RgbImage::from_fn(640, 480, |x, y| {
        // Upright it is 480 wide and 640 high.
        let (across, down) = (480 - 1 - y, x);
        let land = matches!(down, 60..160 | 250..350 | 470..590);
        let from_axis = across.abs_diff(240);
        let shade = |base: u32| u8::try_from(base.saturating_sub(from_axis / 2)).unwrap_or(255);
        if land && from_axis < 110 {
            // A score along the second land.
            if (250..350).contains(&down) && across.abs_diff(265) < 4 {
                Rgb([70, 60, 55])
            } else {
                Rgb([shade(225), shade(225), shade(215)])
            }
        } else if (30..610).contains(&down) && from_axis < 55 {
            Rgb([shade(185), shade(185), shade(190)])
        } else {
            Rgb([90, (100 + down / 16) as u8, 85])
        }
    });
    jpeg_that_tells_all(&image, 6)
}

fn segment(marker: u8, content: &[u8]) -> Vec<u8> {
    let length = u16::try_from(content.len() + 2).unwrap().to_be_bytes();
    [&[0xff, marker], &length[..], content].concat()
}

/// A JPEG file with this Exif, if any.
pub fn jpeg_with(image: &RgbImage, exif: &[u8]) -> Vec<u8> {
    let mut file = Vec::new();
    JpegEncoder::new_with_quality(&mut file, 95)
        .encode(
            image.as_raw(),
            image.width(),
            image.height(),
            ExtendedColorType::Rgb8,
        )
        .unwrap();
    if exif.is_empty() {
        return file;
    }
    let app1 = segment(0xe1, &[b"Exif\0\0", exif].concat());
    [&file[..2], &app1, &file[2..]].concat()
}

/// A JPEG file with Exif, XMP, IPTC, a comment, a colour profile and bytes behind its end.
pub fn jpeg_that_tells_all(image: &RgbImage, orientation: u16) -> Vec<u8> {
    let file = jpeg_with(image, &exif(orientation));
    let xmp = b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta xmlns:x='adobe:ns:meta/'/>";
    let iptc = b"Photoshop 3.0\08BIM\x04\x04\0\0\0\0\0\x14\x1c\x02\x78\0\x0cIPTC caption";
    let mut profile = moxcms::ColorProfile::new_srgb().encode().unwrap();
    // The encoder writes the present moment into the header (ICC.1, 7.2.8), and the file would be
    // another each time: 2026-11-25 16:47:32 instead.
    profile[24..36].copy_from_slice(&[0x07, 0xea, 0, 11, 0, 25, 0, 16, 0, 47, 0, 32]);
    let icc = [b"ICC_PROFILE\0\x01\x01", &profile[..]].concat();
    [
        &file[..2],
        &segment(0xe1, xmp),
        &segment(0xed, iptc),
        &segment(0xe2, &icc),
        &segment(0xfe, b"a comment in the file"),
        &file[2..],
        b"bytes behind the end",
    ]
    .concat()
}

/// A PNG file with this Exif and bytes behind its end.
pub fn png_with(image: &RgbImage, exif: &[u8]) -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = PngEncoder::new(&mut file);
    encoder.set_exif_metadata(exif.to_vec()).unwrap();
    encoder
        .write_image(
            image.as_raw(),
            image.width(),
            image.height(),
            ExtendedColorType::Rgb8,
        )
        .unwrap();
    file.extend(b"bytes behind the end");
    file
}

/// A WebP file with this Exif.
pub fn webp_with(image: &RgbImage, exif: &[u8]) -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = WebPEncoder::new_lossless(&mut file);
    encoder.set_exif_metadata(exif.to_vec()).unwrap();
    encoder
        .write_image(
            image.as_raw(),
            image.width(),
            image.height(),
            ExtendedColorType::Rgb8,
        )
        .unwrap();
    file
}

/// A grey PNG file of this size, all black.
pub fn png_of_zeros(width: u32, height: u32) -> Vec<u8> {
    use std::io::Write;
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, width, height);
    encoder.set_color(png::ColorType::Grayscale);
    let mut writer = encoder.write_header().unwrap();
    let mut stream = writer.stream_writer().unwrap();
    let row = vec![0; width as usize];
    for _ in 0..height {
        stream.write_all(&row).unwrap();
    }
    stream.finish().unwrap();
    drop(writer);
    file
}

/// The beginning of a PNG file that claims a size (PNG 3rd edition, 11.2.1), and nothing more.
pub fn png_header(width: u32, height: u32) -> Vec<u8> {
    let mut content = b"IHDR".to_vec();
    content.extend(width.to_be_bytes());
    content.extend(height.to_be_bytes());
    content.extend([8, 2, 0, 0, 0]);
    let mut sum = u32::MAX;
    for byte in &content {
        sum ^= u32::from(*byte);
        for _ in 0..8 {
            sum = if sum & 1 == 1 {
                sum >> 1 ^ 0xedb8_8320
            } else {
                sum >> 1
            };
        }
    }
    let mut file = b"\x89PNG\r\n\x1a\n\0\0\0\x0d".to_vec();
    file.extend(&content);
    file.extend((!sum).to_be_bytes());
    file.extend(b"\0\0\0\0IDAT");
    file
}
