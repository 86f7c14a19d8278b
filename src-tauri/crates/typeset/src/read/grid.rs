//! Tables.

use report::{Element, Node};

use super::{Reader, class, elements};
use crate::block::{Block, Cell, CellParagraph, Column, Row, Table};
use crate::face::{Style, Weight};
use crate::line::Inline;

impl Reader<'_> {
    pub(super) fn table(&mut self, element: &Element) {
        let bold = Style {
            weight: Weight::Bold,
            ..self.style(self.sizes.table)
        };
        let caption: Vec<_> = elements(element, "caption")
            .filter(|caption| class(caption) != "unseen")
            .flat_map(|caption| self.inlines(&caption.children, bold))
            .collect();
        let head: Vec<_> = elements(element, "thead")
            .flat_map(|head| self.rows(head, bold))
            .collect();
        let plain = self.style(self.sizes.table);
        let body: Vec<_> = elements(element, "tbody")
            .flat_map(|body| self.rows(body, plain))
            .collect();
        let columns = columns(class(element), &head, &body);
        self.content.blocks.push(Block::Table(Table {
            caption,
            columns,
            head,
            body,
        }));
    }

    fn rows(&mut self, part: &Element, style: Style) -> Vec<Row> {
        elements(part, "tr")
            .map(|row| {
                let soft = class(row) == "gone";
                let cells = row.children.iter().filter_map(|node| match node {
                    Node::Element(cell) if matches!(cell.name.as_str(), "td" | "th") => Some(cell),
                    _ => None,
                });
                cells
                    .map(|cell| Cell {
                        names: cell.name == "th",
                        number: class(cell) == "number",
                        span: cell
                            .attribute("colspan")
                            .and_then(|span| span.parse().ok())
                            .unwrap_or(1_usize)
                            .max(1),
                        paragraphs: self.cell(&cell.children, Style { soft, ..style }),
                    })
                    .collect()
            })
            .collect()
    }

    fn cell(&mut self, nodes: &[Node], style: Style) -> Vec<CellParagraph> {
        let mut found = Vec::new();
        let mut running: Vec<Node> = Vec::new();
        let close = |reader: &mut Self, running: &mut Vec<Node>, found: &mut Vec<_>| {
            let mut text = reader.inlines(running, style);
            running.clear();
            // A paragraph doesn't begin with the space after what stood before it.
            if let Some(Inline::Text(first, _)) = text.first_mut() {
                *first = first.trim_start_matches(' ').to_owned();
            }
            text.retain(|it| !matches!(it, Inline::Text(said, _) if said.is_empty()));
            if !text.is_empty() {
                found.push(CellParagraph { text, point: false });
            }
        };
        for node in nodes {
            match node {
                Node::Element(list) if list.name == "ul" => {
                    close(self, &mut running, &mut found);
                    for point in elements(list, "li") {
                        let text = self.inlines(&point.children, style);
                        found.push(CellParagraph { text, point: true });
                    }
                }
                Node::Element(inner) if inner.name == "p" => {
                    close(self, &mut running, &mut found);
                    found.push(CellParagraph {
                        text: self.inlines(&inner.children, style),
                        point: false,
                    });
                }
                // A verdict with its mark has lines of its own.
                Node::Element(inner) if class(inner) == "verdict-line" => {
                    close(self, &mut running, &mut found);
                    running.push(node.clone());
                    close(self, &mut running, &mut found);
                }
                _ => running.push(node.clone()),
            }
        }
        close(self, &mut running, &mut found);
        if found.is_empty() {
            // An empty cell is a cell all the same.
            let text = vec![Inline::Text(" ".to_owned(), style)];
            found.push(CellParagraph { text, point: false });
        }
        found
    }
}

/// Figures take less room than words; the first column of figures by themselves least.
fn columns(class: &str, head: &[Row], body: &[Row]) -> Vec<Column> {
    let weights: Vec<f32> = match (head.first(), class) {
        (None, "short") => vec![1.0, 4.4],
        (None, _) => vec![1.0, 2.4],
        (Some(head), _) => head
            .iter()
            .enumerate()
            .map(|(i, cell)| match (i, cell.number) {
                (0, true) => 0.45,
                (0, false) => 1.5,
                (_, true) => 1.1,
                (_, false) => 1.8,
            })
            .collect(),
    };
    let widest = body
        .iter()
        .chain(head)
        .map(|row| row.iter().map(|cell| cell.span).sum::<usize>())
        .max()
        .unwrap_or(1);
    let mut weights: Vec<_> = weights
        .into_iter()
        .map(|weight| Column { weight })
        .collect();
    // A column that no heading names is one of words.
    while weights.len() < widest {
        weights.push(Column { weight: 1.8 });
    }
    weights
}
