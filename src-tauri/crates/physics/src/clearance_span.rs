//! From a measured leak back to the clearance: air or oil, at one eccentricity, and the span over
//! all that isn't known of a gap.
//!
//! Leak grows with the clearance in both laws ([`crate::gap_air`], [`crate::gap_oil`]), so each
//! reading has one clearance at a given eccentricity, engaged length and entry loss. The span runs
//! from touching (e = 1), shortest, least loss (the smallest clearance) to centred (e = 0), longest,
//! most loss (the largest).

use uom::si::f64::{Length, Pressure, Ratio, VolumeRate};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::air::Air;
use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::gap::Land;
use crate::gap_air::{self, ENTRY_EXIT_LOSS_HIGH, ENTRY_EXIT_LOSS_LOW, Seal};
use crate::gap_oil;
use crate::loss::SeriesLoss;
use crate::quantity::{Interval, Throughput};
use crate::range;
use crate::root;

/// The clearances that one reading allows.
#[derive(Debug, Clone, PartialEq)]
pub struct ClearanceSpan {
    /// With the valve centred, nominal length and loss.
    pub centred: Length,
    /// With the valve touching all along, nominal length and loss.
    pub touching: Length,
    /// Over eccentricity, engaged length and entry loss together.
    pub span: Interval<Length>,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// The radial clearance, shared by all `lands`, at which they pass `flow` of oil under `drop`
/// (above zero, up to 10 MPa), at a relative eccentricity: the inverse of [`gap_oil::leak`], sought
/// between 0.1 µm and 1 mm.
///
/// # Errors
/// [`PhysicsError::TooFew`] without lands; [`PhysicsError::OutOfRange`];
/// [`PhysicsError::NoSolution`] for `radial_clearance_m` when no clearance in range passes that.
pub fn oil_clearance(
    flow: VolumeRate,
    lands: &[Land],
    oil: &OilState,
    drop: Pressure,
    eccentricity: Ratio,
) -> Result<Length, PhysicsError> {
    let e = range::ECCENTRICITY.check(eccentricity.get::<ratio>())?;
    let case = OilCase::new(flow, lands, oil, drop)?;
    case.clearance(e, 1.0, gap_oil::OIL_ENTRY_EXIT_LOSS)
}

/// The span of clearances for a flow of oil. `length_tolerance` is how far each engaged length may
/// be off, as a part of it, 0 to 0.9.
///
/// # Errors
/// As [`oil_clearance`].
pub fn oil_span(
    flow: VolumeRate,
    lands: &[Land],
    oil: &OilState,
    drop: Pressure,
    length_tolerance: Ratio,
) -> Result<ClearanceSpan, PhysicsError> {
    let off = tolerance(length_tolerance)?;
    let case = OilCase::new(flow, lands, oil, drop)?;
    let nominal = gap_oil::OIL_ENTRY_EXIT_LOSS;
    let mut assumptions = vec![
        Assumption::LaminarFilm,
        Assumption::EntryExitLoss,
        Assumption::EccentricityUnknown,
        Assumption::SharedClearance,
    ];
    if oil.extrapolated {
        assumptions.push(Assumption::ViscosityExtrapolated);
    }
    Ok(ClearanceSpan {
        centred: case.clearance(0.0, 1.0, nominal)?,
        touching: case.clearance(1.0, 1.0, nominal)?,
        span: Interval {
            low: case.clearance(1.0, 1.0 - off, ENTRY_EXIT_LOSS_LOW)?,
            high: case.clearance(0.0, 1.0 + off, ENTRY_EXIT_LOSS_HIGH)?,
        },
        assumptions,
    })
}

/// The span of clearances for a throughput of air: [`gap_air::clearance`] at its extremes.
///
/// # Errors
/// As [`gap_air::clearance`]; [`PhysicsError::OutOfRange`] for a land that the tolerance takes out
/// of 0.1 to 100 mm.
pub fn air_span(
    throughput: Throughput,
    seals: &[Seal],
    air: &Air,
    chamber: Pressure,
    length_tolerance: Ratio,
) -> Result<ClearanceSpan, PhysicsError> {
    let off = tolerance(length_tolerance)?;
    let at = |e: f64, scale: f64, loss: Option<f64>| {
        let mut stretched = Vec::with_capacity(seals.len());
        for seal in seals {
            let land = Land::new(
                Length::new::<meter>(seal.land.diameter),
                Length::new::<meter>(seal.land.length * scale),
            )?;
            stretched.push(Seal { land, ..*seal });
        }
        let (e, loss) = (Ratio::new::<ratio>(e), loss.map(Ratio::new::<ratio>));
        gap_air::clearance(throughput, &stretched, air, chamber, e, loss)
    };
    Ok(ClearanceSpan {
        centred: at(0.0, 1.0, None)?,
        touching: at(1.0, 1.0, None)?,
        span: Interval {
            low: at(1.0, 1.0 - off, Some(ENTRY_EXIT_LOSS_LOW))?,
            high: at(0.0, 1.0 + off, Some(ENTRY_EXIT_LOSS_HIGH))?,
        },
        assumptions: vec![
            Assumption::DryIdealAir,
            Assumption::Isothermal,
            Assumption::LaminarFilm,
            Assumption::EntryExitLoss,
            Assumption::EccentricityUnknown,
            Assumption::SharedClearance,
        ],
    })
}

fn tolerance(length_tolerance: Ratio) -> Result<f64, PhysicsError> {
    let field = "length_tolerance_ratio";
    range::within(field, length_tolerance.get::<ratio>(), 0.0, 0.9, "1")
}

struct OilCase<'a> {
    flow: f64,
    lands: &'a [Land],
    mu: f64,
    rho: f64,
    drop: f64,
}

impl<'a> OilCase<'a> {
    fn new(
        flow: VolumeRate,
        lands: &'a [Land],
        oil: &OilState,
        drop: Pressure,
    ) -> Result<Self, PhysicsError> {
        if lands.is_empty() {
            return Err(PhysicsError::TooFew {
                field: "seals",
                count: 0,
                least: 1,
            });
        }
        let (mu, rho) = oil.si()?;
        let q = flow.get::<cubic_meter_per_second>();
        let field = range::PRESSURE_DROP.field;
        Ok(Self {
            flow: range::within(range::OIL_FLOW.field, q, 0.0, range::OIL_FLOW.high, "m3/s")?,
            lands,
            mu,
            rho,
            drop: range::within(field, drop.get::<pascal>(), 1.0, 1e7, "Pa")?,
        })
    }

    fn clearance(&self, e: f64, scale: f64, loss: f64) -> Result<Length, PhysicsError> {
        let excess = |log_c: f64| {
            let total: f64 = self
                .lands
                .iter()
                .map(|land| {
                    let long = Land {
                        length: land.length * scale,
                        ..*land
                    };
                    let nominal = gap_oil::law(&long.gap_si(log_c.exp(), e), self.mu, self.rho);
                    let law = SeriesLoss {
                        quadratic: nominal.quadratic * loss / gap_oil::OIL_ENTRY_EXIT_LOSS,
                        ..nominal
                    };
                    law.flow(self.drop)
                })
                .sum();
            total - self.flow
        };
        let rows = range::RADIAL_CLEARANCE;
        let log_c = root::between(rows.field, rows.low.ln(), rows.high.ln(), excess)?;
        Ok(Length::new::<meter>(log_c.exp()))
    }
}
