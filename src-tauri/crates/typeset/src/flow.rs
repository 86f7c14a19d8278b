//! Blocks laid out over pages, with the tree of tags that says what each thing is.

use std::num::NonZeroU16;

use krilla::tagging::{ListNumbering, Tag, TagKind};
use report::Version;

use crate::block::{Block, Content};
use crate::face::{Faces, Style, Weight};
use crate::line::{Inline, Line, lines};

/// A4, pt.
pub(crate) const PAGE: (f32, f32) = (595.28, 841.89);
pub(crate) const LEFT: f32 = 45.0;
pub(crate) const WIDTH: f32 = PAGE.0 - 2.0 * LEFT;
pub(crate) const TOP: f32 = 42.0;
/// Where the text ends; the footer stands below.
pub(crate) const BOTTOM: f32 = PAGE.1 - 54.0;

/// The most that a plot and a section take of a page's height.
const DRAWING_HEIGHT: f32 = 225.0;
const PHOTO: (f32, f32) = (235.0, 190.0);
const POINT: f32 = 12.0;

/// Everything in its place.
pub(crate) struct Layout {
    pub pages: Vec<Vec<Item>>,
    pub tags: Vec<TagNode>,
    pub headings: Vec<HeadingAt>,
}

/// A thing on a page, by its upper left corner.
pub(crate) struct Item {
    pub x: f32,
    pub y: f32,
    pub what: What,
    /// The tag that it belongs to; none: it adds nothing to what is read.
    pub tag: Option<usize>,
}

/// What it is.
pub(crate) enum What {
    Line(Line),
    Rule {
        width: f32,
        thick: f32,
        soft: bool,
    },
    Bar {
        height: f32,
    },
    Drawing {
        drawing: usize,
        width: f32,
        height: f32,
    },
    Photo {
        photo: usize,
        width: f32,
        height: f32,
    },
}

/// A tag and those within it.
pub(crate) struct TagNode {
    pub kind: TagKind,
    pub children: Vec<usize>,
    pub outermost: bool,
}

/// A heading for the outline.
pub(crate) struct HeadingAt {
    pub level: u16,
    pub text: String,
    pub page: usize,
    pub y: f32,
}

/// Lays it out.
pub(crate) fn lay_out(content: &Content, version: Version, faces: &Faces) -> Layout {
    let mut flow = Flow {
        faces,
        content,
        layout: Layout {
            pages: vec![Vec::new()],
            tags: Vec::new(),
            headings: Vec::new(),
        },
        y: TOP,
        dense: version == Version::Customer,
    };
    for (i, block) in content.blocks.iter().enumerate() {
        flow.keep_with_next(i);
        flow.block(block);
    }
    flow.layout
}

pub(crate) struct Flow<'a> {
    pub faces: &'a Faces,
    content: &'a Content,
    pub layout: Layout,
    pub y: f32,
    /// Less room between blocks.
    dense: bool,
}

