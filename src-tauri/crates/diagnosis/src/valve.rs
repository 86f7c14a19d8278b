//! A bore's profile, with an assumed state of its seals, as the regulator that the physics solves.

use model::geometry;
use model::unit::{BoreProfile, Land, Material, Node, Opening, OpeningRole, OpeningWindow, Seal};
use physics::fluid::{Oil, OilState, ViscosityPoint};
use physics::gap::{Annulus, Expansion, clearance_at_temperature};
use physics::opening::window::Window;
use physics::opening::{Opening as Edge, Travel};
use physics::orifice::Orifice;
use physics::regulator::{Demand, Drain, LandLeak, Node as Place, Regulator};
use physics::relief::BallRelief;
use physics::spring::{Spring, face_area};
use uom::si::f64::{
    Force, KinematicViscosity, Length, MassDensity, Pressure, Ratio, SurfaceTension,
    TemperatureCoefficient, ThermodynamicTemperature, VolumeRate,
};
use uom::si::force::newton;
use uom::si::kinematic_viscosity::square_meter_per_second;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::temperature_coefficient::per_kelvin;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::error::DiagnosisError;

/// Temperature at which profiles state dimensions and at which benches measure.
pub const BENCH_TEMPERATURE_K: f64 = 293.15;

/// Discharge coefficient of a ball relief's opening (0.6 to 0.7 as a rule; from memory).
const RELIEF_DISCHARGE: f64 = 0.65;

/// How wide a seal's gap is, radially and at 20 °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gap {
    /// As its own land is when new, by the profile.
    AsNew,
    /// So wide, whichever land it is on.
    Of(Length),
    /// Between new and so wide: their geometric mean, or as new where that is the wider.
    Between(Length),
    /// So wide, or as new where that is the wider.
    AtLeastNew(Length),
}

impl Gap {
    /// The clearance on a land that is `new` when new.
    fn on(self, new: Length) -> Length {
        match self {
            Self::AsNew => new,
            Self::Of(gap) => gap,
            Self::Between(worn) => {
                metres((new.get::<meter>() * worn.max(new).get::<meter>()).sqrt())
            }
            Self::AtLeastNew(worn) => worn.max(new),
        }
    }
}

/// How one group of seals stands: how wide its gaps are and how far off-centre the valve lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SealState {
    /// How wide.
    pub gap: Gap,
    /// 0 centred, 1 touching.
    pub eccentricity: Ratio,
}

/// An assumed state of all seals of a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wear<'a> {
    /// Names of the lands that the test isolates.
    pub tested_lands: &'a [String],
    /// Their state.
    pub tested: SealState,
    /// The state of all other lands, metering edges included.
    pub untested: SealState,
}

impl Wear<'_> {
    fn of(&self, land: &str) -> SealState {
        if self.tested_lands.iter().any(|name| name == land) {
            self.tested
        } else {
            self.untested
        }
    }
}

/// Every sealing stretch with its land, in the order of the regulator's leaks. A stretch between
/// two openings of one place leaks nothing and is left out.
pub fn seals(profile: &BoreProfile) -> impl Iterator<Item = (&Land, &Seal)> {
    let all = profile
        .lands
        .iter()
        .flat_map(|land| land.seals.iter().map(move |seal| (land, seal)));
    all.filter(|(_, seal)| seal.left != seal.right)
}

/// A dimension that a calculation can't do without.
///
/// # Errors
/// [`DiagnosisError::ProfileIncomplete`] with its field when nobody entered it.
pub(crate) fn need<T: Copy>(value: Option<T>, part: &'static str) -> Result<T, DiagnosisError> {
    value.ok_or(DiagnosisError::ProfileIncomplete { part })
}

/// Radial clearance of a land as new, by the profile; none while its diameter isn't known.
#[must_use]
pub fn new_clearance(profile: &BoreProfile, land: &Land) -> Option<Length> {
    let diameter = land.diameter_m?;
    Some(metres((*profile.bore.diameter_m - *diameter) / 2.0))
}

/// As [`new_clearance`], where nothing goes without it.
pub(crate) fn needed_clearance(
    profile: &BoreProfile,
    land: &Land,
) -> Result<Length, DiagnosisError> {
    new_clearance(profile, land).ok_or(DiagnosisError::ProfileIncomplete {
        part: "lands.diameter_m",
    })
}

/// The oil that the unit runs on.
///
/// # Errors
/// [`DiagnosisError::ProfileIncomplete`] when nobody entered it.
pub fn unit_oil(profile: &BoreProfile) -> Result<&model::unit::Oil, DiagnosisError> {
    let missing = DiagnosisError::ProfileIncomplete { part: "unit.oil" };
    profile.unit.oil.as_ref().ok_or(missing)
}

