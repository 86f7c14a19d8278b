//! From the report's elements to blocks.

mod grid;
mod inline;

use std::collections::HashMap;

use report::{Document, Element, Node, Version};

use crate::block::{Block, Content, DrawingFile};
use crate::face::{FAMILY, Faces, Style, Weight};
use crate::line::Inline;

/// Said at the end where a character is missing.
const SAID: &str = "Characters that the typeface of this file doesn’t have stand as \u{fffd}; \
                    the HTML version of this report has them.";

/// Sizes in pt. The customer's are never below 9.
struct Sizes {
    text: f32,
    table: f32,
    small: f32,
    mono: f32,
    headings: [f32; 4],
}

const TECHNICAL: Sizes = Sizes {
    text: 9.4,
    table: 8.8,
    small: 8.2,
    mono: 7.8,
    headings: [21.0, 14.5, 11.5, 9.8],
};
const CUSTOMER: Sizes = Sizes {
    text: 10.0,
    table: 9.8,
    small: 9.0,
    mono: 9.0,
    headings: [20.0, 13.0, 11.0, 10.0],
};

/// All blocks of a document.
pub(crate) fn content(document: &Document, version: Version, faces: &Faces) -> Content {
    let mut reader = Reader {
        faces,
        sizes: match version {
            Version::Technical => TECHNICAL,
            Version::Customer => CUSTOMER,
        },
        content: Content::default(),
        known: HashMap::new(),
        missing: false,
    };
    reader.walk(&document.body);
    if reader.missing {
        let style = reader.style(reader.sizes.small);
        reader.content.blocks.push(Block::Paragraph {
            text: vec![Inline::Text(SAID.to_owned(), style)],
            keeps: false,
            barred: false,
        });
    }
    reader.content
}

struct Reader<'a> {
    faces: &'a Faces,
    sizes: Sizes,
    content: Content,
    /// Where a drawing lies already: marks come often.
    known: HashMap<String, usize>,
    missing: bool,
}

