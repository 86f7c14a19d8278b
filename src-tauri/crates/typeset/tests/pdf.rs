//! Reports as PDF files, read by programs that share no code with ours (poppler's pdfinfo,
//! pdftotext and pdffonts).

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

#[path = "../../report/tests/job/mod.rs"]
mod job;

use std::collections::BTreeSet;
use std::process::Command;

use job::{finite, job, recorded};
use model::bench::Reading;
use model::job::{Customer, Vehicle};
use report::{Document, Fate, Node, Personal, ReadingLine, Report, Room, Version};
use tempfile::TempDir;

const HOSTILE: &str = "#panic(\"x\") *a* $b$ \\ @c <d> `e` = f \u{202e}drowssap\u{202c} \u{0}\u{7} \
                       </style> % {{g}} [h](i)";

/// A job whose photo is a picture.
fn whole(said: &str) -> Report {
    let mut report = job(said);
    let picture = image::RgbImage::from_fn(64, 48, |x, y| image::Rgb([x as u8, y as u8, 99]));
    let mut jpeg = Vec::new();
    image::codecs::jpeg::JpegEncoder::new(&mut jpeg)
        .encode_image(&picture)
        .unwrap();
    let shown = report.photos[0].picture.as_mut().unwrap();
    (shown.jpeg, shown.width_px, shown.height_px) = (jpeg, 64, 48);
    report
}

struct File {
    folder: TempDir,
}

impl File {
    fn of(report: &Report, version: Version) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let bytes = typeset::pdf(report, version).unwrap();
        std::fs::write(folder.path().join("report.pdf"), bytes).unwrap();
        Self { folder }
    }

    /// What a program of poppler says of it, without a word of complaint.
    fn told(&self, program: &str, options: &[&str]) -> String {
        let told = Command::new(program)
            .args(options)
            .arg(self.folder.path().join("report.pdf"))
            .args((program == "pdftotext").then_some("-"))
            .output()
            .unwrap_or_else(|error| panic!("{program} (package poppler-utils): {error}"));
        // Poppler takes `/Suspects false`, which PDF/UA-1 asks for, for a value of the wrong type.
        let complaint = String::from_utf8_lossy(&told.stderr).replace(
            "Syntax Error: Suspects object is wrong type (boolean)\n",
            "",
        );
        assert_eq!(complaint, "", "{program}");
        assert!(told.status.success(), "{program}");
        // pdfinfo writes the text of attributes as it finds it.
        String::from_utf8_lossy(&told.stdout).into_owned()
    }

    fn text(&self) -> String {
        // In the order in which it was written: cell by cell.
        spaced(&self.told("pdftotext", &["-raw"]))
    }

    fn pages(&self) -> usize {
        let told = self.told("pdfinfo", &[]);
        let line = told
            .lines()
            .find(|line| line.starts_with("Pages:"))
            .unwrap();
        line.split_whitespace().nth(1).unwrap().parse().unwrap()
    }
}

fn spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The words of the elements, drawings included.
fn words(document: &Document) -> String {
    fn of(nodes: &[Node], text: &mut String) {
        for node in nodes {
            match node {
                Node::Text(said) => text.push_str(said),
                Node::Element(element) => {
                    let inline = matches!(element.name.as_str(), "span" | "strong" | "bdi" | "s");
                    if !inline {
                        text.push(' ');
                    }
                    of(&element.children, text);
                    if !inline {
                        text.push(' ');
                    }
                }
                Node::Drawing(drawing) => {
                    let mut inside = false;
                    for c in drawing.svg.chars() {
                        match c {
                            '<' => inside = true,
                            '>' => {
                                inside = false;
                                text.push(' ');
                            }
                            c if !inside => text.push(c),
                            _ => {}
                        }
                    }
                }
                Node::Photo(_) => {}
            }
        }
    }
    let mut text = String::new();
    of(&document.body, &mut text);
    spaced(&text)
}

/// Every word that has a digit in it.
fn figures(text: &str) -> BTreeSet<String> {
    text.split_whitespace()
        .map(|word| word.trim_matches(|c: char| !c.is_alphanumeric() && c != '−' && c != '+'))
        .filter(|word| word.chars().any(|c| c.is_ascii_digit()))
        .map(str::to_owned)
        .collect()
}

