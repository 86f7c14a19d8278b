//! The report as a tree: the very elements of the page, read back from it, for whoever sets them
//! otherwise than a browser does. So words, figures and their order exist once.
//!
//! Only what [`crate::page`] writes is understood: a closed set of elements, every one closed again,
//! all text escaped by the template.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

/// A piece of a report.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Node {
    /// Text as it is read; nothing in it is markup.
    Text(String),
    /// An element of the page.
    Element(Element),
    /// A drawing.
    Drawing(Drawing),
    /// A photo.
    Photo(Photo),
}

/// An element of the page: its name, its attributes, what it holds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Element {
    /// Its name, as HTML has it.
    pub name: String,
    /// Its attributes, in the order written.
    pub attributes: Vec<(String, String)>,
    /// What it holds.
    pub children: Vec<Node>,
}

/// A drawing in SVG, as it stands in the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawing {
    /// What it shows; none: a mark whose word stands beside it.
    pub shows: Option<String>,
    /// The SVG element.
    pub svg: String,
}

/// A photo, a JPEG file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// What it shows.
    pub shows: String,
    /// Its width in pixels.
    pub width_px: u32,
    /// Its height in pixels.
    pub height_px: u32,
    /// Its bytes.
    pub jpeg: Vec<u8>,
}

impl Element {
    /// An attribute.
    #[must_use]
    pub fn attribute(&self, name: &str) -> Option<&str> {
        attribute(&self.attributes, name)
    }
}

impl Drawing {
    /// Width and height of its view box, in its own units.
    #[must_use]
    pub fn size(&self) -> Option<(f64, f64)> {
        let head = self.svg.split_once('>')?.0;
        let mut sizes = head
            .split_once("viewBox=\"")?
            .1
            .split_once('"')?
            .0
            .split(' ')
            .skip(2);
        Some((sizes.next()?.parse().ok()?, sizes.next()?.parse().ok()?))
    }

    /// The drawing as a file of its own, with the styles that the page gives it: ink on white paper,
    /// lettering in `family`.
    #[must_use]
    pub fn file(&self, family: &str) -> String {
        let head = "<svg xmlns=\"http://www.w3.org/2000/svg\" ";
        let rest = self.svg.strip_prefix("<svg ").unwrap_or(&self.svg);
        let style = format!(
            "<style>text{{font-family:'{family}'}}{}{PRINTED}</style>",
            ink(include_str!("../assets/drawing.css"))
        );
        match rest.split_once('>') {
            Some((attributes, inner)) => format!("{head}{attributes}>{style}{inner}"),
            None => self.svg.clone(),
        }
    }
}

/// A section is set smaller than it is drawn, its lettering therefore larger (`print.css`).
const PRINTED: &str = ".section text{font-size:15px}.section .tick{font-size:14px}";

/// The colours of the printed page in place of their names, which files beside it can't look up.
fn ink(style: &str) -> String {
    let colours = [
        ("--paper", "#fff"),
        ("--ink", "#1a1d21"),
        ("--soft", "#33383d"),
        ("--rule", "#999"),
        ("--press", "#0b5f73"),
        ("--outside", "#a3261b"),
        ("--close", "#7a5200"),
        ("--within", "#1d6136"),
    ];
    colours
        .iter()
        .fold(style.to_owned(), |style, (name, colour)| {
            style.replace(&format!("var({name})"), colour)
        })
}

/// Reads what the page's templates wrote.
pub(crate) fn read(markup: &str) -> Vec<Node> {
    let mut open = vec![Element::default()];
    let mut rest = markup;
    while !rest.is_empty() {
        let node;
        (node, rest) = if rest.starts_with("<svg") {
            let end = rest.find("</svg>").map_or(rest.len(), |at| at + 6);
            let (svg, rest) = rest.split_at(end);
            (Some(drawing(svg)), rest)
        } else if let Some(closing) = rest.strip_prefix("</") {
            let rest = closing.split_once('>').map_or("", |(_, rest)| rest);
            // The outermost stays, whatever closes.
            let done = (open.len() > 1).then(|| open.pop()).flatten();
            (done.map(Node::Element), rest)
        } else if let Some(tag) = rest.strip_prefix('<') {
            let (tag, rest) = tag.split_once('>').unwrap_or((tag, ""));
            let (name, attributes) = tag.split_once(' ').unwrap_or((tag, ""));
            let element = Element {
                name: name.to_owned(),
                attributes: attributes_of(attributes),
                children: Vec::new(),
            };
            match name {
                "br" => (Some(Node::Element(element)), rest),
                "img" => (Some(photo(&element)), rest),
                _ => {
                    open.push(element);
                    (None, rest)
                }
            }
        } else {
            let (text, rest) = rest.split_at(rest.find('<').unwrap_or(rest.len()));
            (Some(Node::Text(unescaped(text))), rest)
        };
        if let (Some(node), Some(parent)) = (node, open.last_mut()) {
            parent.children.push(node);
        }
    }
    while open.len() > 1 {
        if let (Some(done), Some(parent)) = (open.pop(), open.last_mut()) {
            parent.children.push(Node::Element(done));
        }
    }
    open.pop().unwrap_or_default().children
}

