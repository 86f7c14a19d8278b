//! Text broken into lines (UAX 14), each of parts that share a style.

use unicode_linebreak::linebreaks;

use crate::face::{Faces, Shaped, Style};

/// A piece of a paragraph.
#[derive(Debug, Clone)]
pub(crate) enum Inline {
    Text(String, Style),
    Break,
    /// A judgement's mark, by its place among the drawings, and its size in pt. The word follows it.
    Mark(usize, f32),
}

/// A part of a line.
#[derive(Debug, Clone)]
pub(crate) enum Part {
    Text {
        x: f32,
        text: String,
        style: Style,
        shaped: Shaped,
    },
    Mark {
        x: f32,
        size: f32,
        drawing: usize,
    },
}

/// A line, laid out from its left end.
#[derive(Debug, Clone, Default)]
pub(crate) struct Line {
    pub parts: Vec<Part>,
    /// Without the space at its end, pt.
    pub width: f32,
    /// From its top to the top of the next, pt.
    pub height: f32,
}

const LEADING: f32 = 1.32;
/// Between a mark and its word, in sizes of the mark.
const MARK_GAP: f32 = 0.35;
/// Stands for a mark while lines are broken: it holds on to what follows.
const MARK: char = '\u{2060}';

impl Line {
    /// From its top to the baseline, pt.
    pub fn ascent(&self) -> f32 {
        self.height * 0.78
    }
}

/// What may stand at the end of a line or start the next, but isn't broken itself.
#[derive(Debug, Clone, Default)]
struct Piece {
    parts: Vec<Bit>,
    /// With the spaces at its end, and without.
    full: f32,
    trimmed: f32,
}

#[derive(Debug, Clone)]
enum Bit {
    Text(String, Style),
    Mark(usize, f32),
}

/// The paragraph in lines of at most `width`.
pub(crate) fn lines(faces: &Faces, inlines: &[Inline], width: f32) -> Vec<Line> {
    let mut found = Vec::new();
    for stretch in inlines.split(|it| matches!(it, Inline::Break)) {
        stretch_lines(faces, stretch, width, &mut found);
    }
    // A break at the very end opens no line.
    if matches!(inlines.last(), Some(Inline::Break)) {
        found.pop();
    }
    found
}

/// The widest piece that isn't broken, pt.
pub(crate) fn least_width(faces: &Faces, inlines: &[Inline]) -> f32 {
    inlines
        .split(|it| matches!(it, Inline::Break))
        .flat_map(|stretch| pieces(faces, stretch))
        .map(|piece| piece.trimmed)
        .fold(0.0, f32::max)
}

/// The width that keeps each stretch on one line.
pub(crate) fn whole_width(faces: &Faces, inlines: &[Inline]) -> f32 {
    inlines
        .split(|it| matches!(it, Inline::Break))
        .map(|stretch| {
            let (mut at, mut end) = (0.0_f32, 0.0_f32);
            for piece in pieces(faces, stretch) {
                end = at + piece.trimmed;
                at += piece.full;
            }
            end
        })
        .fold(0.0, f32::max)
}

fn stretch_lines(faces: &Faces, stretch: &[Inline], width: f32, found: &mut Vec<Line>) {
    let size = stretch.iter().map(size_of).fold(0.0, f32::max);
    let mut line: Vec<Bit> = Vec::new();
    let (mut at, mut end) = (0.0_f32, 0.0_f32);
    for piece in pieces(faces, stretch) {
        for piece in fitting(faces, piece, width) {
            if !line.is_empty() && at + piece.trimmed > width + 0.01 {
                found.push(finished(faces, std::mem::take(&mut line), end, size));
                at = 0.0;
            }
            end = at + piece.trimmed;
            at += piece.full;
            line.extend(piece.parts);
        }
    }
    found.push(finished(
        faces,
        line,
        end,
        if size > 0.0 { size } else { 9.0 },
    ));
}

fn size_of(inline: &Inline) -> f32 {
    match inline {
        Inline::Text(_, style) => style.size,
        Inline::Mark(..) | Inline::Break => 0.0,
    }
}

/// Pieces between the places where a line may break.
fn pieces(faces: &Faces, stretch: &[Inline]) -> Vec<Piece> {
    let mut text = String::new();
    // Where each inline ends in the text.
    let mut ends = Vec::new();
    for inline in stretch {
        match inline {
            Inline::Text(said, _) => text.push_str(said),
            Inline::Mark(..) => text.push(MARK),
            Inline::Break => {}
        }
        ends.push(text.len());
    }
    let mut found = Vec::new();
    let mut from = 0;
    for (to, _) in linebreaks(&text) {
        let mut piece = Piece::default();
        let mut start = 0;
        for (inline, &end) in stretch.iter().zip(&ends) {
            let (low, high) = (from.max(start), to.min(end));
            start = end;
            if low >= high {
                continue;
            }
            match inline {
                Inline::Text(_, style) => {
                    let said = text.get(low..high).unwrap_or_default();
                    piece.parts.push(Bit::Text(said.to_owned(), *style));
                }
                Inline::Mark(drawing, size) => piece.parts.push(Bit::Mark(*drawing, *size)),
                Inline::Break => {}
            }
        }
        measure(faces, &mut piece);
        found.push(piece);
        from = to;
    }
    found
}

fn width_of(faces: &Faces, bit: &Bit) -> f32 {
    match bit {
        Bit::Text(said, style) => faces.shape(said, *style).width,
        Bit::Mark(_, size) => size * (1.0 + MARK_GAP),
    }
}

