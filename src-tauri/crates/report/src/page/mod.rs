//! The page, part by part, in the order in which it is read.

mod bore;
mod closing;
mod consequence;
mod customer;
mod decisions;
mod handover;
mod head;
mod inspection;
mod judged;
mod machining;
mod oil_check;
mod photos;
mod piece;
mod place;
mod relief;
mod repair;
mod sources;
mod summary;
mod taps;
mod test;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::describe::Report;
use crate::text;
use crate::{Room, Version};

/// Nothing but its own styles, typeface and pictures: a hostile text that slipped through could load and
/// run nothing.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; \
                      img-src data:";
const STYLE: &str = concat!(
    include_str!("../../assets/screen.css"),
    include_str!("../../assets/drawing.css"),
    include_str!("../../assets/print.css")
);
const REGULAR: &[u8] =
    include_bytes!("../../assets/atkinson-hyperlegible-next-latin-400-normal.woff2");
const BOLD: &[u8] =
    include_bytes!("../../assets/atkinson-hyperlegible-next-latin-700-normal.woff2");

/// What a document is called.
pub(crate) fn title(report: &Report, version: Version) -> String {
    let number = text::line(&report.number);
    match version {
        Version::Technical => format!("Job {number}, {}", text::line(&report.unit)),
        Version::Customer => format!("Job {number}: what we found and did"),
    }
}

/// All that is read, without the frame that makes a page of it.
pub(crate) fn body(report: &Report, version: Version, room: Room) -> Markup {
    match version {
        Version::Technical => technical(report),
        Version::Customer => customer::page(report, room),
    }
}

/// The whole document.
pub(crate) fn page(report: &Report, version: Version) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light";
                meta name="generator" content={ "Valvewright " (text::line(&report.program)) };
                title { (title(report, version)) }
                style { (PreEscaped(faces())) (PreEscaped(STYLE)) }
            }
            body { (body(report, version, Room::WIDEST)) }
        }
    }
}

fn technical(report: &Report) -> Markup {
    html! {
        (head::banner(report))
        main {
            (head::facts(report))
            (summary::summary(report))
            @for (i, bore) in bore::worked_on(report).enumerate() {
                (bore::section(report, bore, i))
            }
            (taps::section(report))
            (inspection::body(report))
            (bore::untouched(report))
            (photos::section(report))
            (decisions::section(report))
            (handover::section(report))
            (closing::cautions(report))
            (sources::section(report))
            (closing::not_this(report))
            (closing::checking(report))
        }
        (closing::foot(report))
    }
}

/// The typeface, inside: a page that is handed on looks the same wherever it is opened.
fn faces() -> String {
    [(400, REGULAR), (700, BOLD)]
        .map(|(weight, bytes)| {
            format!(
                "@font-face{{font-family:'Atkinson Hyperlegible Next';font-weight:{weight};\
                 src:url(data:font/woff2;base64,{}) format('woff2')}}\n",
                STANDARD.encode(bytes)
            )
        })
        .concat()
}