impl Flow<'_> {
    /// What is left of this page.
    pub fn room(&self) -> f32 {
        BOTTOM - self.y
    }

    pub fn at_top(&self) -> bool {
        self.y <= TOP + 0.1
    }

    pub fn next_page(&mut self) {
        self.layout.pages.push(Vec::new());
        self.y = TOP;
    }

    pub fn space(&mut self, height: f32) {
        if !self.at_top() {
            self.y += if self.dense { height * 0.7 } else { height };
        }
    }

    /// Opens a tag within another, or at the outermost level.
    pub fn tag(&mut self, kind: impl Into<TagKind>, within: Option<usize>) -> usize {
        let at = self.layout.tags.len();
        self.layout.tags.push(TagNode {
            kind: kind.into(),
            children: Vec::new(),
            outermost: within.is_none(),
        });
        if let Some(parent) = within.and_then(|parent| self.layout.tags.get_mut(parent)) {
            parent.children.push(at);
        }
        at
    }

    pub fn put(&mut self, x: f32, y: f32, what: What, tag: Option<usize>) {
        if let Some(page) = self.layout.pages.last_mut() {
            page.push(Item { x, y, what, tag });
        }
    }

    /// A heading or a title doesn't stay behind at the foot of a page.
    fn keep_with_next(&mut self, from: usize) {
        let Some(rest) = self.content.blocks.get(from..) else {
            return;
        };
        let mut needed = 0.0;
        for block in rest {
            needed += self.least_height(block);
            if !matches!(
                block,
                Block::Heading { .. } | Block::Paragraph { keeps: true, .. }
            ) {
                break;
            }
        }
        if needed > self.room() && !self.at_top() && needed < BOTTOM - TOP {
            self.next_page();
        }
    }

    /// What a block takes at least before it may be broken.
    fn least_height(&self, block: &Block) -> f32 {
        let height = |text: &[Inline], width: f32, most: usize| -> f32 {
            let lines = lines(self.faces, text, width);
            lines.iter().take(most).map(|line| line.height).sum()
        };
        match block {
            Block::Heading { text, .. } => height(text, WIDTH, 9) + 22.0,
            Block::Paragraph { text, .. } => height(text, WIDTH, 3) + 3.0,
            Block::List(points) => {
                let first = points
                    .first()
                    .map_or(0.0, |it| height(it, WIDTH - POINT, 3));
                first + 3.0
            }
            Block::Table(table) => self.least_of_table(table),
            Block::Drawing {
                drawing, caption, ..
            } => self.drawn(*drawing).1 + height(caption, WIDTH, 99) + 10.0,
            Block::Photo { .. } => PHOTO.1 + 10.0,
        }
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading { level, text, plain } => self.heading(*level, text, plain),
            Block::Paragraph { text, barred, .. } => {
                self.space(3.0);
                let indent = if *barred { 9.0 } else { 0.0 };
                let tag = self.tag(Tag::P, None);
                let lines = lines(self.faces, text, WIDTH - indent);
                self.running(lines, LEFT + indent, *barred, tag);
            }
            Block::List(points) => self.list(points),
            Block::Table(table) => self.table(table),
            Block::Drawing {
                drawing,
                shows,
                caption,
            } => {
                self.drawing(*drawing, shows, caption);
            }
            Block::Photo { photo, caption } => self.photo(*photo, caption),
        }
    }

    /// Lines one below the other, over as many pages as they take.
    fn running(&mut self, lines: Vec<Line>, x: f32, barred: bool, tag: usize) {
        let whole: f32 = lines.iter().map(|line| line.height).sum();
        if lines.len() <= 3 && whole > self.room() && !self.at_top() {
            self.next_page();
        }
        for line in lines {
            if line.height > self.room() && !self.at_top() {
                self.next_page();
            }
            let height = line.height;
            if barred {
                self.put(LEFT + 1.0, self.y, What::Bar { height }, None);
            }
            self.put(x, self.y, What::Line(line), Some(tag));
            self.y += height;
        }
    }

    fn heading(&mut self, level: u16, text: &[Inline], plain: &str) {
        let (above, thick) = match level {
            1 => (4.0, 0.0),
            2 => (13.0, 1.4),
            3 => (9.0, 0.6),
            _ => (6.0, 0.0),
        };
        self.space(above);
        if thick > 0.0 {
            let rule = What::Rule {
                width: WIDTH,
                thick,
                soft: false,
            };
            self.put(LEFT, self.y, rule, None);
            self.y += 3.0;
        }
        let numbered = NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
        let tag = self.tag(Tag::Hn(numbered, Some(plain.to_owned())), None);
        self.layout.headings.push(HeadingAt {
            level,
            text: plain.to_owned(),
            page: self.layout.pages.len() - 1,
            y: self.y,
        });
        let lines = lines(self.faces, text, WIDTH);
        self.running(lines, LEFT, false, tag);
        self.y += 1.5;
    }

    fn list(&mut self, points: &[Vec<Inline>]) {
        let list = self.tag(Tag::L(ListNumbering::Disc), None);
        self.space(2.0);
        for point in points {
            let size = point.iter().find_map(|inline| match inline {
                Inline::Text(_, style) => Some(style.size),
                Inline::Break | Inline::Mark(..) => None,
            });
            let lines = lines(self.faces, point, WIDTH - POINT);
            let first = lines.first().map_or(0.0, |line| line.height);
            if first > self.room() {
                self.next_page();
            }
            let item = self.tag(Tag::LI, Some(list));
            let label = self.tag(Tag::Lbl, Some(item));
            let body = self.tag(Tag::LBody, Some(item));
            let bullet = self.bullet(size.unwrap_or(9.0));
            self.put(LEFT + 2.0, self.y, What::Line(bullet), Some(label));
            self.running(lines, LEFT + POINT, false, body);
            self.y += 1.0;
        }
    }

    pub fn bullet(&self, size: f32) -> Line {
        let style = Style {
            weight: Weight::Regular,
            size,
            soft: false,
            struck: false,
        };
        let text = [Inline::Text("•".to_owned(), style)];
        lines(self.faces, &text, WIDTH).pop().unwrap_or_default()
    }

    /// The size at which a drawing stands on the page.
    fn drawn(&self, drawing: usize) -> (f32, f32) {
        let of = self.content.drawings.get(drawing);
        let (width, height) = of.map_or((1.0, 1.0), |it| it.size);
        let scale = (WIDTH / width).min(DRAWING_HEIGHT / height);
        (width * scale, height * scale)
    }

    fn drawing(&mut self, drawing: usize, shows: &str, caption: &[Inline]) {
        let (width, height) = self.drawn(drawing);
        self.space(5.0);
        let figure = self.tag(Tag::Figure(Some(shows.to_owned())), None);
        self.put(
            LEFT,
            self.y,
            What::Drawing {
                drawing,
                width,
                height,
            },
            Some(figure),
        );
        self.y += height + 2.0;
        if !caption.is_empty() {
            let tag = self.tag(Tag::Caption, Some(figure));
            let lines = lines(self.faces, caption, WIDTH);
            self.running(lines, LEFT, false, tag);
        }
        self.y += 3.0;
    }

    /// A photo with its caption beside it.
    fn photo(&mut self, photo: usize, caption: &[Inline]) {
        let Some(it) = self.content.photos.get(photo) else {
            return;
        };
        let (wide, high) = (it.width_px.max(1) as f32, it.height_px.max(1) as f32);
        let scale = (PHOTO.0 / wide).min(PHOTO.1 / high);
        let (width, height) = (wide * scale, high * scale);
        let x = LEFT + PHOTO.0 + 12.0;
        let lines = lines(self.faces, caption, LEFT + WIDTH - x);
        let text: f32 = lines.iter().map(|line| line.height).sum();
        self.space(6.0);
        if height.max(text.min(PHOTO.1)) > self.room() {
            self.next_page();
        }
        let figure = self.tag(Tag::Figure(Some(it.shows.clone())), None);
        self.put(
            LEFT,
            self.y,
            What::Photo {
                photo,
                width,
                height,
            },
            Some(figure),
        );
        let (page, below) = (self.layout.pages.len(), self.y + height);
        if !lines.is_empty() {
            let tag = self.tag(Tag::Caption, Some(figure));
            self.running(lines, x, false, tag);
        }
        if self.layout.pages.len() == page {
            self.y = self.y.max(below);
        }
        self.y += 4.0;
    }
}
