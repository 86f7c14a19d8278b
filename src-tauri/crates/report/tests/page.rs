//! The page of a whole job: sound as a document, whatever people typed.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

mod job;

use job::job;
use report::Report;

const HOSTILE: &str = "</style></title><script>alert(\"1\")</script> ]]> <img src=x onerror='y'> \
                       & \u{202e}drowssap\u{202c} \u{200f}\u{0}\u{7} 'q'";

/// The technical version.
fn html(report: &Report) -> String {
    report::html(report, report::Version::Technical)
}

/// Every tag in order, with its attributes.
fn tags(html: &str) -> Vec<&str> {
    html.split('<')
        .skip(1)
        .map(|rest| rest.split_once('>').unwrap().0)
        .collect()
}

fn name(tag: &str) -> &str {
    tag.split([' ', '/']).next().unwrap()
}

#[test]
fn hostile_text_changes_nothing_about_the_document() {
    let plain = html(&job("said"));
    let hostile = html(&job(HOSTILE));
    // The same tags in the same order: nothing that was typed opened or closed one.
    let names = |html: &str| -> Vec<String> {
        tags(html)
            .into_iter()
            .map(|tag| tag.split(' ').next().unwrap().to_owned())
            .collect()
    };
    assert_eq!(names(&plain), names(&hostile));
    assert!(!hostile.contains("<script") && !hostile.contains("<img src=x"));
    let steering = |c: char| {
        matches!(c, '\u{202a}'..='\u{202e}' | '\u{200e}' | '\u{200f}' | '\u{2066}'..='\u{2069}')
            || (c.is_control() && c != '\n' && c != '\t')
    };
    assert!(!hostile.contains(steering));
    // It is all there: what is typed is shown, not swallowed.
    assert!(hostile.contains("&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt; ]]&gt;"));
    assert!(hostile.matches("drowssap").count() > 100);
}

#[test]
fn every_tag_that_opens_closes_and_headings_and_tables_are_in_order() {
    let html = html(&job("said"));
    let mut open = Vec::new();
    let mut level = 0;
    for tag in tags(&html) {
        if tag.starts_with('!') || matches!(name(tag), "meta" | "br" | "img") {
            continue;
        }
        if let Some(closed) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(closed), "{tag}");
            continue;
        }
        if let Some(found) = tag
            .strip_prefix('h')
            .and_then(|rest| rest[..1].parse::<u32>().ok())
        {
            assert!(found <= level + 1, "h{found} after h{level}");
            level = found;
        }
        open.push(name(tag));
    }
    assert!(open.is_empty(), "{open:?}");
    assert_eq!(html.matches("<h1>").count(), 1);
    assert_eq!(
        html.matches("<table").count(),
        html.matches("<caption>").count()
    );
    for tag in tags(&html).into_iter().filter(|tag| name(tag) == "th") {
        assert!(tag.contains("scope="), "{tag}");
    }
    for tag in tags(&html)
        .into_iter()
        .filter(|tag| tag.contains("role=\"img\""))
    {
        assert!(tag.contains("aria-label="), "{tag}");
    }
    for tag in tags(&html).into_iter().filter(|tag| name(tag) == "img") {
        assert!(tag.contains("alt=\"said\""), "{tag}");
    }
}

#[test]
fn it_forbids_itself_everything_but_its_own_style_typeface_and_pictures() {
    let html = html(&job("said"));
    assert!(html.contains("default-src 'none'; style-src 'unsafe-inline'; font-src data:"));
    assert!(html.contains("<html lang=\"en\">"));
    // The one picture lies in the page.
    assert!(html.contains("img-src data:\""));
    let html = html.replacen(
        "src=\"data:image/jpeg;base64,bm90IGxvb2tlZCBhdCBoZXJl\"",
        "",
        1,
    );
    for reference in ["http:", "https:", "src=", "@import", "<link"] {
        assert!(!html.contains(reference), "{reference}");
    }
    assert!(html.len() < 400_000, "{}", html.len());
}

