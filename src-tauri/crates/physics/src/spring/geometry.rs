//! A cylindrical compression spring of round wire from its dimensions.
//!
//! Sources: Shigley, *Mechanical Engineering Design*, ch. 10 (index and factors eq. 10-1 to 10-7,
//! ends table 10-1, stability eq. 10-10 to 10-13, natural frequency eq. 10-25), and EN 13906-1
//! (same rate, same stability; its stress factor `(w + 0.5) / (w - 0.75)` is Bergsträsser's; its
//! solid length of unground closed ends is half a wire longer than Shigley's). Numbers of
//! equations from memory.

use std::f64::consts::{FRAC_PI_4, PI};

use uom::si::f64::{Force, Frequency, Length, Mass, MassDensity, Pressure, Ratio};
use uom::si::force::newton;
use uom::si::frequency::hertz;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::range;
use crate::spring::{Spring, SpringRate, rate_from_geometry};

/// How the ends of a spring are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// Cut off.
    Plain,
    /// Cut off and ground flat.
    PlainGround,
    /// Last coils closed, not ground.
    Closed,
    /// Last coils closed and ground flat, as valve springs are.
    ClosedGround,
}

/// How the ends are held: the factor of the buckling length (Shigley table 10-2).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mounting {
    /// Both ends between flat parallel faces: 0.5.
    FixedFixed,
    /// One flat face, one pivoted: 0.707.
    FixedPivoted,
    /// Both pivoted: 1.
    Pivoted,
    /// One clamped, the other free to go sideways: 2.
    FixedFree,
}

impl Mounting {
    /// Alpha of Shigley, nu of EN 13906-1.
    fn factor(self) -> f64 {
        match self {
            Self::FixedFixed => 0.5,
            Self::FixedPivoted => 0.707,
            Self::Pivoted => 1.0,
            Self::FixedFree => 2.0,
        }
    }
}

/// A spring as drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpringGeometry {
    /// Wire diameter d, 0.1 to 10 mm.
    pub wire: Length,
    /// Mean coil diameter D, more than 2 d, to 100 mm.
    pub mean_diameter: Length,
    /// Active coils, 1 to 50.
    pub active_coils: Ratio,
    /// Height without load, 1 to 300 mm.
    pub free_height: Length,
    /// How the ends are made.
    pub ends: Ends,
    /// Shear modulus G, 20 to 120 GPa.
    pub shear_modulus: Pressure,
    /// Young's modulus E, 50 to 250 GPa, above G.
    pub young_modulus: Pressure,
    /// Density of the wire, 2000 to 10 000 kg/m3.
    pub density: MassDensity,
}

/// What follows from a spring's dimensions alone.
#[derive(Debug, Clone, PartialEq)]
pub struct SpringForm {
    /// `G d^4 / (8 D^3 N)`.
    pub rate: SpringRate,
    /// As `rate`, with direct shear: divided by `1 + 1 / (2 C^2)` (Shigley eq. 10-8).
    pub rate_with_direct_shear: SpringRate,
    /// Index C = D / d.
    pub index: Ratio,
    /// Wahl's factor, `(4 C - 1) / (4 C - 4) + 0.615 / C`.
    pub wahl: Ratio,
    /// Bergsträsser's factor, `(4 C + 2) / (4 C - 3)`.
    pub bergstrasser: Ratio,
    /// Height with all coils shut (Shigley table 10-1).
    pub solid_height: Length,
    /// Solid height by EN 13906-1, where it has one (closed ends): unground closed ends stand
    /// half a wire higher than in Shigley.
    pub solid_height_en: Option<Length>,
    /// Gap that EN 13906-1 wants left between the coils of a cold-formed spring, all together:
    /// `n (0.0015 D^2 / d + 0.1 d)` (from memory).
    pub least_gap_en: Length,
    /// Mass of the active coils.
    pub active_mass: Mass,
    /// First natural frequency between two plates, `sqrt(k / m) / 2`.
    pub natural_frequency: Frequency,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// A spring at one height.
#[derive(Debug, Clone, PartialEq)]
pub struct SpringLoaded {
    /// Load.
    pub load: Force,
    /// Shear stress with Wahl's factor.
    pub stress_wahl: Pressure,
    /// Shear stress with Bergsträsser's factor (EN 13906-1).
    pub stress_bergstrasser: Pressure,
    /// What is left until the coils shut.
    pub to_solid: Length,
    /// What was assumed; [`Assumption::SpringNearSolid`] when less than 15 % of the travel from
    /// free to solid is left (Shigley wants 13), or less than the gap of EN 13906-1.
    pub assumptions: Vec<Assumption>,
}

/// Whether a spring stands by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Buckling {
    /// Free height below which the spring can't buckle, whatever its deflection.
    pub safe_free_height: Length,
    /// Deflection at which it buckles; none if it never does.
    pub critical_deflection: Option<Length>,
}