fn measure(faces: &Faces, piece: &mut Piece) {
    piece.full = piece.parts.iter().map(|bit| width_of(faces, bit)).sum();
    piece.trimmed = piece.full;
    for bit in piece.parts.iter().rev() {
        let Bit::Text(said, style) = bit else { break };
        let kept = said.trim_end_matches([' ', '\u{a0}']);
        if kept.len() < said.len() {
            let space = said.get(kept.len()..).unwrap_or_default();
            piece.trimmed -= faces.shape(space, *style).width;
        }
        if !kept.is_empty() {
            break;
        }
    }
}

/// The piece, or if it is wider than a line, its letters in pieces that aren't.
fn fitting(faces: &Faces, piece: Piece, width: f32) -> Vec<Piece> {
    if piece.trimmed <= width {
        return vec![piece];
    }
    let mut found = Vec::new();
    let mut current = Piece::default();
    let mut at = 0.0;
    for bit in piece.parts {
        let Bit::Text(said, style) = bit else {
            at += width_of(faces, &bit);
            current.parts.push(bit);
            continue;
        };
        // Letters are set closer or wider by what they stand beside: a run is measured as a whole.
        let mut run = String::new();
        for letter in said.chars() {
            run.push(letter);
            if at + faces.shape(&run, style).width > width
                && (at > 0.0 || run.len() > letter.len_utf8())
            {
                run.pop();
                if !run.is_empty() {
                    let done = std::mem::take(&mut run);
                    current.parts.push(Bit::Text(done, style));
                }
                found.push(std::mem::take(&mut current));
                at = 0.0;
                run.push(letter);
            }
        }
        at += faces.shape(&run, style).width;
        if !run.is_empty() {
            current.parts.push(Bit::Text(run, style));
        }
    }
    found.push(current);
    for piece in &mut found {
        measure(faces, piece);
    }
    found
}

/// Parts of one style become one run of text, with its spaces.
fn finished(faces: &Faces, bits: Vec<Bit>, width: f32, size: f32) -> Line {
    let mut runs: Vec<Bit> = Vec::new();
    for bit in bits {
        match (runs.last_mut(), bit) {
            (Some(Bit::Text(before, style)), Bit::Text(said, same)) if *style == same => {
                before.push_str(&said);
            }
            (_, bit) => runs.push(bit),
        }
    }
    let mut x = 0.0;
    let parts = runs
        .into_iter()
        .map(|bit| match bit {
            Bit::Text(text, style) => {
                let shaped = faces.shape(&text, style);
                let part = Part::Text {
                    x,
                    text,
                    style,
                    shaped: shaped.clone(),
                };
                x += shaped.width;
                part
            }
            Bit::Mark(drawing, size) => {
                let part = Part::Mark { x, size, drawing };
                x += size * (1.0 + MARK_GAP);
                part
            }
        })
        .collect();
    Line {
        parts,
        width,
        height: size * LEADING,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

    use super::*;
    use crate::face::Weight;

    fn style(weight: Weight) -> Style {
        Style {
            weight,
            size: 9.0,
            soft: false,
            struck: false,
        }
    }

    fn said(line: &Line) -> String {
        let texts = line.parts.iter().map(|part| match part {
            Part::Text { text, .. } => text.as_str(),
            Part::Mark { .. } => "",
        });
        texts.collect()
    }

    #[test]
    fn no_line_is_too_long_and_no_letter_is_lost() {
        let faces = Faces::load().unwrap();
        let texts = [
            "Two words",
            "A sentence of a report, with 12.3\u{a0}psi (84.8\u{a0}kPa) and so on, to its end.",
            "Unbreakableunbreakableunbreakableunbreakableunbreakable",
            "",
            "   ",
        ];
        for text in texts {
            for width in [20.0, 75.0, 400.0] {
                let (first, rest) = text.split_at(text.len() / 3);
                let inlines = [
                    Inline::Text(first.to_owned(), style(Weight::Regular)),
                    Inline::Text(rest.to_owned(), style(Weight::Bold)),
                ];
                let lines = lines(&faces, &inlines, width);
                for line in &lines {
                    assert!(
                        line.width <= width + 0.1,
                        "{} in {width}: {line:?}",
                        line.width
                    );
                }
                let all: String = lines.iter().map(said).collect();
                assert_eq!(all, text);
            }
        }
    }

    #[test]
    fn a_number_keeps_its_unit_and_a_mark_its_word() {
        let faces = Faces::load().unwrap();
        let inlines = [
            Inline::Text("is ".to_owned(), style(Weight::Regular)),
            Inline::Mark(0, 11.0),
            Inline::Text("12.3\u{a0}psi".to_owned(), style(Weight::Regular)),
        ];
        let broken = lines(&faces, &inlines, 90.0);
        assert_eq!(broken.len(), 1, "{broken:?}");
        let broken = lines(&faces, &inlines, 50.0);
        assert!(said(broken.first().unwrap()).starts_with("is"));
        // The mark stands where its word begins.
        let marked = broken.iter().find(|line| {
            line.parts
                .iter()
                .any(|part| matches!(part, Part::Mark { .. }))
        });
        assert!(said(marked.unwrap()).contains('1'));
    }

    #[test]
    fn the_faces_have_every_sign_that_the_reports_use() {
        let faces = Faces::load().unwrap();
        for sign in "−±×µ°ΔΩ≤≥≈½²³·“”’–✓✕◇■●…\u{a0}\u{202f}\u{fffd}Łőñß".chars()
        {
            assert!(faces.have(sign), "{sign}");
        }
        assert!(!faces.have('ש') && !faces.have('中'));
    }
}