#[test]
fn it_is_tagged_titled_in_english_and_has_its_fonts_inside() {
    for (version, title) in [
        (Version::Technical, "Job 0101 said, Larkmoor L6 said"),
        (Version::Customer, "Job 0101 said: what we found and did"),
    ] {
        let file = File::of(&whole("said"), version);
        let info = file.told("pdfinfo", &["-isodates"]);
        for line in [
            format!("Title: {title}"),
            "Tagged: yes".to_owned(),
            "JavaScript: no".to_owned(),
            "Encrypted: no".to_owned(),
            "CreationDate: 2026-04-14T12:05:00+02".to_owned(),
            "(A4)".to_owned(),
        ] {
            assert!(spaced(&info).contains(&line), "{line}\n{info}");
        }
        let meta = file.told("pdfinfo", &["-meta"]);
        assert!(meta.contains("<pdfuaid:part>1</pdfuaid:part>"), "{meta}");
        assert!(meta.contains(">en<"), "{meta}");
        let fonts = file.told("pdffonts", &[]);
        let rows: Vec<_> = fonts.lines().skip(2).collect();
        assert!(!rows.is_empty());
        for row in rows {
            // name, type (two words), encoding, embedded, subset, unicode, object
            let after: Vec<_> = row
                .split("Identity-H")
                .nth(1)
                .unwrap()
                .split_whitespace()
                .collect();
            assert_eq!(&after[..3], ["yes", "yes", "yes"], "{row}");
            assert!(row.contains("AtkinsonHyperlegible"), "{row}");
        }
    }
}

#[test]
fn headings_tables_lists_and_figures_are_what_they_look_like() {
    let file = File::of(&whole("said"), Version::Technical);
    let tree = file.told("pdfinfo", &["-struct-text"]);
    for tag in [
        "H1", "H2", "H3", "Table", "THead", "TBody", "TR", "TH", "TD", "Caption", "L", "LI",
        "LBody", "Figure",
    ] {
        assert!(
            tree.lines().any(|line| line.trim().starts_with(tag)),
            "{tag}\n{tree}"
        );
    }
    let tree = spaced(&tree);
    // What a figure shows is told in words; no program of poppler's tells them.
    let bytes = std::fs::read(file.folder.path().join("report.pdf")).unwrap();
    let bytes = String::from_utf8_lossy(&bytes);
    for shown in [
        "regulator said in section)",
        "as new and as measured)",
        "(said)",
    ] {
        assert!(
            bytes.split("/Alt").skip(1).any(|alt| {
                alt.split(')')
                    .next()
                    .is_some_and(|alt| format!("{alt})").ends_with(shown))
            }),
            "{shown}"
        );
    }
    for scope in ["/Scope /Column", "/Scope /Row"] {
        let all = spaced(&file.told("pdfinfo", &["-struct"]));
        assert!(all.contains(scope), "{scope}\n{all}");
    }
    let marks = tree.matches("✓").count() + tree.matches("✕").count();
    assert!(
        marks < 4,
        "marks are read aloud although their word stands beside them"
    );
}

#[test]
fn the_figures_are_those_of_the_page() {
    for version in [Version::Technical, Version::Customer] {
        let report = whole("said");
        let page = figures(&words(&report::document(&report, version, Room::WIDEST)));
        let file = File::of(&report, version);
        let mut set = figures(&file.text());
        for word in &page {
            assert!(set.contains(word), "{word} is missing\n{}", file.text());
        }
        // And no others, but the numbers of the pages.
        let pages: BTreeSet<_> = (1..=file.pages()).map(|page| page.to_string()).collect();
        set.retain(|word| !page.contains(word) && !pages.contains(word));
        assert!(set.is_empty(), "{set:?}");
    }
}

#[test]
fn metals_shop_parts_and_an_unsigned_sheet_are_read_in_it() {
    let text = File::of(&whole("said"), Version::Technical).text();
    for told in [
        "Sleeve, made of steel",
        "Valve, made of wrought aluminium",
        "Reamer “Reamer said”: sizes said",
        "nobody has signed its machining sheet as it stands",
    ] {
        assert!(text.contains(told), "{told}\n{text}");
    }
}

