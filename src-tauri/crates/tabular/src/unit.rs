//! Units as headers name them.
//!
//! Factors: NIST SP 811 (2008), appendix B: inch 0.0254 m, pound-force 4.448 221 615 260 5 N,
//! conventional millimetre of mercury 133.322 387 415 Pa, so inch of mercury 3386.388 640 341 Pa,
//! torr 101 325/760 Pa.

const INCH: f64 = 0.0254;
const POUND_FORCE: f64 = 4.448_221_615_260_5;

/// A unit of pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As we write it.
    pub symbol: &'static str,
    /// Pascals in one.
    pub pascals: f64,
}

const PRESSURES: [(Unit, &[&str]); 9] = [
    (
        Unit {
            symbol: "inHg",
            pascals: 3_386.388_640_341,
        },
        &["inhg", "inchhg", "inhg0c", "\"hg", "″hg"],
    ),
    (
        Unit {
            symbol: "kPa",
            pascals: 1_000.0,
        },
        &["kpa"],
    ),
    (
        Unit {
            symbol: "hPa",
            pascals: 100.0,
        },
        &["hpa"],
    ),
    (
        Unit {
            symbol: "mbar",
            pascals: 100.0,
        },
        &["mbar", "millibar"],
    ),
    (
        Unit {
            symbol: "bar",
            pascals: 100_000.0,
        },
        &["bar"],
    ),
    (
        Unit {
            symbol: "Pa",
            pascals: 1.0,
        },
        &["pa", "pascal"],
    ),
    (
        Unit {
            symbol: "psi",
            pascals: POUND_FORCE / (INCH * INCH),
        },
        &["psi", "lbf/in²", "lbf/in2"],
    ),
    (
        Unit {
            symbol: "mmHg",
            pascals: 133.322_387_415,
        },
        &["mmhg"],
    ),
    (
        Unit {
            symbol: "Torr",
            pascals: 101_325.0 / 760.0,
        },
        &["torr"],
    ),
];

/// The unit of pressure that a text names, if it names one.
#[must_use]
pub fn of_symbol(text: &str) -> Option<Unit> {
    let plain: String = text
        .to_lowercase()
        .chars()
        .filter(|c| !c.is_whitespace() && *c != '.' && *c != '_')
        .collect();
    PRESSURES
        .iter()
        .find(|(_, names)| names.contains(&plain.as_str()))
        .map(|(unit, _)| *unit)
}

/// A header without its unit, and the unit that stands in it: `vacuum (inHg)`, `Vacuum [kPa]`,
/// `p / mbar`, `Vacuum kPa`, `vacuum_kPa`.
#[must_use]
pub fn in_header(header: &str) -> (&str, Option<Unit>) {
    let header = header.trim();
    for (open, close) in [('(', ')'), ('[', ']'), ('{', '}')] {
        if let Some(inner) = header.strip_suffix(close)
            && let Some(at) = inner.rfind(open)
        {
            let name = header[..at].trim();
            return (name, of_symbol(&inner[at + open.len_utf8()..]));
        }
    }
    if let Some(at) = header.rfind([' ', '/', '_', ',', ':'])
        && let Some(unit) = of_symbol(&header[at + 1..])
    {
        let name = header[..at].trim_end_matches([' ', '/', '_', ',', ':']);
        // "in Hg" is one unit in two words.
        return match name.rsplit_once([' ', '_']) {
            _ if name.is_empty() => (header, Some(unit)),
            _ => (name, Some(unit)),
        };
    }
    if let Some(at) = header.rfind(' ')
        && let Some(before) = header[..at].rfind([' ', '/'])
        && let Some(unit) = of_symbol(&header[before + 1..])
    {
        return (header[..before].trim_end_matches([' ', '/']), Some(unit));
    }
    (header, of_symbol(header))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_header_names_its_unit_in_many_ways() {
        for (header, name, unit) in [
            ("vacuum (inHg)", "vacuum", Some("inHg")),
            ("Vacuum [kPa]", "Vacuum", Some("kPa")),
            ("p / mbar", "p", Some("mbar")),
            ("Vacuum kPa", "Vacuum", Some("kPa")),
            ("vacuum_kPa", "vacuum", Some("kPa")),
            ("Vacuum in. Hg", "Vacuum", Some("inHg")),
            ("Vacuum, psi", "Vacuum", Some("psi")),
            ("kPa", "kPa", Some("kPa")),
            ("Bore (left)", "Bore", None),
            ("Test point", "Test point", None),
            ("", "", None),
        ] {
            let (found, of) = in_header(header);
            assert_eq!((found, of.map(|it| it.symbol)), (name, unit), "{header}");
        }
    }

    #[test]
    fn a_standard_atmosphere_is_the_same_in_every_unit() {
        // NIST SP 811, appendix B.8, to the digits given there.
        for (symbol, value, digits) in [
            ("inHg", 29.9213, 1e-5),
            ("mmHg", 760.0, 1e-3),
            ("Torr", 760.0, 1e-9),
            ("psi", 14.696, 1e-3),
            ("bar", 1.013_25, 1e-9),
            ("mbar", 1013.25, 1e-9),
        ] {
            let unit = of_symbol(symbol).unwrap();
            assert!(
                (101_325.0 / unit.pascals - value).abs() < digits * 10.0,
                "{symbol}"
            );
        }
    }
}
