//! A regulator as it was told, as the physics takes it.

use diagnosis::valve::{self, Gap, SealState, Wear};
use model::limits::Check;
use model::unit::BoreProfile;
use model::{Finite, Severity};
use physics::PhysicsError;
use physics::fluid::OilState;
use physics::gap::Annulus;
use physics::opening::{Opening, Travel};
use physics::orifice::Orifice;
use physics::regulator::{Branch, Demand, Drain, LandLeak, Node, Regulator};
use physics::relief::BallRelief;
use physics::spring::Spring;
use uom::si::area::square_meter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    Area, DynamicViscosity, Force, Length, MassDensity, Pressure, Ratio, SurfaceTension, VolumeRate,
};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use super::oil::annulus;
use super::opening::window;
use crate::dto::{
    ChamberDrain, EdgeParts, OilFigures, OrificeParts, OutletDemand, PartsRegulator,
    ProfileRegulator, RegulatorParts, RegulatorPlace, RegulatorSource, ReliefParts, SpoolBranch,
    SpringParts,
};
use crate::error::{ApiError, ErrorCode};

pub(super) fn metres(x: Finite) -> Length {
    Length::new::<meter>(*x)
}

pub(super) fn pascals(x: Finite) -> Pressure {
    Pressure::new::<pascal>(*x)
}

pub(super) fn one(x: Finite) -> Ratio {
    Ratio::new::<ratio>(*x)
}

pub(super) fn newtons(x: Finite) -> Force {
    Force::new::<newton>(*x)
}

pub(super) fn square_metres(x: Finite) -> Area {
    Area::new::<square_meter>(*x)
}

pub(super) fn flow(x: Finite) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(*x)
}

pub(super) fn branch(told: SpoolBranch) -> Branch {
    match told {
        SpoolBranch::Frictionless => Branch::Frictionless,
        SpoolBranch::Rising => Branch::Rising,
        SpoolBranch::Falling => Branch::Falling,
    }
}

pub(super) fn oil(told: OilFigures) -> OilState {
    OilState {
        density: MassDensity::new::<kilogram_per_cubic_meter>(*told.density_kg_m3),
        viscosity: DynamicViscosity::new::<pascal_second>(*told.viscosity_pa_s),
        extrapolated: false,
    }
}

/// A count that may be left out, within its bounds.
pub(super) fn count(
    field: &'static str,
    told: Option<u32>,
    otherwise: u32,
    (low, high): (u32, u32),
) -> Result<u32, ApiError> {
    let count = told.unwrap_or(otherwise);
    if (low..=high).contains(&count) {
        return Ok(count);
    }
    Err(ApiError::new(ErrorCode::OutOfRange)
        .at(field)
        .with("low", low)
        .with("high", high))
}

/// The regulator, and its oil.
pub(super) fn regulator(told: &RegulatorSource) -> Result<(Regulator, OilState), ApiError> {
    match told {
        RegulatorSource::Profile(told) => {
            let ProfileRegulator {
                profile,
                oil_temperature_k,
                radial_clearance_m,
                tested_lands,
                eccentricity,
            } = &**told;
            of_profile(
                profile,
                *oil_temperature_k,
                *radial_clearance_m,
                tested_lands.as_deref(),
                *eccentricity,
            )
        }
        RegulatorSource::Parts(told) => {
            let PartsRegulator { regulator, oil: at } = &**told;
            Ok((of_parts(regulator)?, oil(*at)))
        }
    }
}

/// Refuses a profile with a finding that says it is wrong.
pub(super) fn sound(profile: &BoreProfile) -> Result<(), ApiError> {
    let mut findings = Vec::new();
    profile.check("profile", &mut findings);
    let wrong = findings
        .iter()
        .find(|finding| finding.severity == Severity::Wrong);
    wrong.map_or(Ok(()), |wrong| {
        Err(ApiError::new(ErrorCode::OutOfRange).at(&wrong.field))
    })
}

