//! Units and decimal sign of this device, as the report has them.

use report::{Force, Length, Pressure, Temperature, Units, Vacuum};

use crate::dto::{ForceUnit, LengthUnit, PressureUnit, Settings, TemperatureUnit, VacuumUnit};

/// The shop's units.
pub(super) fn units(settings: &Settings) -> Units {
    Units {
        pressure: match settings.pressure {
            PressureUnit::Psi => Pressure::Psi,
            PressureUnit::Kpa => Pressure::Kpa,
            PressureUnit::Bar => Pressure::Bar,
        },
        vacuum: match settings.vacuum {
            VacuumUnit::InHg => Vacuum::InHg,
            VacuumUnit::Kpa => Vacuum::Kpa,
        },
        length: match settings.length {
            LengthUnit::In => Length::In,
            LengthUnit::Mm => Length::Mm,
        },
        force: match settings.force {
            ForceUnit::Lbf => Force::Lbf,
            ForceUnit::N => Force::N,
        },
        temperature: match settings.temperature {
            TemperatureUnit::F => Temperature::F,
            TemperatureUnit::C => Temperature::C,
        },
    }
}

/// Languages that write a decimal comma (Unicode CLDR, symbols; from memory), and the regions of
/// them that write a point.
const COMMA: [&str; 44] = [
    "af", "az", "be", "bg", "bs", "ca", "cs", "da", "de", "el", "es", "et", "eu", "fi", "fr", "gl",
    "hr", "hu", "hy", "id", "is", "it", "ka", "kk", "lt", "lv", "mk", "nb", "nl", "nn", "no", "pl",
    "pt", "ro", "ru", "sk", "sl", "sq", "sr", "sv", "tr", "uk", "uz", "vi",
];
const POINT: [&str; 14] = [
    "de-ch", "de-li", "it-ch", "es-mx", "es-us", "es-pr", "es-gt", "es-sv", "es-hn", "es-ni",
    "es-pa", "es-do", "es-pe", "es-419",
];

/// Whether numbers of a locale have a comma before the decimals.
pub(super) fn has_decimal_comma(locale: &str) -> bool {
    let tag = locale.replace('_', "-").to_ascii_lowercase();
    let mut parts = tag.split('-');
    let language = parts.next().unwrap_or_default();
    // A script between language and region ("es-Latn-MX") has four letters.
    let region = parts.find(|part| part.len() == 2 || part.len() == 3);
    let whole = region.map_or_else(
        || language.to_owned(),
        |region| format!("{language}-{region}"),
    );
    COMMA.contains(&language) && !POINT.contains(&whole.as_str())
}

#[cfg(test)]
mod tests {
    use super::has_decimal_comma;

    #[test]
    fn the_settings_own_locales_write_as_the_interface_does() {
        for (locale, comma) in [
            ("en-US", false),
            ("en-GB", false),
            ("es-ES", true),
            ("es-MX", false),
            ("fr-FR", true),
            ("de-DE", true),
            ("de-CH", false),
            ("es-Latn-MX", false),
            ("pt_BR", true),
            ("", false),
            ("\u{202e}x", false),
        ] {
            assert_eq!(has_decimal_comma(locale), comma, "{locale}");
        }
    }
}
