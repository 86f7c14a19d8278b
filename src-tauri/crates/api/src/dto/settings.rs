//! Settings of this device: how numbers are shown. They never change what is stored.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Units and look. Local to the device, not in the journal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Settings {
    /// Oil and line pressure.
    pub pressure: PressureUnit,
    /// Vacuum below ambient.
    pub vacuum: VacuumUnit,
    /// Lengths and diameters.
    pub length: LengthUnit,
    /// Spring loads.
    pub force: ForceUnit,
    /// Temperatures.
    pub temperature: TemperatureUnit,
    /// BCP 47 language tag for numbers and dates; none: as the device has it.
    pub locale: Option<String>,
    /// Light, dark, or as the device has it.
    pub theme: Theme,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            pressure: PressureUnit::Psi,
            vacuum: VacuumUnit::InHg,
            length: LengthUnit::In,
            force: ForceUnit::Lbf,
            temperature: TemperatureUnit::F,
            locale: None,
            theme: Theme::System,
        }
    }
}

macro_rules! unit_choice {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $wire:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
        pub enum $name {
            $($(#[$vdoc])* #[serde(rename = $wire)] $variant),+
        }
    };
}

unit_choice! {
    /// Units of pressure.
    PressureUnit {
        /// Pound-force per square inch.
        Psi = "psi",
        /// Kilopascal.
        Kpa = "kPa",
        /// Bar.
        Bar = "bar",
    }
}
unit_choice! {
    /// Units of vacuum.
    VacuumUnit {
        /// Inches of mercury, conventional, at 0 °C.
        InHg = "inHg",
        /// Kilopascal below ambient.
        Kpa = "kPa",
    }
}
unit_choice! {
    /// Units of length.
    LengthUnit {
        /// Inch.
        In = "in",
        /// Millimetre.
        Mm = "mm",
    }
}
unit_choice! {
    /// Units of force.
    ForceUnit {
        /// Pound-force.
        Lbf = "lbf",
        /// Newton.
        N = "N",
    }
}
unit_choice! {
    /// Units of temperature.
    TemperatureUnit {
        /// Degree Fahrenheit.
        F = "°F",
        /// Degree Celsius.
        C = "°C",
    }
}
unit_choice! {
    /// The look.
    Theme {
        /// Paper and ink.
        Light = "light",
        /// Ink and chalk.
        Dark = "dark",
        /// As the device has it.
        System = "system",
    }
}
