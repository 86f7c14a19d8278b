//! What stands within a line.

use report::Node;
use unicode_normalization::UnicodeNormalization;

use super::{Reader, class};
use crate::face::{MISSING, Style, Weight};
use crate::line::Inline;

impl Reader<'_> {
    pub(super) fn inlines(&mut self, nodes: &[Node], style: Style) -> Vec<Inline> {
        let mut found = Vec::new();
        for node in nodes {
            self.inline(node, style, false, &mut found);
        }
        found
    }

    fn inline(&mut self, node: &Node, style: Style, lined: bool, found: &mut Vec<Inline>) {
        match node {
            Node::Text(text) => self.text(text, style, lined, found),
            Node::Drawing(drawing) => {
                let at = self.kept(drawing);
                found.push(Inline::Mark(at, style.size * 1.25));
            }
            Node::Photo(_) => {}
            Node::Element(element) => {
                let small = self.sizes.small.min(style.size);
                let (style, lined) = match (element.name.as_str(), class(element)) {
                    ("br", _) => return found.push(Inline::Break),
                    ("strong", "word") => (
                        Style {
                            weight: Weight::Bold,
                            size: style.size * 1.25,
                            ..style
                        },
                        lined,
                    ),
                    ("strong", _) | (_, "signal") => (
                        Style {
                            weight: Weight::Bold,
                            ..style
                        },
                        lined,
                    ),
                    ("s", _) => (
                        Style {
                            struck: true,
                            ..style
                        },
                        lined,
                    ),
                    (_, "when") => (
                        Style {
                            soft: true,
                            size: small,
                            ..style
                        },
                        lined,
                    ),
                    (_, "id") => {
                        let size = self.sizes.mono.min(style.size);
                        (
                            Style {
                                weight: Weight::Mono,
                                soft: true,
                                size,
                                ..style
                            },
                            lined,
                        )
                    }
                    (_, "prose") => (style, true),
                    _ => (style, lined),
                };
                for child in &element.children {
                    self.inline(child, style, lined, found);
                }
            }
        }
    }

    /// Text as it is read: white space as HTML shows it, unless its lines are kept.
    fn text(&mut self, text: &str, style: Style, lined: bool, found: &mut Vec<Inline>) {
        let mut run = String::new();
        for c in text.nfc() {
            match c {
                '\n' if lined => {
                    if !run.is_empty() {
                        found.push(Inline::Text(std::mem::take(&mut run), style));
                    }
                    found.push(Inline::Break);
                }
                ' ' | '\n' | '\r' | '\t' => {
                    if lined || !run.ends_with(' ') {
                        run.push(' ');
                    }
                }
                c if self.faces.have(c) => run.push(c),
                _ => {
                    self.missing = true;
                    run.push(MISSING);
                }
            }
        }
        if !run.is_empty() {
            found.push(Inline::Text(run, style));
        }
    }
}