/// The regulator of a profile: all its lands alike, or some as tested and the others between new and
/// that.
pub(super) fn of_profile(
    profile: &BoreProfile,
    oil_temperature_k: Finite,
    radial_clearance_m: Option<Finite>,
    tested_lands: Option<&[String]>,
    eccentricity: Finite,
) -> Result<(Regulator, OilState), ApiError> {
    sound(profile)?;
    let seals = SealState {
        gap: radial_clearance_m.map_or(Gap::AsNew, |c| Gap::Of(metres(c))),
        eccentricity: one(eccentricity),
    };
    let untested = match (tested_lands, radial_clearance_m) {
        (Some(_), Some(c)) => SealState {
            gap: Gap::Between(metres(c)),
            ..seals
        },
        _ => seals,
    };
    let wear = Wear {
        tested_lands: tested_lands.unwrap_or(&[]),
        tested: seals,
        untested,
    };
    let oil = valve::oil_at(valve::unit_oil(profile)?, *oil_temperature_k)?;
    Ok((valve::regulator(profile, &wear, *oil_temperature_k)?, oil))
}

pub(super) fn edge(told: &EdgeParts, travel: Travel) -> Opening {
    Opening {
        land_diameter: metres(told.land_diameter_m),
        circumference_fraction: one(told.circumference_fraction),
        window: told.window.map(window),
        width_at_rest: metres(told.width_at_rest_m),
        travel,
        radial_clearance: metres(told.radial_clearance_m),
    }
}

pub(super) fn orifice(told: OrificeParts) -> Orifice {
    Orifice {
        diameter: metres(told.diameter_m),
        length: metres(told.length_m),
    }
}

pub(super) fn spring(told: SpringParts) -> Spring {
    Spring {
        load_at_rest: newtons(told.load_at_rest_n),
        rate: SurfaceTension::new::<newton_per_meter>(*told.rate_n_per_m),
    }
}

pub(super) fn relief(told: ReliefParts) -> BallRelief {
    BallRelief {
        ball_diameter: metres(told.ball_diameter_m),
        seat_diameter: metres(told.seat_diameter_m),
        spring: spring(told.spring),
        lift_stop: metres(told.lift_stop_m),
        discharge_coefficient: one(told.discharge_coefficient),
    }
}

pub(super) fn demand(told: &OutletDemand) -> Demand {
    Demand {
        flow: flow(told.flow_m3_s),
        at_pressure: pascals(told.at_pressure_pa),
        outlets: told.outlets,
        stated_in: oil(told.stated_in),
    }
}

fn place(told: RegulatorPlace) -> Node {
    match told {
        RegulatorPlace::Line => Node::Line,
        RegulatorPlace::Feed => Node::Feed,
        RegulatorPlace::Reaction => Node::Reaction,
        RegulatorPlace::SpringChamber => Node::SpringChamber,
        RegulatorPlace::Sump => Node::Sump,
        RegulatorPlace::FixedPa(held) => Node::Fixed(pascals(held)),
    }
}

/// A regulator told part by part.
pub(super) fn of_parts(told: &RegulatorParts) -> Result<Regulator, ApiError> {
    let leaks = told.leaks.iter().map(|leak| {
        Ok::<_, ApiError>(LandLeak {
            annulus: annulus(&leak.gap)?,
            from: place(leak.from),
            to: place(leak.to),
        })
    });
    Ok(Regulator {
        reaction_area: square_metres(told.reaction_area_m2),
        spring_side_area: square_metres(told.spring_side_area_m2),
        spring: spring(told.spring),
        stroke: metres(told.stroke_m),
        supply: edge(&told.supply, Travel::Closes),
        exhaust: told
            .exhaust
            .as_ref()
            .map(|exhaust| edge(exhaust, Travel::Opens)),
        balance_orifice: told.balance_orifice.map(orifice),
        leaks: leaks.collect::<Result<_, _>>()?,
        spring_chamber_drain: match told.drain {
            ChamberDrain::Open => Drain::Open,
            ChamberDrain::Blocked => Drain::Blocked,
            ChamberDrain::Orifice(through) => Drain::Orifice(orifice(through)),
        },
        friction: newtons(told.friction_n),
        demand: demand(&told.demand),
        relief: told.relief.map(relief),
    })
}

/// A gap as the physics takes it, its refusal the physics' own.
pub(super) fn gap(
    mean_diameter_m: f64,
    radial_clearance_m: f64,
    engaged_length_m: f64,
    eccentricity: f64,
) -> Result<Annulus, PhysicsError> {
    Annulus::new(
        Length::new::<meter>(mean_diameter_m),
        Length::new::<meter>(radial_clearance_m),
        Length::new::<meter>(engaged_length_m),
        Ratio::new::<ratio>(eccentricity),
    )
}