#[test]
fn what_is_withheld_struck_or_missing_is_said() {
    let html = html(&job("said"));
    for said in [
        "The picture isn’t on the device that made this report.",
        "2 photos that may show a person or a plate were left out",
        "Complaint</th><td>withheld",
        "its content isn’t on this device",
        "struck out or undone",
        "Outdated: ",
        "Not every caution was acknowledged.",
        "Records whose content was withheld from this device",
        "How the bore was set up isn’t recorded.",
        "The bore was not tested since.",
        "UTC+02:00",
    ] {
        assert!(html.contains(said), "{said}");
    }
}

#[test]
fn an_inspection_is_told_with_its_readings_its_instruments_and_what_it_does() {
    let html = html(&job("said"));
    for said in [
        "Doesn’t hold its pressure, or a part is broken",
        "What the checks say together",
        // By hand: 18 N over 49.90 mm² are 52.3 psi; the tester's ±0.2 N and its steps of 0.1 N
        // make ±0.24 N (95 %) of that at least, 0.7 psi.
        "The spring holds 51.",
        "left out on purpose",
        "Load at 0.7087\u{a0}in",
        "Measured with",
        "Spring tester said, ±\u{a0}0.04\u{a0}lbf, calibration due 2027-04-01",
        "What that does to each clutch",
        "bleed solenoid, passes a shift on in proportion",
        "lbf·ft",
        "Body and case",
        "loses slowly",
        "Clearance by the diameters",
    ] {
        assert!(html.contains(said), "{said}");
    }
}

#[test]
fn the_page_says_what_was_agreed_and_never_what_a_part_cost_the_shop() {
    let page = html(&job("Öl"));
    for told in [
        "161.88",
        "194.26",
        "32.38",
        "44.26",
        "12 months",
        "changed after it was signed",
    ] {
        assert!(page.contains(told), "{told}");
    }
    assert!(!page.contains("987.65") && !page.contains("XTS"));
}

/// What stands beside a name in the customer's version.
fn told(report: &Report, name: &str) -> Option<String> {
    let page = report::html(report, report::Version::Customer);
    let (_, rest) = page.split_once(&format!("<th scope=\"row\">{name}</th><td>"))?;
    Some(rest.split_once("</td>").unwrap().0.to_owned())
}

#[test]
fn what_was_found_isnt_told_by_checks_since_the_repair() {
    let mut report = job("said");
    let together = "checks";
    assert!(!told(&report, "Found").unwrap().contains(together));
    assert!(told(&report, "Checked since").unwrap().contains(together));
    // Without a repair they are what was found.
    report.bores[0].repairs.clear();
    assert!(told(&report, "Found").unwrap().contains(together));
    assert_eq!(told(&report, "Checked since"), None);
}

#[test]
fn a_repairs_metals_and_where_a_shop_parts_sizes_come_from_are_in_the_technical_version() {
    let page = html(&job("said"));
    for told in [
        "Sleeve, made of</th><td>steel",
        "Valve, made of</th><td>wrought aluminium",
        "Reamer “Reamer said”: sizes",
        "nobody has signed its machining sheet as it stands",
    ] {
        assert!(page.contains(told), "{told}");
    }
    // Not entered is said, with what was taken in its place.
    let mut report = job("said");
    let work = &mut report.bores[0].repairs[0].work;
    (work.sleeve_material, work.valve_material) = (None, None);
    work.valve_diameter_m = Some(job::finite(8e-3));
    let page = html(&report);
    assert!(page.contains("not entered; taken as the metal of the bore before"));
    assert!(page.contains("not entered; taken as the old valve’s metal"));
    // The customer's has neither.
    let page = report::html(&job("said"), report::Version::Customer);
    assert!(!page.contains("made of") && !page.contains("Reamer said"));
}
