//! Looking through files byte by byte for texts that should not be in them.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use memchr::memmem::Finder;

use crate::error::StoreError;

/// Shorter texts are met by chance; letters and digits are counted.
const LEAST_LETTERS: usize = 4;
/// A longer text is looked for in pieces, since a database may keep it on several pages.
const WHOLE: usize = 64;
const PIECE: usize = 40;
const STEP: usize = 1 << 20;

/// What is looked for.
#[derive(Debug)]
pub struct Needles {
    finders: Vec<Finder<'static>>,
    longest: usize,
    texts: usize,
    too_short: usize,
}

/// What looking through something gave.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Looked {
    /// Bytes that were looked through.
    pub bytes: u64,
    /// Whether any of the texts, or a piece of one, is there.
    pub found: bool,
}

impl Needles {
    /// Of these texts, as they are and as JSON writes them.
    #[must_use]
    pub fn of<'a>(texts: impl IntoIterator<Item = &'a str>) -> Self {
        let mut needles = Self {
            finders: Vec::new(),
            longest: 1,
            texts: 0,
            too_short: 0,
        };
        for text in texts {
            let text = text.trim();
            if !is_long_enough(text) {
                needles.too_short += usize::from(!text.is_empty());
                continue;
            }
            needles.texts += 1;
            needles.add(text);
            let escaped = escaped(text);
            if escaped != text {
                needles.add(&escaped);
            }
        }
        needles
    }

    fn add(&mut self, text: &str) {
        let mut rest = text;
        while rest.len() > WHOLE {
            let cut = (PIECE..).find(|&at| rest.is_char_boundary(at));
            let (piece, after) = rest.split_at(cut.unwrap_or(rest.len()));
            self.push(piece);
            rest = after;
        }
        self.push(rest);
    }

    fn push(&mut self, piece: &str) {
        if is_long_enough(piece) {
            self.longest = self.longest.max(piece.len());
            self.finders.push(Finder::new(piece).into_owned());
        }
    }

    /// How many texts are looked for.
    #[must_use]
    pub const fn texts(&self) -> usize {
        self.texts
    }

    /// How many are too short to be looked for.
    #[must_use]
    pub const fn too_short(&self) -> usize {
        self.too_short
    }

    /// Whether any is in these bytes.
    #[must_use]
    pub fn are_in(&self, bytes: &[u8]) -> bool {
        self.finders
            .iter()
            .any(|finder| finder.find(bytes).is_some())
    }

    /// Looks through a file, with memory bounded.
    ///
    /// # Errors
    /// [`StoreError`] if it can't be read to its end.
    pub fn look_through(&self, path: &Path) -> Result<Looked, StoreError> {
        let mut file = File::open(path)?;
        let mut looked = Looked::default();
        let mut window = Vec::with_capacity(STEP + self.longest);
        loop {
            // What is kept of the last step, so that nothing is missed across the seam.
            let keep = window.len().min(self.longest - 1);
            window.drain(..window.len() - keep);
            let read = file.by_ref().take(STEP as u64).read_to_end(&mut window)?;
            if read == 0 {
                return Ok(looked);
            }
            looked.bytes += read as u64;
            looked.found |= self.are_in(&window);
        }
    }
}

/// Whether a text says enough to be looked for.
pub(crate) fn is_long_enough(text: &str) -> bool {
    text.chars().filter(|c| c.is_alphanumeric()).count() >= LEAST_LETTERS
}

/// As JSON writes it, without the quotes.
pub(crate) fn escaped(text: &str) -> String {
    let quoted = serde_json::Value::from(text).to_string();
    quoted[1..quoted.len() - 1].to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_found_wherever_it_lies_across_the_steps() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("f");
        let needles = Needles::of(["Ines Abendroth"]);
        for at in [0, STEP - 14, STEP - 7, STEP - 1, STEP, 2 * STEP - 3] {
            let mut bytes = vec![b'x'; 2 * STEP + 100];
            bytes[at..at + 14].copy_from_slice(b"Ines Abendroth");
            std::fs::write(&path, &bytes).unwrap();
            let looked = needles.look_through(&path).unwrap();
            assert!(looked.found, "{at}");
            assert_eq!(looked.bytes, bytes.len() as u64);
        }
        std::fs::write(&path, vec![b'I'; 3 * STEP]).unwrap();
        assert!(!needles.look_through(&path).unwrap().found);
    }

    #[test]
    fn a_long_text_is_found_by_its_pieces_and_a_short_one_is_not_looked_for() {
        let long =
            "ä".repeat(100) + &"says that it shifts hard when hot and sometimes not ".repeat(9);
        let needles = Needles::of([long.as_str(), "Jo", "  "]);
        assert_eq!((needles.texts(), needles.too_short()), (1, 1));
        let cut = long.len() / 2;
        let cut = (cut..).find(|&at| long.is_char_boundary(at)).unwrap();
        assert!(needles.are_in(&long.as_bytes()[cut..]));
        assert!(!needles.are_in(b"something else altogether, and long enough to hold a piece"));
    }

    #[test]
    fn what_json_escapes_is_found_too() {
        let needles = Needles::of(["the \"Duke\"\nof Hollow Lane"]);
        assert!(needles.are_in(br#"{"name":"the \"Duke\"\nof Hollow Lane"}"#));
    }
}