#[test]
fn what_people_typed_is_text_and_steers_nothing() {
    let plain = File::of(&whole("said"), Version::Technical);
    let hostile = File::of(&whole(HOSTILE), Version::Technical);
    let text = hostile.text();
    for said in [
        "#panic(\"x\") *a* $b$ \\ @c <d> `e` = f",
        "</style> % {{g}} [h](i)",
        "drowssap",
    ] {
        assert!(text.contains(said), "{said}\n{text}");
    }
    assert!(!text.contains('\u{202e}'));
    assert!(text.contains("stand as \u{fffd}") || text.contains('\u{fffd}'));
    let headings = |file: &File| {
        let tree = file.told("pdfinfo", &["-struct"]);
        let names = tree
            .lines()
            .map(str::trim)
            .filter(|line| line.starts_with('H'));
        names
            .map(|line| line.split_whitespace().next().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(headings(&plain), headings(&hostile));
}

#[test]
fn a_script_that_the_typeface_lacks_is_said_to_be_missing() {
    let report = whole("Ärger mit łódź, שלום и 中文");
    for version in [Version::Technical, Version::Customer] {
        let text = File::of(&report, version).text();
        assert!(text.contains("Ärger mit łódź, \u{fffd}"), "{text}");
        assert!(
            text.contains("the HTML version of this report has them"),
            "{text}"
        );
    }
    let text = File::of(&whole("plain"), Version::Technical).text();
    assert!(!text.contains("the HTML version of this report has them"));
}

#[test]
fn the_customer_is_in_it_only_when_asked_for() {
    let personal = ["Quillhammer", "555-0199", "ZYX-77"];
    let mut report = whole("said");
    for version in [Version::Technical, Version::Customer] {
        report.customer = Personal::LeftOut;
        let file = File::of(&report, version);
        let everything = [
            file.text(),
            file.told("pdfinfo", &["-meta"]),
            file.told("pdfinfo", &["-struct-text"]),
        ]
        .concat();
        for word in personal {
            assert!(!everything.contains(word), "{word}");
        }
        assert!(everything.contains("asked for"));
        report.customer = Personal::Shown(Customer {
            name: personal[0].to_owned(),
            phone: personal[1].to_owned(),
            plate: personal[2].to_owned(),
        });
        let text = File::of(&report, version).text();
        for word in personal {
            assert!(text.contains(word), "{word}\n{text}");
        }
    }
}

#[test]
fn a_long_table_has_all_its_rows_whole_and_its_head_on_each_page() {
    let mut report = whole("said");
    let readings = &mut report.bores[0].tests[0].readings;
    for i in 0..300 {
        readings.push(ReadingLine {
            reading: Some(Reading {
                vacuum_pa: finite(58_000.0),
                reseated: true,
                as_typed: Some(format!("typed{i:03}")),
            }),
            recorded: recorded(&format!(
                "hand{i:03} with a name that takes more than one line"
            )),
            fate: Fate::Stands,
        });
    }
    let file = File::of(&report, Version::Technical);
    let mut seen = 0;
    let mut on_pages = 0;
    for page in 1..=file.pages() {
        let number = page.to_string();
        let text = file.told("pdftotext", &["-f", &number, "-l", &number]);
        let here: Vec<_> = (0..300)
            .filter(|i| text.contains(&format!("typed{i:03}")))
            .collect();
        if here.is_empty() {
            continue;
        }
        on_pages += 1;
        seen += here.len();
        for i in here {
            assert!(
                text.contains(&format!("hand{i:03}")),
                "row {i} is broken at page {page}"
            );
        }
        assert!(text.contains("As typed"), "no head on page {page}\n{text}");
    }
    assert_eq!(seen, 300);
    assert!(on_pages > 3, "{on_pages}");
}

#[test]
fn a_text_longer_than_a_page_is_there_to_its_end() {
    let mut report = whole("said");
    let long: Vec<_> = (0..2_000).map(|i| format!("word{i:04}")).collect();
    report.notes = Some(long.join(" "));
    report.complaint = Some("x".repeat(9_000));
    let text = File::of(&report, Version::Technical).text();
    for word in &long {
        assert!(text.contains(word), "{word}");
    }
    assert!(text.matches('x').count() >= 9_000);
}

#[test]
fn the_customers_version_is_one_page_however_much_was_typed() {
    for (letters, bores) in [(4, 1), (60, 2), (400, 6), (5_000, 12)] {
        for word in ["said ", "unbreakable", "W", "Ł", HOSTILE] {
            let said: String = word.chars().cycle().take(letters).collect();
            let mut report = whole(&said);
            let bore = report.bores[0].clone();
            report.bores.resize_with(bores, || bore.clone());
            report.complaint = Some(said.clone());
            report.vehicle = Some(Vehicle {
                description: said.clone(),
                odometer_m: None,
            });
            let file = File::of(&report, Version::Customer);
            assert_eq!(file.pages(), 1, "{letters} {bores} {word}");
            if bores > 6 {
                assert!(
                    file.text().contains("the technical report has"),
                    "{}",
                    file.text()
                );
            }
        }
    }
}

#[test]
fn the_same_report_gives_the_same_bytes() {
    let report = whole("said");
    for version in [Version::Technical, Version::Customer] {
        assert_eq!(
            typeset::pdf(&report, version),
            typeset::pdf(&report, version)
        );
    }
}

#[test]
fn a_photo_that_is_none_is_an_error_and_no_panic() {
    let refused = typeset::pdf(&job("said"), Version::Technical);
    assert!(
        matches!(refused, Err(typeset::TypesetError::Photo(_))),
        "{refused:?}"
    );
}
