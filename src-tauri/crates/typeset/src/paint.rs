//! The pages drawn, and written as a file.

use chrono::{Datelike, Timelike};
use krilla::color::rgb;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::geom::{PathBuilder, Point, Rect, Size, Transform};
use krilla::image::Image;
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, Identifier, SpanTag, TagGroup, TagTree};
use krilla::{Document as Pdf, SerializeSettings};
use krilla_svg::{SurfaceExt, SvgSettings};
use report::{Document, Report};
use usvg::Tree;

use crate::TypesetError;
use crate::block::Content;
use crate::face::{FAMILY, Faces, Style, Weight};
use crate::flow::{BOTTOM, HeadingAt, Item, LEFT, Layout, PAGE, WIDTH, What};
use crate::line::{Inline, Line, Part, lines};

const INK: (u8, u8, u8) = (0x1a, 0x1d, 0x21);
const SOFT: (u8, u8, u8) = (0x45, 0x4a, 0x50);
const RULE: (u8, u8, u8) = (0x99, 0x99, 0x99);
const FOOTER: f32 = 9.0;

/// Writes the file.
pub(crate) fn file(
    document: &Document,
    content: &Content,
    layout: &Layout,
    report: &Report,
    faces: &Faces,
) -> Result<Vec<u8>, TypesetError> {
    let configuration = ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| TypesetError::File(format!("{error:?}")))?;
    let mut pdf = Pdf::new_with(SerializeSettings {
        configuration,
        ..SerializeSettings::default()
    });
    let mut painter = Painter {
        faces,
        drawings: drawings(content, faces)?,
        photos: photos(content)?,
        leaves: vec![Vec::new(); layout.tags.len()],
    };
    for (i, items) in layout.pages.iter().enumerate() {
        let settings = PageSettings::from_wh(PAGE.0, PAGE.1)
            .ok_or_else(|| TypesetError::File("the page has no size".to_owned()))?;
        let mut page = pdf.start_page_with(settings);
        let mut surface = page.surface();
        for item in items {
            painter.item(&mut surface, item);
        }
        let number = format!("page {} of {}", i + 1, layout.pages.len());
        painter.footer(&mut surface, &document.title, &number);
        surface.finish();
        page.finish();
    }
    let mut outline = Outline::new();
    for node in outline_of(&layout.headings) {
        outline.push_child(node);
    }
    pdf.set_outline(outline);
    pdf.set_metadata(metadata(document, report));
    let mut tree = TagTree::new().with_lang(Some("en".to_owned()));
    for (at, tag) in layout.tags.iter().enumerate() {
        if tag.outermost {
            tree.push(group(layout, &painter.leaves, at));
        }
    }
    pdf.set_tag_tree(tree);
    pdf.finish()
        .map_err(|error| TypesetError::File(error.to_string()))
}

fn drawings(content: &Content, faces: &Faces) -> Result<Vec<Tree>, TypesetError> {
    let options = usvg::Options {
        font_family: FAMILY.to_owned(),
        fontdb: faces.drawings.clone(),
        ..usvg::Options::default()
    };
    content
        .drawings
        .iter()
        .map(|drawing| {
            Tree::from_str(&drawing.svg, &options)
                .map_err(|error| TypesetError::Drawing(error.to_string()))
        })
        .collect()
}

fn photos(content: &Content) -> Result<Vec<Image>, TypesetError> {
    content
        .photos
        .iter()
        .map(|photo| Image::from_jpeg(photo.jpeg.clone().into(), true).map_err(TypesetError::Photo))
        .collect()
}

fn metadata(document: &Document, report: &Report) -> Metadata {
    let at = document.made_at;
    let part = |value: u32| u8::try_from(value).unwrap_or_default();
    let offset = at.offset().local_minus_utc() / 60;
    let made = DateTime::new(u16::try_from(at.year()).unwrap_or_default())
        .month(part(at.month()))
        .day(part(at.day()))
        .hour(part(at.hour()))
        .minute(part(at.minute()))
        .second(part(at.second()))
        .utc_offset_hour(i8::try_from(offset / 60).unwrap_or_default())
        .utc_offset_minute(part(offset.unsigned_abs() % 60));
    let program = format!("Valvewright {}", report.program);
    Metadata::new()
        .title(document.title.clone())
        .language("en".to_owned())
        .creator(program.clone())
        .producer(program)
        .creation_date(made)
        .document_id(format!("{} {}", report.job, document.title))
}

