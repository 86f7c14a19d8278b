//! Tables: rows stay whole unless one is higher than a page, and the head stands on each page.

use std::num::NonZeroU32;

use krilla::tagging::{TableHeaderScope, Tag};

use crate::block::{Cell, Row, Table};
use crate::flow::{BOTTOM, Flow, LEFT, TOP, WIDTH, What};
use crate::line::{Line, least_width, lines, whole_width};

const GAP: f32 = 7.0;
const PAD: f32 = 2.2;
const POINT: f32 = 9.0;
/// No column is widened beyond this share of the table.
const MOST: f32 = 0.42;

/// The same room, given by need: what a column has beyond `whole`, which keeps all of it on one
/// line, goes to those that have less, as much as each lacks. Where none lacks any, nothing moves.
fn by_need(widths: &[f32], whole: &[f32]) -> Vec<f32> {
    // One long text must not take all.
    let wanted = whole.iter().map(|it| it.min(WIDTH * MOST));
    let lacks: Vec<f32> = wanted
        .clone()
        .zip(widths)
        .map(|(wanted, width)| (wanted - width).max(0.0))
        .collect();
    let lacking: f32 = lacks.iter().sum();
    if lacking <= 0.0 {
        return widths.to_vec();
    }
    let spare: f32 = wanted
        .clone()
        .zip(widths)
        .map(|(wanted, width)| (width - wanted).max(0.0))
        .sum();
    // Of more than is lacked, each keeps its part.
    let share = (lacking / spare.max(0.1)).min(1.0);
    let given = (spare / lacking).min(1.0);
    wanted
        .zip(widths)
        .zip(&lacks)
        .map(|((wanted, width), lack)| width - (width - wanted).max(0.0) * share + lack * given)
        .collect()
}

/// A row with its lines.
struct Laid<'a> {
    cells: Vec<LaidCell<'a>>,
    height: f32,
}

struct LaidCell<'a> {
    cell: &'a Cell,
    x: f32,
    width: f32,
    lines: Vec<LaidLine>,
}

struct LaidLine {
    line: Line,
    indent: f32,
    /// The first of a point.
    point: bool,
}

/// Where lines go, and whether they are read or only seen again.
#[derive(Clone, Copy)]
enum Role {
    Read { part: usize, head: bool },
    Repeated,
}