struct Si {
    d: f64,
    coil: f64,
    n: f64,
    free: f64,
    g: f64,
    e: f64,
    rate: f64,
    solid: f64,
}

impl Si {
    fn least_gap(&self) -> f64 {
        self.n * (0.0015 * self.coil * self.coil / self.d + 0.1 * self.d)
    }
}

impl SpringGeometry {
    /// Rate, factors, solid height, mass and natural frequency.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] for a coil no wider than two
    /// wires, a free height below the solid one, or E not above G.
    pub fn form(&self) -> Result<SpringForm, PhysicsError> {
        let s = self.si()?;
        let density = range::WIRE_DENSITY.check(self.density.get::<kilogram_per_cubic_meter>())?;
        let c = s.coil / s.d;
        let mass = FRAC_PI_4 * s.d * s.d * PI * s.coil * s.n * density;
        Ok(SpringForm {
            rate: SpringRate::new::<newton_per_meter>(s.rate),
            rate_with_direct_shear: SpringRate::new::<newton_per_meter>(
                s.rate / (1.0 + 0.5 / (c * c)),
            ),
            index: Ratio::new::<ratio>(c),
            wahl: Ratio::new::<ratio>(wahl(c)),
            bergstrasser: Ratio::new::<ratio>(bergstrasser(c)),
            solid_height: Length::new::<meter>(s.solid),
            solid_height_en: match self.ends {
                Ends::ClosedGround => Some(Length::new::<meter>(s.solid)),
                Ends::Closed => Some(Length::new::<meter>(s.solid + 0.5 * s.d)),
                Ends::Plain | Ends::PlainGround => None,
            },
            least_gap_en: Length::new::<meter>(s.least_gap()),
            active_mass: Mass::new::<kilogram>(mass),
            natural_frequency: Frequency::new::<hertz>(0.5 * (s.rate / mass).sqrt()),
            assumptions: vec![Assumption::SpringTorsionOnly],
        })
    }

    /// Load and stress at `height` (solid to free height).
    ///
    /// # Errors
    /// As [`SpringGeometry::form`]; a height outside solid to free names `spring_height_m`.
    pub fn at_height(&self, height: Length) -> Result<SpringLoaded, PhysicsError> {
        let s = self.si()?;
        let field = range::SPRING_HEIGHT.field;
        let h = range::within(field, height.get::<meter>(), s.solid, s.free, "m")?;
        let load = s.rate * (s.free - h);
        let c = s.coil / s.d;
        let plain = 8.0 * load * s.coil / (PI * s.d.powi(3));
        let mut assumptions = vec![Assumption::SpringTorsionOnly];
        if h - s.solid < (0.15 * (s.free - s.solid)).max(s.least_gap()) {
            assumptions.push(Assumption::SpringNearSolid);
        }
        Ok(SpringLoaded {
            load: Force::new::<newton>(load),
            stress_wahl: Pressure::new::<pascal>(plain * wahl(c)),
            stress_bergstrasser: Pressure::new::<pascal>(plain * bergstrasser(c)),
            to_solid: Length::new::<meter>(h - s.solid),
            assumptions,
        })
    }

