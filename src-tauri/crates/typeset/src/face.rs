//! The typefaces, and text shaped in them.

use std::sync::Arc;

use krilla::text::{Font, GlyphId, KrillaGlyph};
use rustybuzz::ttf_parser::Tag;
use rustybuzz::{Direction, Feature, UnicodeBuffer};
use usvg::fontdb::Database;

use crate::TypesetError;

const REGULAR: &[u8] = include_bytes!("../assets/atkinson-hyperlegible-next-regular.ttf");
const BOLD: &[u8] = include_bytes!("../assets/atkinson-hyperlegible-next-bold.ttf");
const MONO: &[u8] = include_bytes!("../assets/atkinson-hyperlegible-mono-regular.ttf");

/// The family that drawings are lettered in.
pub(crate) const FAMILY: &str = "Atkinson Hyperlegible Next";

/// Stands for a character that the typeface doesn't have.
pub(crate) const MISSING: char = '\u{fffd}';

/// Which face.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Weight {
    Regular,
    Bold,
    Mono,
}

/// How text looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Style {
    pub weight: Weight,
    /// pt.
    pub size: f32,
    /// In the softer ink.
    pub soft: bool,
    /// Struck out.
    pub struck: bool,
}

/// One face, ready to shape and to be embedded.
pub(crate) struct Face {
    pub font: Font,
    shaper: rustybuzz::Face<'static>,
}

/// All of them.
pub(crate) struct Faces {
    regular: Face,
    bold: Face,
    mono: Face,
    /// For drawings. Nothing of the system's is in it.
    pub drawings: Arc<Database>,
}

/// Text with its glyphs.
#[derive(Debug, Clone)]
pub(crate) struct Shaped {
    pub glyphs: Vec<KrillaGlyph>,
    /// pt.
    pub width: f32,
}

impl Face {
    fn load(data: &'static [u8]) -> Result<Self, TypesetError> {
        Ok(Self {
            font: Font::new(data.into(), 0).ok_or(TypesetError::Font)?,
            shaper: rustybuzz::Face::from_slice(data, 0).ok_or(TypesetError::Font)?,
        })
    }

    fn shape(&self, text: &str, size: f32) -> Shaped {
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(text);
        buffer.set_direction(Direction::LeftToRight);
        buffer.guess_segment_properties();
        buffer.set_direction(Direction::LeftToRight);
        // Figures stand below each other in columns.
        let tabular = Feature::new(Tag::from_bytes(b"tnum"), 1, ..);
        let shaped = rustybuzz::shape(&self.shaper, &[tabular], buffer);
        let em = self.shaper.units_per_em() as f32;
        let (infos, positions) = (shaped.glyph_infos(), shaped.glyph_positions());
        let mut glyphs = Vec::with_capacity(infos.len());
        let mut width = 0.0;
        for (i, (info, position)) in infos.iter().zip(positions).enumerate() {
            let start = info.cluster as usize;
            let end = infos
                .iter()
                .skip(i)
                .map(|later| later.cluster as usize)
                .find(|&cluster| cluster > start)
                .unwrap_or(text.len());
            let advance = position.x_advance as f32 / em;
            width += advance * size;
            glyphs.push(KrillaGlyph::new(
                GlyphId::new(info.glyph_id),
                advance,
                position.x_offset as f32 / em,
                position.y_offset as f32 / em,
                position.y_advance as f32 / em,
                start..end,
                None,
            ));
        }
        Shaped { glyphs, width }
    }
}

impl Faces {
    pub fn load() -> Result<Self, TypesetError> {
        let mut drawings = Database::new();
        for data in [REGULAR, BOLD] {
            drawings.load_font_data(data.to_vec());
        }
        Ok(Self {
            regular: Face::load(REGULAR)?,
            bold: Face::load(BOLD)?,
            mono: Face::load(MONO)?,
            drawings: Arc::new(drawings),
        })
    }

    pub fn get(&self, weight: Weight) -> &Face {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
            Weight::Mono => &self.mono,
        }
    }

    pub fn shape(&self, text: &str, style: Style) -> Shaped {
        self.get(style.weight).shape(text, style.size)
    }

    /// Whether all faces have it.
    pub fn have(&self, c: char) -> bool {
        [&self.regular, &self.bold, &self.mono]
            .into_iter()
            .all(|face| face.shaper.glyph_index(c).is_some_and(|glyph| glyph.0 > 0))
    }
}