impl Reader<'_> {
    fn style(&self, size: f32) -> Style {
        Style {
            weight: Weight::Regular,
            size,
            soft: false,
            struck: false,
        }
    }

    fn walk(&mut self, nodes: &[Node]) {
        for node in nodes {
            match node {
                Node::Element(element) => self.element(element),
                // What stands by itself beside blocks is a paragraph.
                Node::Text(text) if !text.trim().is_empty() => {
                    let text =
                        self.inlines(std::slice::from_ref(node), self.style(self.sizes.text));
                    self.paragraph(text, false, false);
                }
                Node::Drawing(_) => self.drawing(node, Vec::new()),
                Node::Text(_) | Node::Photo(_) => {}
            }
        }
    }

    fn element(&mut self, element: &Element) {
        let style = self.style(self.sizes.text);
        match element.name.as_str() {
            "h1" | "h2" | "h3" | "h4" => {
                let level = element
                    .name
                    .trim_start_matches('h')
                    .parse()
                    .unwrap_or(4_u16);
                let size = self
                    .sizes
                    .headings
                    .get(usize::from(level).saturating_sub(1));
                let style = Style {
                    weight: Weight::Bold,
                    size: size.copied().unwrap_or(style.size),
                    ..style
                };
                let text = self.inlines(&element.children, style);
                let plain = plain(&text);
                self.content
                    .blocks
                    .push(Block::Heading { level, text, plain });
            }
            "p" => {
                let (style, keeps, barred) = match class(element) {
                    "begun" | "beside" | "none" | "more" => {
                        let size = self.sizes.small;
                        (
                            Style {
                                soft: true,
                                size,
                                ..style
                            },
                            class(element) == "begun",
                            false,
                        )
                    }
                    "shop" => (
                        Style {
                            weight: Weight::Bold,
                            ..style
                        },
                        true,
                        false,
                    ),
                    "demo" => (style, true, false),
                    "unit" => (
                        Style {
                            size: style.size * 1.2,
                            ..style
                        },
                        false,
                        false,
                    ),
                    "list-title" => (
                        Style {
                            weight: Weight::Bold,
                            ..style
                        },
                        true,
                        false,
                    ),
                    "refusal" => (style, false, true),
                    _ => (style, false, false),
                };
                let text = self.inlines(&element.children, style);
                self.paragraph(text, keeps, barred);
            }
            "div" if class(element) == "verdict" => self.verdict(element),
            "ul" => {
                let points: Vec<_> = elements(element, "li")
                    .map(|point| self.inlines(&point.children, style))
                    .collect();
                self.content.blocks.push(Block::List(points));
            }
            "table" => self.table(element),
            "figure" => self.figure(element),
            "footer" => {
                for child in elements(element, "p") {
                    let style = Style {
                        soft: true,
                        size: self.sizes.small,
                        ..style
                    };
                    let text = self.inlines(&child.children, style);
                    self.paragraph(text, false, false);
                }
            }
            "" | "section" | "div" | "main" | "header" => self.walk(&element.children),
            _ => {
                let text = self.inlines(&[Node::Element(element.clone())], style);
                self.paragraph(text, false, false);
            }
        }
    }

    fn paragraph(&mut self, text: Vec<Inline>, keeps: bool, barred: bool) {
        if !text.is_empty() {
            self.content.blocks.push(Block::Paragraph {
                text,
                keeps,
                barred,
            });
        }
    }

    /// The mark, its word, and the sentence below.
    fn verdict(&mut self, element: &Element) {
        let style = self.style(self.sizes.text);
        let mut text = Vec::new();
        for child in &element.children {
            match child {
                Node::Element(inner) => text.extend(self.inlines(&inner.children, style)),
                other => text.extend(self.inlines(std::slice::from_ref(other), style)),
            }
        }
        self.paragraph(text, false, false);
    }

    fn figure(&mut self, element: &Element) {
        let small = Style {
            soft: true,
            ..self.style(self.sizes.small)
        };
        let caption: Vec<_> = elements(element, "figcaption")
            .flat_map(|caption| self.inlines(&caption.children, small))
            .collect();
        for child in &element.children {
            match child {
                Node::Drawing(_) => self.drawing(child, caption.clone()),
                Node::Photo(photo) => {
                    let caption = caption.clone();
                    self.content.photos.push(photo.clone());
                    let photo = self.content.photos.len() - 1;
                    self.content.blocks.push(Block::Photo { photo, caption });
                }
                Node::Element(inner) if inner.name == "p" => {
                    self.element(inner);
                    self.paragraph(caption.clone(), false, false);
                }
                Node::Element(_) | Node::Text(_) => {}
            }
        }
    }

    fn drawing(&mut self, node: &Node, caption: Vec<Inline>) {
        let Node::Drawing(drawing) = node else { return };
        let shows = drawing.shows.clone().unwrap_or_default();
        let drawing = self.kept(drawing);
        self.content.blocks.push(Block::Drawing {
            drawing,
            shows,
            caption,
        });
    }

    fn kept(&mut self, drawing: &report::Drawing) -> usize {
        if let Some(&at) = self.known.get(&drawing.svg) {
            return at;
        }
        let (width, height) = drawing.size().unwrap_or((40.0, 40.0));
        self.content.drawings.push(DrawingFile {
            svg: drawing.file(FAMILY),
            size: (width as f32, height as f32),
        });
        let at = self.content.drawings.len() - 1;
        self.known.insert(drawing.svg.clone(), at);
        at
    }
}

/// The first of an element's classes, or the one that says how it is set.
fn class(element: &Element) -> &str {
    let all = element.attribute("class").unwrap_or_default();
    let telling = ["short", "verdict-line", "number", "refusal"];
    all.split(' ')
        .find(|one| telling.contains(one))
        .or_else(|| all.split(' ').next())
        .unwrap_or_default()
}

fn elements<'a>(parent: &'a Element, name: &'a str) -> impl Iterator<Item = &'a Element> {
    parent.children.iter().filter_map(move |node| match node {
        Node::Element(element) if element.name == name => Some(element),
        _ => None,
    })
}

fn plain(text: &[Inline]) -> String {
    text.iter()
        .filter_map(|inline| match inline {
            Inline::Text(text, _) => Some(text.as_str()),
            Inline::Break => Some(" "),
            Inline::Mark(..) => None,
        })
        .collect()
}