/// Headings below the one that they follow.
fn outline_of(headings: &[HeadingAt]) -> Vec<OutlineNode> {
    let mut nodes = Vec::new();
    let mut rest = headings;
    while let Some((first, after)) = rest.split_first() {
        let within = after
            .iter()
            .position(|it| it.level <= first.level)
            .unwrap_or(after.len());
        let (below, next) = after.split_at(within);
        let at = Point::from_xy(LEFT, first.y);
        let destination = krilla::destination::XyzDestination::new(first.page, at);
        let mut node = OutlineNode::new(first.text.clone(), destination);
        for child in outline_of(below) {
            node.push_child(child);
        }
        nodes.push(node);
        rest = next;
    }
    nodes
}

fn group(layout: &Layout, leaves: &[Vec<Identifier>], at: usize) -> TagGroup {
    let Some(tag) = layout.tags.get(at) else {
        return TagGroup::new(krilla::tagging::Tag::NonStruct);
    };
    let mut group = TagGroup::new(tag.kind.clone());
    for leaf in leaves.get(at).into_iter().flatten() {
        group.push(*leaf);
    }
    for &child in &tag.children {
        group.push(self::group(layout, leaves, child));
    }
    group
}

struct Painter<'a> {
    faces: &'a Faces,
    drawings: Vec<Tree>,
    photos: Vec<Image>,
    /// What was drawn for each tag.
    leaves: Vec<Vec<Identifier>>,
}