fn attribute<'a>(attributes: &'a [(String, String)], name: &str) -> Option<&'a str> {
    let found = attributes.iter().find(|(named, _)| named == name)?;
    Some(&found.1)
}

fn attributes_of(mut text: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    while let Some((name, rest)) = text.trim_start().split_once("=\"") {
        let (value, after) = rest.split_once('"').unwrap_or((rest, ""));
        found.push((name.to_owned(), unescaped(value)));
        text = after;
    }
    found
}

fn drawing(svg: &str) -> Node {
    let head = svg.split_once('>').map_or(svg, |(head, _)| head);
    let attributes = attributes_of(head.strip_prefix("<svg").unwrap_or(head));
    Node::Drawing(Drawing {
        shows: attribute(&attributes, "aria-label").map(str::to_owned),
        svg: svg.to_owned(),
    })
}

fn photo(img: &Element) -> Node {
    let source = img.attribute("src").unwrap_or_default();
    let coded = source.split_once("base64,").map_or("", |(_, coded)| coded);
    let pixels = |name| img.attribute(name).and_then(|it| it.parse().ok());
    Node::Photo(Photo {
        shows: img.attribute("alt").unwrap_or_default().to_owned(),
        width_px: pixels("width").unwrap_or_default(),
        height_px: pixels("height").unwrap_or_default(),
        jpeg: STANDARD.decode(coded).unwrap_or_default(),
    })
}

/// The template escapes these four, and no others.
fn unescaped(text: &str) -> String {
    text.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&amp;", "&")
}

#[cfg(test)]
mod tests {
    use maud::html;

    use super::*;

    fn escaped(text: &str) -> String {
        html! { (text) }.into_string()
    }

    /// Writes a tree as the page has it.
    fn written(nodes: &[Node]) -> String {
        let one = |node: &Node| match node {
            Node::Text(text) => escaped(text),
            Node::Drawing(drawing) => drawing.svg.clone(),
            Node::Photo(it) => format!(
                "<img alt=\"{}\" width=\"{}\" height=\"{}\" src=\"data:image/jpeg;base64,{}\">",
                escaped(&it.shows),
                it.width_px,
                it.height_px,
                STANDARD.encode(&it.jpeg),
            ),
            Node::Element(it) => {
                let attributes: String = it
                    .attributes
                    .iter()
                    .map(|(name, value)| format!(" {name}=\"{}\"", escaped(value)))
                    .collect();
                let head = format!("<{}{attributes}>", it.name);
                if it.name == "br" {
                    return head;
                }
                format!("{head}{}</{}>", written(&it.children), it.name)
            }
        };
        nodes.iter().map(one).collect()
    }

    #[test]
    fn a_tree_written_again_is_the_page() {
        for said in [
            "plain",
            "<b>&amp;lt; \"q\" > #panic() $x$ \\",
            "</svg></td>",
            "",
        ] {
            let page = html! {
                section class="a b" aria-label=(said) {
                    p { "One " (said) br; "two" }
                    table { tr { th scope="row" colspan="2" { (said) } td {} } }
                    svg viewBox="0 0 700 340" role="img" aria-label=(said) { path class="x" d="M0 0" {} }
                    img alt=(said) width="3" height="2" src="data:image/jpeg;base64,AQID";
                }
                (said)
            }
            .into_string();
            let tree = read(&page);
            assert_eq!(written(&tree), page);
            let Some(Node::Element(section)) = tree.first() else {
                panic!("no section: {tree:?}");
            };
            assert_eq!(section.attribute("aria-label"), Some(said));
            let [.., Node::Drawing(drawing), Node::Photo(photo)] = section.children.as_slice()
            else {
                panic!("no drawing: {tree:?}");
            };
            assert_eq!(drawing.shows.as_deref(), Some(said));
            assert_eq!(drawing.size(), Some((700.0, 340.0)));
            assert_eq!(photo.jpeg, [1, 2, 3]);
        }
    }

    #[test]
    fn a_drawing_by_itself_looks_nothing_up() {
        let Some(Node::Drawing(drawing)) =
            read("<svg class=\"plot\" viewBox=\"0 0 1 1\"></svg>").pop()
        else {
            panic!("no drawing");
        };
        let file = drawing.file("Face");
        assert!(file.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"plot\""));
        assert!(file.contains("text{font-family:'Face'}") && !file.contains("var("));
    }

    #[test]
    fn what_is_cut_off_is_no_panic() {
        for cut in [
            "<p",
            "<p>a",
            "</p>",
            "<svg",
            "<img alt=\"",
            "a<",
            "<a b=\"c",
        ] {
            let _ = read(cut);
        }
    }
}
