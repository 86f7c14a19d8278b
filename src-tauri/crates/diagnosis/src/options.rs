//! Repair options worked out from the measurements, side by side: what each way needs, what it
//! would do to clearance, reading and pressure, hot and cold, and how it stands to the others.
//!
//! Each way becomes a piece of work with its dimensions, and that goes through the very forecast
//! that a recorded repair goes through, with the parts as they were measured. The ranking gives
//! its reasons and never hides what the measurements can't decide; a person chooses.

mod answer;
mod draft;
mod motion;
mod orifice;
mod predict;
mod rank;
mod shelf;
mod spring;
mod ways;

use model::finding::Severity;
use model::inspection::MarkDepth;
use model::limits::Check;
use model::planning::PlanFigures;
use model::relief_check::ReliefFigures;
use model::shop_part::ShopPart;
use model::unit::BoreProfile;
use model::{Finite, Id};

pub use answer::{
    Effort, Feasibility, MotionAhead, MotionStands, NamedCheck, Needs, Obstacle, OptionWarning,
    OrificeNeeds, OrificeStands, PartUse, RankReason, ReadingAhead, ReadingRefusal, ReadingStands,
    ReliefNeeds, RepairOptions, RepairOutlook, Risk, Standing, Undecided, UndecidedWhat,
    Unmeasured, Way,
};

use crate::error::DiagnosisError;
use crate::evidence::Evidence;
use crate::inspected::{self, MeasuredParts};
use crate::judgement::Judgement;
use crate::pressure::SealEvidence;
use shelf::Shelf;

/// Oil temperature of the cold prediction where none is entered: that of the bench, K.
pub const COLD_OIL_K: f64 = 293.15;

/// Everything that the options of one bore are worked out from.
#[derive(Debug, Clone, Copy)]
pub struct OptionEvidence<'a> {
    /// The bore as new.
    pub as_new: &'a BoreProfile,
    /// The bore as earlier repairs left it.
    pub now: &'a BoreProfile,
    /// What the inspection measured.
    pub measured: &'a MeasuredParts,
    /// The deepest mark in the bore; none: not looked at, or nothing seen.
    pub deepest_mark: Option<MarkDepth>,
    /// The spring's height where the valve regulates, m, as measured.
    pub spring_height_m: Option<Finite>,
    /// The last test with a reading.
    pub test: Option<LastTest<'a>>,
    /// The relief that would be added; none: nobody entered it.
    pub relief: Option<&'a ReliefFigures>,
    /// The shop's list.
    pub parts: &'a [(Id, ShopPart)],
    /// What a person entered for planning.
    pub figures: &'a PlanFigures,
}

/// The last test of the bore.
#[derive(Debug, Clone, Copy)]
pub struct LastTest<'a> {
    /// Its readings, stand and set-up.
    pub evidence: &'a Evidence<'a>,
    /// What it says.
    pub judgement: &'a Judgement,
    /// What it says of the seals; none: the leak isn't known.
    pub seals: Option<&'a SealEvidence>,
}

/// Works out every way.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program; what is missing or odd is part of the answer.
pub fn options(evidence: &OptionEvidence<'_>) -> Result<RepairOptions, DiagnosisError> {
    let findings = evidence.figures.findings();
    let mut figures = evidence.figures.clone();
    for found in &findings {
        if found.severity == Severity::Wrong {
            forget(&mut figures, &found.field);
        }
    }
    let case = Case::new(evidence, &figures);
    let mut outlooks = Vec::new();
    for draft in ways::drafts(&case)? {
        outlooks.push(predict::outlook(&case, draft)?);
    }
    let (options, undecided) = rank::ranked(&case, outlooks);
    Ok(RepairOptions {
        options,
        undecided,
        findings,
    })
}

/// A figure that can't be true counts as not entered.
fn forget(figures: &mut PlanFigures, field: &str) {
    let entered = match field {
        "wall_m" => &mut figures.wall_m,
        "least_wall_m" => &mut figures.least_wall_m,
        "layer_m" => &mut figures.layer_m,
        "polish_off_m" => &mut figures.polish_off_m,
        "wanted_clearance_m" => &mut figures.wanted_clearance_m,
        "most_out_of_round_m" => &mut figures.most_out_of_round_m,
        "most_shim_m" => &mut figures.most_shim_m,
        "cold_oil_temperature_k" => &mut figures.cold_oil_temperature_k,
        _ => return,
    };
    *entered = None;
}

/// A bore made ready: its parts as measured, its seals as the best evidence has them.
struct Case<'a> {
    evidence: &'a OptionEvidence<'a>,
    figures: &'a PlanFigures,
    /// The bore now, with spring, orifice and friction as measured.
    measured: BoreProfile,
    seals: Option<SealEvidence>,
    worn: Option<WornBore>,
    shelf: Shelf<'a>,
}

/// The worn bore's diameters at 20 °C, m.
#[derive(Debug, Clone, Copy)]
struct WornBore {
    smallest: f64,
    mean: f64,
    largest: f64,
    /// True when they were measured; false: the test's clearance on the profile's valve.
    measured: bool,
}

impl<'a> Case<'a> {
    fn new(evidence: &'a OptionEvidence<'a>, figures: &'a PlanFigures) -> Self {
        let measured = inspected::as_measured(evidence.now, evidence.measured).profile;
        let by_diameters = inspected::seals_by_diameters(&measured, evidence.measured);
        // As on the bore's card: the test before the diameters, for it sees the whole seal.
        let seals = evidence
            .test
            .and_then(|test| test.seals.cloned())
            .or(by_diameters);
        let worn = worn_bore(evidence, seals.as_ref());
        Self {
            shelf: Shelf::new(evidence.parts, evidence.now.id),
            evidence,
            figures,
            measured,
            seals,
            worn,
        }
    }

    fn hot_k(&self) -> f64 {
        *self.evidence.now.unit.hot_oil_temperature_k
    }

    fn cold_k(&self) -> f64 {
        self.figures
            .cold_oil_temperature_k
            .map_or(COLD_OIL_K, Finite::get)
    }

    /// Clearance on the diameter that another valve should have, m.
    fn wanted(&self) -> Option<f64> {
        let as_new = self.evidence.as_new;
        self.figures
            .wanted_clearance_m
            .map(Finite::get)
            .or_else(|| {
                let land = as_new.reaction_land()?.diameter_m?;
                Some(*as_new.bore.diameter_m - *land)
            })
    }

    /// True where the valve was found not to move freely, and how badly.
    fn movement(&self) -> Option<model::inspection::Movement> {
        self.evidence.measured.movement
    }
}

fn worn_bore(evidence: &OptionEvidence<'_>, seals: Option<&SealEvidence>) -> Option<WornBore> {
    if let Some(found) = &evidence.measured.clearance {
        return Some(WornBore {
            smallest: *found.bore_m.low,
            mean: *found.bore_m.likely,
            largest: *found.bore_m.high,
            measured: true,
        });
    }
    let valve = *evidence.now.reaction_land()?.diameter_m?;
    let radial = |length: uom::si::f64::Length| 2.0 * length.get::<uom::si::length::meter>();
    let seals = seals?;
    Some(WornBore {
        smallest: valve + radial(seals.off_centre[0]),
        mean: valve + radial(seals.centred[1]),
        largest: valve + radial(seals.centred[2]),
        measured: false,
    })
}
