//! Units that a shop reads, with exact factors to SI (NIST SP 811, appendix B: inch 0.0254 m,
//! pound-force 4.4482216152605 N, conventional inch of mercury 3386.388640341 Pa, US gallon
//! 231 in³).

const INCH: f64 = 0.0254;
const POUND_FORCE: f64 = 4.448_221_615_260_5;
const FOOT: f64 = 0.3048;

/// A unit: its sign, how it comes to SI, and the decimals of a usual reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Unit {
    pub symbol: &'static str,
    /// SI = (value + offset) × factor.
    pub factor: f64,
    offset: f64,
    pub decimals: i32,
}

impl Unit {
    const fn new(symbol: &'static str, factor: f64, decimals: i32) -> Self {
        Self {
            symbol,
            factor,
            offset: 0.0,
            decimals,
        }
    }

    /// An SI value in this unit.
    pub fn of_si(self, si: f64) -> f64 {
        si / self.factor - self.offset
    }
}

const PSI: Unit = Unit::new("psi", POUND_FORCE / (INCH * INCH), 1);
const KPA: Unit = Unit::new("kPa", 1e3, 0);
const BAR: Unit = Unit::new("bar", 1e5, 2);
const HPA: Unit = Unit::new("hPa", 100.0, 0);
const INHG: Unit = Unit::new("inHg", 3_386.388_640_341, 1);
const VACUUM_KPA: Unit = Unit::new("kPa", 1e3, 1);
const BAROMETER_INHG: Unit = Unit::new("inHg", 3_386.388_640_341, 2);
const IN: Unit = Unit::new("in", INCH, 4);
const MM: Unit = Unit::new("mm", 1e-3, 4);
const THOU: Unit = Unit::new("thou", INCH * 1e-3, 1);
const UM: Unit = Unit::new("µm", 1e-6, 0);
const M: Unit = Unit::new("m", 1.0, 0);
const FT: Unit = Unit::new("ft", FOOT, 0);
const KM: Unit = Unit::new("km", 1e3, 0);
const MI: Unit = Unit::new("mi", 5280.0 * FOOT, 0);
const LBF: Unit = Unit::new("lbf", POUND_FORCE, 1);
const N: Unit = Unit::new("N", 1.0, 1);
const LBF_PER_IN: Unit = Unit::new("lbf/in", POUND_FORCE / INCH, 1);
const N_PER_MM: Unit = Unit::new("N/mm", 1e3, 2);
const LBF_FT: Unit = Unit::new("lbf·ft", POUND_FORCE * FOOT, 0);
const N_M: Unit = Unit::new("N·m", 1.0, 0);
const OHM: Unit = Unit::new("Ω", 1.0, 2);
const IN2: Unit = Unit::new("in²", INCH * INCH, 3);
const MM2: Unit = Unit::new("mm²", 1e-6, 1);
const L_PER_MIN: Unit = Unit::new("L/min", 1e-3 / 60.0, 2);
const ML_PER_MIN: Unit = Unit::new("mL/min", 1e-6 / 60.0, 0);
const GAL_PER_MIN: Unit = Unit::new("gal/min", 231.0 * INCH * INCH * INCH / 60.0, 2);
const IN3_PER_MIN: Unit = Unit::new("in³/min", INCH * INCH * INCH / 60.0, 1);
const PULL_L_PER_MIN: Unit = Unit::new("L/min", 1e-3 / 60.0, 1);
const MPA_S: Unit = Unit::new("mPa·s", 1e-3, 1);
const CELSIUS: Unit = Unit {
    symbol: "°C",
    factor: 1.0,
    offset: 273.15,
    decimals: 0,
};
const FAHRENHEIT: Unit = Unit {
    symbol: "°F",
    factor: 5.0 / 9.0,
    offset: 459.67,
    decimals: 0,
};

macro_rules! choice {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident),+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name { $($(#[$vdoc])* $variant),+ }
    };
}

choice! {
    /// Unit of pressures.
    Pressure {
        /// psi.
        Psi,
        /// kPa.
        Kpa,
        /// bar.
        Bar
    }
}
choice! {
    /// Unit of vacuum readings.
    Vacuum {
        /// inHg, conventional, at 0 °C.
        InHg,
        /// kPa.
        Kpa
    }
}
choice! {
    /// Unit of dimensions; areas and flows go with it.
    Length {
        /// Inches.
        In,
        /// Millimetres.
        Mm
    }
}
choice! {
    /// Unit of forces.
    Force {
        /// lbf.
        Lbf,
        /// N.
        N
    }
}
choice! {
    /// Unit of temperatures.
    Temperature {
        /// °F.
        F,
        /// °C.
        C
    }
}

/// The five choices that a shop makes; everything else follows from them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Units {
    /// Pressures.
    pub pressure: Pressure,
    /// Vacuum readings.
    pub vacuum: Vacuum,
    /// Dimensions.
    pub length: Length,
    /// Forces.
    pub force: Force,
    /// Temperatures.
    pub temperature: Temperature,
}

impl Units {
    /// Those of the International System that a shop reads.
    pub const SI: Self = Self {
        pressure: Pressure::Kpa,
        vacuum: Vacuum::Kpa,
        length: Length::Mm,
        force: Force::N,
        temperature: Temperature::C,
    };
}

impl Default for Units {
    fn default() -> Self {
        Self {
            pressure: Pressure::Psi,
            vacuum: Vacuum::InHg,
            length: Length::In,
            force: Force::Lbf,
            temperature: Temperature::F,
        }
    }
}

/// Kinds of quantity. Pressure is above ambient, vacuum below it and counted positive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Quantity {
    Pressure,
    Vacuum,
    Barometer,
    Length,
    Clearance,
    Altitude,
    Distance,
    Force,
    SpringRate,
    Torque,
    Resistance,
    Area,
    Temperature,
    Flow,
    LeakFlow,
    PumpPull,
    Viscosity,
}

impl Quantity {
    /// The unit in which a shop reads this quantity.
    pub fn shown(self, units: &Units) -> Unit {
        let by_length = |inch, metric| match units.length {
            Length::In => inch,
            Length::Mm => metric,
        };
        let by_force = |pound, newton| match units.force {
            Force::Lbf => pound,
            Force::N => newton,
        };
        let by_vacuum = |mercury, metric| match units.vacuum {
            Vacuum::InHg => mercury,
            Vacuum::Kpa => metric,
        };
        match self {
            Self::Pressure => match units.pressure {
                Pressure::Psi => PSI,
                Pressure::Kpa => KPA,
                Pressure::Bar => BAR,
            },
            Self::Vacuum => by_vacuum(INHG, VACUUM_KPA),
            Self::Barometer => by_vacuum(BAROMETER_INHG, HPA),
            Self::Length => by_length(IN, MM),
            Self::Clearance => by_length(THOU, UM),
            Self::Altitude => by_length(FT, M),
            Self::Distance => by_length(MI, KM),
            Self::Force => by_force(LBF, N),
            Self::SpringRate => by_force(LBF_PER_IN, N_PER_MM),
            Self::Torque => by_force(LBF_FT, N_M),
            Self::Resistance => OHM,
            Self::Area => by_length(IN2, MM2),
            Self::Temperature => match units.temperature {
                Temperature::F => FAHRENHEIT,
                Temperature::C => CELSIUS,
            },
            Self::Flow => by_length(GAL_PER_MIN, L_PER_MIN),
            Self::LeakFlow => by_length(IN3_PER_MIN, ML_PER_MIN),
            Self::PumpPull => PULL_L_PER_MIN,
            Self::Viscosity => MPA_S,
        }
    }
}