/// Linear expansion of a material, 1/K, 20 to 100 °C (handbook values, from memory, good to 3 to
/// 5 %).
#[must_use]
pub fn expansion_per_k(material: Material) -> f64 {
    match material {
        Material::AluminiumDieCast => 21.8e-6,
        Material::AluminiumWrought => 23.6e-6,
        Material::Steel => 11.7e-6,
        Material::CastIron => 10.8e-6,
    }
}

/// The unit's oil at a temperature.
///
/// # Errors
/// [`DiagnosisError::Physics`] when the figures lie outside the law's range.
pub fn oil_at(oil: &model::unit::Oil, temperature_k: f64) -> Result<OilState, DiagnosisError> {
    let point = |celsius: f64, viscosity: f64| ViscosityPoint {
        temperature: ThermodynamicTemperature::new::<kelvin>(celsius + 273.15),
        viscosity: KinematicViscosity::new::<square_meter_per_second>(viscosity),
    };
    let oil = Oil {
        cold: point(40.0, *oil.viscosity_40c_m2_s),
        hot: point(100.0, *oil.viscosity_100c_m2_s),
        density_at_15c: MassDensity::new::<kilogram_per_cubic_meter>(*oil.density_15c_kg_m3),
    };
    Ok(oil.at(ThermodynamicTemperature::new::<kelvin>(temperature_k))?)
}

/// The regulator that a profile describes, its seals in an assumed state, at an oil temperature.
///
/// Engaged lengths are those at the regulating position. Areas are those of the lands as new.
///
/// # Errors
/// [`DiagnosisError::ProfileIncomplete`] when a needed part is missing,
/// [`DiagnosisError::Physics`] when a figure lies outside its law's range.
pub fn regulator(
    profile: &BoreProfile,
    wear: &Wear<'_>,
    oil_temperature_k: f64,
) -> Result<Regulator, DiagnosisError> {
    let missing = |part| DiagnosisError::ProfileIncomplete { part };
    let spring = profile.spring.as_ref().ok_or(missing("spring"))?;
    let reaction_land = profile.reaction_land().ok_or(missing("lands"))?;
    let spring_land = profile.spring_land().ok_or(missing("lands"))?;
    let face = |land: &Land| need(land.diameter_m, "lands.diameter_m");
    let stroke = geometry::regulating_stroke(profile).ok_or(missing("openings"))?;
    let hot = Hot {
        profile,
        temperature_k: oil_temperature_k,
    };

    let mut leaks = Vec::new();
    for (land, seal) in seals(profile) {
        let state = wear.of(&land.name);
        let clearance = hot.clearance(state.gap.on(needed_clearance(profile, land)?))?;
        leaks.push(land_leak(
            profile,
            land,
            seal,
            stroke,
            clearance,
            state.eccentricity,
        )?);
    }
    let supply = profile
        .opening(OpeningRole::Supply)
        .ok_or(missing("openings"))?;
    let exhaust = profile
        .opening(OpeningRole::Exhaust)
        .map(|opening| edge(profile, opening, wear, &hot))
        .transpose()?;
    let load = need(spring.load_regulating_n, "spring.load_regulating_n")?;
    let rate = need(spring.rate_n_per_m, "spring.rate_n_per_m")?;
    let load_at_rest = *load - *rate * stroke;
    let spool = &profile.bore.spool;
    let balance_orifice = match &profile.balance_orifice {
        Some(orifice) => Some(Orifice {
            diameter: metres(*orifice.diameter_m),
            length: metres(*need(orifice.length_m, "balance_orifice.length_m")?),
        }),
        None => return Err(missing("balance_orifice")),
    };
    Ok(Regulator {
        reaction_area: face_area(metres(*face(reaction_land)?))?,
        spring_side_area: face_area(metres(*face(spring_land)?))?,
        spring: spring_of(load_at_rest, *rate),
        stroke: metres(*need(spool.stroke_m, "bore.spool.stroke_m")?),
        supply: edge(profile, supply, wear, &hot)?,
        exhaust,
        balance_orifice,
        leaks,
        spring_chamber_drain: Drain::Open,
        friction: Force::new::<newton>(*need(spool.friction_n, "bore.spool.friction_n")?),
        demand: demand(profile)?,
        relief: profile.relief.as_ref().map(relief_of),
    })
}

/// A relief of the profile as the physics takes it.
#[must_use]
pub fn relief_of(relief: &model::unit::Relief) -> BallRelief {
    BallRelief {
        ball_diameter: metres(*relief.ball_diameter_m),
        seat_diameter: metres(*relief.seat_diameter_m),
        spring: spring_of(*relief.load_seated_n, *relief.rate_n_per_m),
        lift_stop: metres(*relief.lift_stop_m),
        discharge_coefficient: Ratio::new::<ratio>(RELIEF_DISCHARGE),
    }
}