    /// Stability by Shigley eq. 10-10, which EN 13906-1 shares:
    /// `y = L0 C1 (1 - sqrt(1 - C2 / lambda^2))`, `lambda = alpha L0 / D`, `C1 = E / (2 (E - G))`,
    /// `C2 = 2 pi^2 (E - G) / (2 G + E)`; stable for any deflection while `lambda^2 <= C2`. A
    /// critical deflection beyond the solid height is left out: the coils shut first.
    ///
    /// # Errors
    /// As [`SpringGeometry::form`].
    pub fn buckling(&self, mounting: Mounting) -> Result<Buckling, PhysicsError> {
        let s = self.si()?;
        let alpha = mounting.factor();
        let c1 = s.e / (2.0 * (s.e - s.g));
        let c2 = 2.0 * PI * PI * (s.e - s.g) / (2.0 * s.g + s.e);
        let slender = alpha * s.free / s.coil;
        let share = 1.0 - c2 / (slender * slender);
        let critical = (share >= 0.0).then(|| s.free * c1 * (1.0 - share.sqrt()));
        Ok(Buckling {
            safe_free_height: Length::new::<meter>(s.coil / alpha * c2.sqrt()),
            critical_deflection: critical
                .filter(|y| *y < s.free - s.solid)
                .map(Length::new::<meter>),
        })
    }

    /// The spring as a valve sees it, its load at rest that at `height_at_rest`.
    ///
    /// # Errors
    /// As [`SpringGeometry::at_height`]; a load or rate outside the table.
    pub fn installed(&self, height_at_rest: Length) -> Result<Spring, PhysicsError> {
        let load = self.at_height(height_at_rest)?.load.get::<newton>();
        let rate = range::SPRING_RATE.check(self.si()?.rate)?;
        Ok(Spring {
            load_at_rest: Force::new::<newton>(range::SPRING_LOAD.check(load)?),
            rate: SpringRate::new::<newton_per_meter>(rate),
        })
    }

    fn si(&self) -> Result<Si, PhysicsError> {
        let rate = rate_from_geometry(
            self.wire,
            self.mean_diameter,
            self.active_coils,
            self.shear_modulus,
        )?
        .get::<newton_per_meter>();
        let (d, n) = (self.wire.get::<meter>(), self.active_coils.get::<ratio>());
        let e = range::YOUNG_MODULUS.check(self.young_modulus.get::<pascal>())?;
        let g = self.shear_modulus.get::<pascal>();
        let free =
            range::SPRING_HEIGHT.check_as("free_height_m", self.free_height.get::<meter>())?;
        // Table 10-1: total coils, and what the solid stack measures in wires.
        let wires = match self.ends {
            Ends::Plain | Ends::PlainGround => n + 1.0,
            Ends::Closed => n + 3.0,
            Ends::ClosedGround => n + 2.0,
        };
        let contradiction = |field, other| Err(PhysicsError::Contradiction { field, other });
        if e <= g {
            return contradiction(range::YOUNG_MODULUS.field, range::SHEAR_MODULUS.field);
        }
        if free <= wires * d {
            return contradiction("free_height_m", range::ACTIVE_COILS.field);
        }
        Ok(Si {
            d,
            coil: self.mean_diameter.get::<meter>(),
            n,
            free,
            g,
            e,
            rate,
            solid: wires * d,
        })
    }
}

fn wahl(c: f64) -> f64 {
    (4.0 * c - 1.0) / (4.0 * c - 4.0) + 0.615 / c
}

fn bergstrasser(c: f64) -> f64 {
    (4.0 * c + 2.0) / (4.0 * c - 3.0)
}