impl Flow<'_> {
    /// Caption, head and first row stay together.
    pub fn least_of_table(&self, table: &Table) -> f32 {
        let widths = self.widths(table);
        let rows = table.head.iter().chain(table.body.first());
        let rows: f32 = rows.map(|row| self.laid(row, &widths).height).sum();
        let caption = lines(self.faces, &table.caption, WIDTH);
        let caption: f32 = caption.iter().map(|line| line.height).sum();
        (caption + rows + 8.0).min((BOTTOM - TOP) / 2.0)
    }

    pub fn table(&mut self, table: &Table) {
        self.space(6.0);
        let whole = self.tag(Tag::Table, None);
        if !table.caption.is_empty() {
            let caption = self.tag(Tag::Caption, Some(whole));
            for line in lines(self.faces, &table.caption, WIDTH) {
                let height = line.height;
                self.put(LEFT, self.y, What::Line(line), Some(caption));
                self.y += height;
            }
            self.y += 1.0;
        }
        let widths = self.widths(table);
        let mut head_height = 0.0;
        if !table.head.is_empty() {
            let part = self.tag(Tag::THead, Some(whole));
            for row in &table.head {
                let laid = self.laid(row, &widths);
                head_height += laid.height;
                self.row(&laid, Role::Read { part, head: true });
            }
        }
        let part = self.tag(Tag::TBody, Some(whole));
        for row in &table.body {
            let laid = self.laid(row, &widths);
            if laid.height > self.room() {
                if laid.height <= BOTTOM - TOP - head_height {
                    self.again(table, &widths);
                } else {
                    self.broken(table, laid, &widths, part);
                    continue;
                }
            }
            self.row(&laid, Role::Read { part, head: false });
        }
        self.y += 4.0;
    }

    /// The next page, with the head on it.
    fn again(&mut self, table: &Table, widths: &[f32]) {
        self.next_page();
        for row in &table.head {
            let laid = self.laid(row, widths);
            self.row(&laid, Role::Repeated);
        }
    }

    /// Shares of the width. Of a table with a head, columns that need less than theirs leave it to
    /// those whose words would have to go on in another line; each is widened where a word would
    /// have to be broken.
    fn widths(&self, table: &Table) -> Vec<f32> {
        let total: f32 = table.columns.iter().map(|it| it.weight).sum();
        let mut widths: Vec<f32> = table
            .columns
            .iter()
            .map(|column| column.weight / total.max(0.1) * WIDTH)
            .collect();
        let mut least = vec![0.0_f32; widths.len()];
        let mut whole = vec![0.0_f32; widths.len()];
        for row in table.head.iter().chain(&table.body) {
            let mut at = 0;
            for cell in row {
                if cell.span == 1
                    && let (Some(least), Some(whole)) = (least.get_mut(at), whole.get_mut(at))
                {
                    for paragraph in &cell.paragraphs {
                        *least = least.max(least_width(self.faces, &paragraph.text) + GAP);
                        *whole = whole.max(whole_width(self.faces, &paragraph.text) + GAP);
                    }
                }
                at += cell.span;
            }
        }
        if !table.head.is_empty() {
            widths = by_need(&widths, &whole);
        }
        let (mut fixed, mut free) = (0.0, 0.0);
        let needs: Vec<_> = least
            .iter()
            .zip(&widths)
            .map(|(&least, &width)| (least > width).then(|| least.min(WIDTH * MOST).max(width)))
            .collect();
        for (need, width) in needs.iter().zip(&widths) {
            match need {
                Some(need) => fixed += need,
                None => free += width,
            }
        }
        if free > 0.0 && fixed < WIDTH * 0.8 {
            let scale = (WIDTH - fixed) / free;
            for (width, need) in widths.iter_mut().zip(&needs) {
                *width = need.unwrap_or(*width * scale);
            }
        }
        widths
    }

    fn laid<'a>(&self, row: &'a Row, widths: &[f32]) -> Laid<'a> {
        let mut cells = Vec::new();
        let (mut at, mut x) = (0, LEFT);
        for cell in row {
            let width: f32 = widths.iter().skip(at).take(cell.span).sum();
            at += cell.span;
            let inner = (width - GAP).max(10.0);
            let mut laid = Vec::new();
            for paragraph in &cell.paragraphs {
                let indent = if paragraph.point { POINT } else { 0.0 };
                let broken = lines(self.faces, &paragraph.text, inner - indent);
                laid.extend(broken.into_iter().enumerate().map(|(i, line)| LaidLine {
                    line,
                    indent,
                    point: paragraph.point && i == 0,
                }));
            }
            cells.push(LaidCell {
                cell,
                x,
                width: inner,
                lines: laid,
            });
            x += width;
        }
        let height = cells.iter().map(LaidCell::height).fold(0.0, f32::max);
        Laid {
            cells,
            height: height + 2.0 * PAD,
        }
    }

    fn row(&mut self, laid: &Laid, role: Role) {
        let row = match role {
            Role::Read { part, .. } => Some(self.tag(Tag::TR, Some(part))),
            Role::Repeated => None,
        };
        for cell in &laid.cells {
            let tag = row.map(|row| self.cell_tag(cell.cell, row, role));
            let mut y = self.y + PAD;
            for it in &cell.lines {
                self.cell_line(cell, it, y, tag);
                y += it.line.height;
            }
        }
        self.y += laid.height;
        let head = matches!(role, Role::Repeated | Role::Read { head: true, .. });
        self.ruled(head);
    }

    fn ruled(&mut self, head: bool) {
        let rule = What::Rule {
            width: WIDTH,
            thick: if head { 0.9 } else { 0.4 },
            soft: !head,
        };
        self.put(LEFT, self.y, rule, None);
    }

    /// A row higher than a page: line by line.
    fn broken(&mut self, table: &Table, laid: Laid, widths: &[f32], part: usize) {
        let row = self.tag(Tag::TR, Some(part));
        let role = Role::Read { part, head: false };
        let tags: Vec<_> = laid
            .cells
            .iter()
            .map(|cell| self.cell_tag(cell.cell, row, role))
            .collect();
        let mut next = vec![0_usize; laid.cells.len()];
        if self.room() < 60.0 {
            self.again(table, widths);
        }
        loop {
            let mut lowest = self.y;
            let mut open = false;
            for ((cell, &tag), next) in laid.cells.iter().zip(&tags).zip(&mut next) {
                let mut y = self.y + PAD;
                for it in cell.lines.iter().skip(*next) {
                    if y + it.line.height + PAD > BOTTOM {
                        open = true;
                        break;
                    }
                    self.cell_line(cell, it, y, Some(tag));
                    y += it.line.height;
                    *next += 1;
                }
                lowest = lowest.max(y + PAD);
            }
            self.y = lowest;
            self.ruled(false);
            if !open {
                break;
            }
            self.again(table, widths);
        }
    }

    fn cell_tag(&mut self, cell: &Cell, row: usize, role: Role) -> usize {
        let span = u32::try_from(cell.span).ok().and_then(NonZeroU32::new);
        let span = span.filter(|span| span.get() > 1);
        let head = matches!(role, Role::Read { head: true, .. });
        if cell.names || head {
            let scope = if head {
                TableHeaderScope::Column
            } else {
                TableHeaderScope::Row
            };
            self.tag(Tag::TH(scope).with_col_span(span), Some(row))
        } else {
            self.tag(Tag::TD.with_col_span(span), Some(row))
        }
    }

    fn cell_line(&mut self, cell: &LaidCell, it: &LaidLine, y: f32, tag: Option<usize>) {
        let x = if cell.cell.number {
            cell.x + cell.width - it.line.width
        } else {
            cell.x + it.indent
        };
        if it.point {
            let bullet = self.bullet(it.line.height / 1.32);
            self.put(cell.x, y, What::Line(bullet), tag);
        }
        self.put(x, y, What::Line(it.line.clone()), tag);
    }
}

impl LaidCell<'_> {
    fn height(&self) -> f32 {
        self.lines.iter().map(|it| it.line.height).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(found: &[f32], expected: &[f32]) {
        assert_eq!(found.len(), expected.len());
        for (found, expected) in found.iter().zip(expected) {
            assert!((found - expected).abs() < 1e-3, "{found} for {expected}");
        }
    }

    #[test]
    fn room_that_a_column_has_no_use_for_goes_where_it_is_lacked() {
        // Nobody lacks any: as shared out.
        near(&by_need(&[100.0, 200.0], &[90.0, 30.0]), &[100.0, 200.0]);
        // 60 lacked, 170 to spare: the first has all that it asked for.
        near(&by_need(&[100.0, 200.0], &[160.0, 30.0]), &[160.0, 140.0]);
        // 100 and 50 lacked, 30 to spare: by what each lacks.
        near(
            &by_need(&[60.0, 60.0, 60.0], &[160.0, 30.0, 110.0]),
            &[80.0, 30.0, 70.0],
        );
        // All lack: nobody has anything to give.
        near(&by_need(&[60.0, 60.0], &[90.0, 90.0]), &[60.0, 60.0]);
    }
}