impl Painter<'_> {
    fn item(&mut self, surface: &mut Surface, item: &Item) {
        match &item.what {
            What::Line(line) => self.line(surface, line, item.x, item.y, item.tag),
            What::Rule { width, thick, soft } => {
                let colour = if *soft { RULE } else { INK };
                let at = Rect::from_xywh(item.x, item.y, *width, *thick);
                artifact(surface, |surface| filled(surface, at, colour));
            }
            What::Bar { height } => {
                let at = Rect::from_xywh(item.x, item.y, 1.4, *height);
                artifact(surface, |surface| filled(surface, at, INK));
            }
            What::Drawing {
                drawing,
                width,
                height,
            } => {
                let id = surface.start_tagged(ContentTag::Other);
                self.draw(surface, *drawing, (item.x, item.y), (*width, *height));
                surface.end_tagged();
                self.leaf(item.tag, id);
            }
            What::Photo {
                photo,
                width,
                height,
            } => {
                let id = surface.start_tagged(ContentTag::Other);
                if let (Some(image), Some(size)) =
                    (self.photos.get(*photo), Size::from_wh(*width, *height))
                {
                    surface.push_transform(&Transform::from_translate(item.x, item.y));
                    surface.draw_image(image.clone(), size);
                    surface.pop();
                }
                surface.end_tagged();
                self.leaf(item.tag, id);
            }
        }
    }

    fn leaf(&mut self, tag: Option<usize>, id: Identifier) {
        if let Some(leaves) = tag.and_then(|tag| self.leaves.get_mut(tag)) {
            leaves.push(id);
        }
    }

    /// One span a line; marks beside it are silent, since their word stands there.
    fn line(&mut self, surface: &mut Surface, line: &Line, x: f32, y: f32, tag: Option<usize>) {
        let baseline = y + line.ascent();
        if line
            .parts
            .iter()
            .any(|part| matches!(part, Part::Text { .. }))
        {
            let kind = match tag {
                Some(_) => ContentTag::Span(SpanTag::empty()),
                None => ContentTag::Artifact(Artifact::with_kind(ArtifactType::PaginationOther)),
            };
            let id = surface.start_tagged(kind);
            for part in &line.parts {
                if let Part::Text {
                    x: at,
                    text,
                    style,
                    shaped,
                } = part
                {
                    ink(surface, if style.soft { SOFT } else { INK });
                    surface.draw_glyphs(
                        Point::from_xy(x + at, baseline),
                        &shaped.glyphs,
                        self.faces.get(style.weight).font.clone(),
                        text,
                        style.size,
                        false,
                    );
                }
            }
            surface.end_tagged();
            self.leaf(tag, id);
        }
        for part in &line.parts {
            match part {
                Part::Mark {
                    x: at,
                    size,
                    drawing,
                } => {
                    let top = baseline - size * 0.8;
                    artifact(surface, |surface| {
                        self.draw(surface, *drawing, (x + at, top), (*size, *size));
                    });
                }
                Part::Text {
                    x: at,
                    style,
                    shaped,
                    ..
                } if style.struck => {
                    let middle = baseline - style.size * 0.25;
                    let through = Rect::from_xywh(x + at, middle, shaped.width.max(0.1), 0.7);
                    artifact(surface, |surface| filled(surface, through, INK));
                }
                Part::Text { .. } => {}
            }
        }
    }

    fn draw(&self, surface: &mut Surface, drawing: usize, at: (f32, f32), size: (f32, f32)) {
        let size = Size::from_wh(size.0, size.1);
        if let (Some(tree), Some(size)) = (self.drawings.get(drawing), size) {
            surface.push_transform(&Transform::from_translate(at.0, at.1));
            surface.draw_svg(tree, size, SvgSettings::default());
            surface.pop();
        }
    }

    fn footer(&self, surface: &mut Surface, title: &str, number: &str) {
        let style = Style {
            weight: Weight::Regular,
            size: FOOTER,
            soft: true,
            struck: false,
        };
        let title: String = title
            .chars()
            .map(|c| {
                if self.faces.have(c) {
                    c
                } else {
                    crate::face::MISSING
                }
            })
            .collect();
        let set = |text: &str, width: f32| {
            let text = [Inline::Text(text.to_owned(), style)];
            lines(self.faces, &text, width).into_iter().next()
        };
        surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(
            ArtifactType::Footer,
        )));
        filled(
            surface,
            Rect::from_xywh(LEFT, BOTTOM + 10.0, WIDTH, 0.5),
            RULE,
        );
        let right = set(number, WIDTH);
        let taken = right.as_ref().map_or(0.0, |line| line.width);
        let left = set(&title, WIDTH - taken - 20.0);
        for (line, to_right) in [(left, false), (right, true)] {
            let Some(line) = line else { continue };
            let x = if to_right {
                LEFT + WIDTH - line.width
            } else {
                LEFT
            };
            for part in &line.parts {
                if let Part::Text {
                    x: at,
                    text,
                    style,
                    shaped,
                } = part
                {
                    ink(surface, SOFT);
                    surface.draw_glyphs(
                        Point::from_xy(x + at, BOTTOM + 22.0),
                        &shaped.glyphs,
                        self.faces.get(style.weight).font.clone(),
                        text,
                        style.size,
                        false,
                    );
                }
            }
        }
        surface.end_tagged();
    }
}

fn artifact(surface: &mut Surface, draw: impl FnOnce(&mut Surface)) {
    let kind = Artifact::with_kind(ArtifactType::Layout);
    surface.start_tagged(ContentTag::Artifact(kind));
    draw(surface);
    surface.end_tagged();
}

fn ink(surface: &mut Surface, (red, green, blue): (u8, u8, u8)) {
    surface.set_stroke(None);
    surface.set_fill(Some(Fill {
        paint: rgb::Color::new(red, green, blue).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }));
}

fn filled(surface: &mut Surface, rect: Option<Rect>, colour: (u8, u8, u8)) {
    let Some(rect) = rect else { return };
    let mut path = PathBuilder::new();
    path.push_rect(rect);
    if let Some(path) = path.finish() {
        ink(surface, colour);
        surface.draw_path(&path);
    }
}