/// Demand is stated hot, at the setpoint.
fn demand(profile: &BoreProfile) -> Result<Demand, DiagnosisError> {
    let circuit = &profile.circuit;
    Ok(Demand {
        flow: VolumeRate::new::<cubic_meter_per_second>(*need(
            circuit.demand_m3_s,
            "circuit.demand_m3_s",
        )?),
        at_pressure: Pressure::new::<pascal>(*need(circuit.setpoint_pa, "circuit.setpoint_pa")?),
        outlets: need(circuit.solenoids, "circuit.solenoids")?,
        stated_in: oil_at(unit_oil(profile)?, *profile.unit.hot_oil_temperature_k)?,
    })
}

struct Hot<'a> {
    profile: &'a BoreProfile,
    temperature_k: f64,
}

impl Hot<'_> {
    /// Radial clearance at the oil's temperature, of one that is known at 20 °C.
    fn clearance(&self, cold: Length) -> Result<Length, DiagnosisError> {
        let bore = &self.profile.bore;
        clearance_between(bore, cold, BENCH_TEMPERATURE_K, self.temperature_k)
    }
}

/// Radial clearance of the valve in its bore at one temperature, of one that is known at another.
pub(crate) fn clearance_between(
    bore: &model::unit::Bore,
    known: Length,
    from_k: f64,
    to_k: f64,
) -> Result<Length, DiagnosisError> {
    let expansion = Expansion {
        bore: coefficient(bore.material),
        valve: coefficient(bore.spool.material),
        from: ThermodynamicTemperature::new::<kelvin>(from_k),
        to: ThermodynamicTemperature::new::<kelvin>(to_k),
    };
    Ok(clearance_at_temperature(
        metres(*bore.diameter_m),
        known,
        &expansion,
    )?)
}

pub(crate) fn coefficient(material: Material) -> TemperatureCoefficient {
    TemperatureCoefficient::new::<per_kelvin>(expansion_per_k(material))
}

fn land_leak(
    profile: &BoreProfile,
    land: &Land,
    seal: &Seal,
    stroke: f64,
    clearance: Length,
    eccentricity: Ratio,
) -> Result<LandLeak, DiagnosisError> {
    let length = geometry::engaged_length(profile, land, seal, stroke);
    let diameter = need(land.diameter_m, "lands.diameter_m")?;
    let mean = metres(*diameter) + clearance;
    Ok(LandLeak {
        annulus: Annulus::new(mean, clearance, metres(length), eccentricity)?,
        from: place(seal.left),
        to: place(seal.right),
    })
}

fn edge(
    profile: &BoreProfile,
    opening: &Opening,
    wear: &Wear<'_>,
    hot: &Hot<'_>,
) -> Result<Edge, DiagnosisError> {
    let missing = DiagnosisError::ProfileIncomplete { part: "openings" };
    let land = profile.land(&opening.land).ok_or(missing.clone())?;
    let width = geometry::opening_at(profile, opening, 0.0).ok_or(missing)?;
    let opens = geometry::opening_sense(profile, opening) > 0.0;
    Ok(Edge {
        land_diameter: metres(*need(land.diameter_m, "lands.diameter_m")?),
        circumference_fraction: Ratio::new::<ratio>(*opening.circumference_fraction),
        window: opening.window.as_ref().map(window),
        width_at_rest: metres(width),
        travel: if opens { Travel::Opens } else { Travel::Closes },
        radial_clearance: hot
            .clearance(wear.of(&land.name).gap.on(needed_clearance(profile, land)?))?,
    })
}

fn window(window: &OpeningWindow) -> Window {
    match *window {
        OpeningWindow::RoundHoles { count, diameter_m } => Window::RoundHoles {
            count,
            diameter: metres(*diameter_m),
        },
        OpeningWindow::Notches {
            count,
            width_m,
            length_m,
        } => Window::Slots {
            count,
            width: metres(*width_m),
            length: metres(*length_m),
        },
    }
}

pub(crate) fn place(node: Node) -> Place {
    match node {
        Node::Line => Place::Line,
        Node::Feed => Place::Feed,
        Node::Reaction => Place::Reaction,
        Node::SpringChamber => Place::SpringChamber,
        Node::Sump => Place::Sump,
    }
}

fn spring_of(load_n: f64, rate_n_per_m: f64) -> Spring {
    Spring {
        load_at_rest: Force::new::<newton>(load_n),
        rate: SurfaceTension::new::<newton_per_meter>(rate_n_per_m),
    }
}

pub(crate) fn metres(m: f64) -> Length {
    Length::new::<meter>(m)
}
