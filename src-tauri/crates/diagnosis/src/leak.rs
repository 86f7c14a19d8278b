//! From a reading to a leak that no longer depends on the stand or the altitude, or a refusal.

use std::collections::BTreeSet;

use model::Finite;
use model::bench::{Blank as BlankReading, Surface};
use model::geometry;
use model::unit::{OrificePath, ValvePosition};
use physics::Assumption;
use physics::air::Air;
use physics::gap::Land as GapLand;
use physics::hole::Hole;
use physics::quantity::sonic_conductance;
use physics::vacuum_stand::{
    BalanceOrifice, Blank, BlankLaw, BoreCondition, BoreLeak, BoreTest, Calibration,
    CalibrationOrifice, CalibrationTest, DeadHead, FarSide, Refusal, TestLand, VacuumStand,
    ValvePlacement, bore_leak, calibrate, reading_on_reference_stand,
};
use uom::si::f64::{Length, Pressure, Ratio, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume::cubic_meter;

use crate::error::DiagnosisError;
use crate::evidence::Evidence;
use crate::judgement::{Leak, LeakRefusal, Span, StandFit, StandResidual};
use crate::pressure::SealEvidence;
use crate::valve::{BENCH_TEMPERATURE_K, clearance_between, metres, new_clearance};

/// Relative standard uncertainty of a calibrated orifice's conductance (from memory: certificates
/// of small orifices state 1 to 3 %).
const ORIFICE_UNCERTAINTY: f64 = 0.02;

/// The widest that an expanded uncertainty may reach: two standard ones.
const COVERAGE: f64 = 2.0;

/// The leak as the interface shows it, as the pressure prediction uses it, and what it rests on.
pub(crate) struct FoundLeak {
    pub leak: Leak,
    pub seals: SealEvidence,
    pub assumptions: Vec<Assumption>,
}

/// How many different orifices a stand needs: one can't tell the pump's pull from the hose's
/// resistance, nor show that the stand is sound.
pub(crate) const LEAST_ORIFICES: usize = 2;

/// A stand fitted to its orifices.
pub(crate) struct FittedStand {
    pub calibration: Calibration,
    pub told: StandFit,
    /// How many different orifices it was fitted to; one that was read twice is still one.
    pub orifices: usize,
}

/// The stand as its orifices show it; none without a dead-head or an orifice that is known.
pub(crate) fn fit_stand(
    evidence: &Evidence<'_>,
    barometer_pa: f64,
    reading_uncertainty_pa: f64,
) -> Result<Option<FittedStand>, DiagnosisError> {
    let (Some(stand), Some(check), Some(setup)) =
        (evidence.stand, evidence.stand_check, evidence.setup)
    else {
        return Ok(None);
    };
    let mut labels = Vec::new();
    let mut orifices = Vec::new();
    for reading in &check.orifices {
        if let Some(known) = stand
            .orifices
            .iter()
            .find(|orifice| orifice.label == reading.label)
        {
            labels.push(known.label.clone());
            orifices.push(CalibrationOrifice {
                hole: Hole::new(
                    sonic_conductance(*known.sonic_conductance_m3_s_pa),
                    Ratio::new::<ratio>(*known.critical_ratio),
                )?,
                reading: pa(*reading.vacuum_pa),
            });
        }
    }
    if orifices.is_empty() {
        return Ok(None);
    }
    let barometer = pa(barometer_pa);
    let dead_head =
        dead_head(evidence, barometer_pa)?.ok_or(physics::PhysicsError::NoSolution {
            what: "dead_head_pressure_pa",
        })?;
    let calibration = calibrate(&CalibrationTest {
        dead_head,
        barometer,
        air: air(*setup.air_temperature_k)?,
        orifices: &orifices,
        reading_uncertainty: pa(reading_uncertainty_pa),
        conductance_uncertainty: Ratio::new::<ratio>(ORIFICE_UNCERTAINTY),
    })?;
    let different = labels.iter().collect::<BTreeSet<_>>().len();
    let mut residuals = Vec::new();
    for (label, residual) in labels.into_iter().zip(&calibration.residuals) {
        // The fitted stand's reading less the one taken.
        let residual_pa = Finite::try_from(-residual.get::<pascal>())?;
        residuals.push(StandResidual { label, residual_pa });
    }
    let told = StandFit {
        pull_m3_s: Finite::try_from(calibration.stand.pull.value)?,
        dead_head_pressure_pa: Finite::try_from(dead_head.pressure.value)?,
        hose_resistance_pa_s_m3: Finite::try_from(calibration.stand.hose_resistance.value)?,
        residuals,
    };
    Ok(Some(FittedStand {
        calibration,
        told,
        orifices: different,
    }))
}

/// The dead head of the day; none without a stand check.
pub(crate) fn dead_head(
    evidence: &Evidence<'_>,
    barometer_pa: f64,
) -> Result<Option<DeadHead>, DiagnosisError> {
    let Some(check) = evidence.stand_check else {
        return Ok(None);
    };
    let follows = evidence
        .stand
        .is_none_or(|stand| stand.dead_head_follows_barometer);
    let reading = pa(*check.dead_head_vacuum_pa);
    Ok(Some(DeadHead::from_reading(
        reading,
        pa(barometer_pa),
        follows,
    )?))
}

pub(crate) fn air(temperature_k: f64) -> Result<Air, DiagnosisError> {
    Ok(Air::at(ThermodynamicTemperature::new::<kelvin>(
        temperature_k,
    ))?)
}

/// The leak behind a mean reading with its expanded uncertainty, or why it can't be told.
///
/// # Errors
/// [`DiagnosisError`] for faults that no refusal covers.
pub(crate) fn find(
    evidence: &Evidence<'_>,
    barometer_pa: f64,
    mean_vacuum_pa: f64,
    expanded_pa: f64,
    calibration: Option<&Calibration>,
) -> Result<Result<FoundLeak, LeakRefusal>, DiagnosisError> {
    let Some(setup) = evidence.setup else {
        return Ok(Err(LeakRefusal::NoSetup));
    };
    let Some(lands) = tested_lands(evidence)? else {
        return Ok(Err(LeakRefusal::ProfileIncomplete));
    };
    let orifice = match (setup.orifice, &evidence.profile.balance_orifice) {
        (OrificePath::Blocked, _) => BalanceOrifice::Blocked,
        (_, None) => return Ok(Err(LeakRefusal::ProfileIncomplete)),
        (OrificePath::InSeries, Some(orifice)) => {
            BalanceOrifice::InSeries(Hole::drilled(metres(*orifice.diameter_m), None)?)
        }
        (OrificePath::InParallel, Some(orifice)) => {
            BalanceOrifice::InParallel(Hole::drilled(metres(*orifice.diameter_m), None)?)
        }
    };
    let air = air(*setup.air_temperature_k)?;
    let barometer = pa(barometer_pa);
    let blank = evidence
        .blank
        .and_then(|blank: &BlankReading| blank.vacuum_pa)
        .map(|vacuum| Blank {
            reading: pa(*vacuum),
            barometer,
            law: BlankLaw::Hole,
        });
    let leak_at = |vacuum_pa: f64, stand: Option<&VacuumStand>| {
        bore_leak(&BoreTest {
            reading: pa(vacuum_pa),
            barometer,
            air,
            stand,
            condition: match setup.surface {
                Surface::Dry => BoreCondition::Dry,
                Surface::Oiled => BoreCondition::Oiled,
            },
            placement: placement(setup.valve_position),
            orifice,
            blank,
            lands: &lands,
            entry_exit_loss: None,
        })
    };
    let stand = calibration.map(|calibration| calibration.stand);
    let found = match leak_at(mean_vacuum_pa, stand.as_ref()) {
        Ok(found) => found,
        Err(refusal) => {
            let dead_head = evidence.stand_check.map(|check| *check.dead_head_vacuum_pa);
            let near = dead_head.is_some_and(|dead| mean_vacuum_pa > dead - expanded_pa);
            return Ok(Err(refused(&refusal, near)));
        }
    };
    // A set-up may carry the mean and not the worse end of its uncertainty: then the leak has no
    // upper bound that could be told, and a number alone would claim one.
    let unbounded = |refusal: Refusal| match refused(&refusal, false) {
        LeakRefusal::ReadingContradicts => LeakRefusal::OutsideModel,
        reason => reason,
    };
    let pull = calibration.map_or(0.0, |fit| COVERAGE * fit.pull_uncertainty.get::<ratio>());
    let pulling = |factor: f64| {
        stand.map(|stand| VacuumStand {
            pull: stand.pull * factor,
            ..stand
        })
    };
    let more = match leak_at(mean_vacuum_pa - expanded_pa, stand.as_ref()) {
        Ok(more) => more,
        Err(refusal) => return Ok(Err(unbounded(refusal))),
    };
    let stronger = match leak_at(mean_vacuum_pa, pulling(1.0 + pull).as_ref()) {
        Ok(stronger) => stronger,
        Err(refusal) => return Ok(Err(unbounded(refusal))),
    };
    let spread = Spread {
        // A deeper reading is a smaller leak; so deep that the stand can't tell it from none is
        // no lower bound at all.
        less: leak_at(mean_vacuum_pa + expanded_pa, stand.as_ref()).ok(),
        weaker: leak_at(mean_vacuum_pa, pulling(1.0 / (1.0 + pull)).as_ref()).ok(),
        more,
        stronger,
    };
    assemble(evidence, &found, &spread).map(Ok)
}

fn placement(position: ValvePosition) -> ValvePlacement {
    match position {
        ValvePosition::AtRest => ValvePlacement::AtRest,
        ValvePosition::HeldRegulating => ValvePlacement::HeldRegulating,
        ValvePosition::SpringOut => ValvePlacement::SpringOut,
        ValvePosition::ValveAbsent => ValvePlacement::Absent,
    }
}

/// The sealing stretches that the test isolates, as they are engaged in it; none when the profile
/// lacks them.
pub(crate) fn tested_lands(
    evidence: &Evidence<'_>,
) -> Result<Option<Vec<TestLand>>, DiagnosisError> {
    let profile = evidence.profile;
    let held = evidence
        .setup
        .is_some_and(|s| s.valve_position == ValvePosition::HeldRegulating);
    let stroke = match (held, geometry::regulating_stroke(profile)) {
        (true, Some(stroke)) => stroke,
        (true, None) => return Ok(None),
        (false, _) => 0.0,
    };
    let chamber = evidence.test_point.evacuates;
    let mut lands = Vec::new();
    for name in &evidence.test_point.isolates {
        let Some(land) = profile.land(name) else {
            return Ok(None);
        };
        let facing = |seal: &&model::unit::Seal| seal.left == chamber || seal.right == chamber;
        for seal in land.seals.iter().filter(facing) {
            let length = geometry::engaged_length(profile, land, seal, stroke);
            let Some(diameter) = land.diameter_m else {
                return Ok(None);
            };
            let mean = metres((*diameter + *profile.bore.diameter_m) / 2.0);
            lands.push(TestLand {
                land: GapLand::new(mean, metres(length))?,
                far_side: FarSide::Ambient,
            });
        }
    }
    Ok((!lands.is_empty()).then_some(lands))
}

/// The leak at both ends of the reading's uncertainty and of the pull's. A lower end that is none
/// can't be told from no leak at all.
struct Spread {
    less: Option<BoreLeak>,
    weaker: Option<BoreLeak>,
    more: BoreLeak,
    stronger: BoreLeak,
}

impl Spread {
    /// Low, likely and high of something that grows with the leak, the reading's and the pull's
    /// shares added in quadrature on a logarithmic scale.
    fn around(&self, likely: f64, of: impl Fn(&BoreLeak) -> f64, least: f64) -> [f64; 3] {
        let part = |leak: &BoreLeak| (of(leak) / likely).ln();
        let width = |one: &BoreLeak, other: &BoreLeak| part(one).hypot(part(other));
        let low = match (&self.less, &self.weaker) {
            (Some(less), Some(weaker)) => (likely * (-width(less, weaker)).exp()).max(least),
            _ => least,
        };
        let high = likely * width(&self.more, &self.stronger).exp();
        [low, likely, high]
    }
}

fn assemble(
    evidence: &Evidence<'_>,
    found: &BoreLeak,
    spread: &Spread,
) -> Result<FoundLeak, DiagnosisError> {
    let least = physics::range::RADIAL_CLEARANCE.low;
    let clearance = |of: fn(&BoreLeak) -> Length| {
        let of = move |leak: &BoreLeak| of(leak).get::<meter>();
        spread.around(of(found), of, least)
    };
    let centred = clearance(|leak| leak.radial_clearance.high);
    let off_centre = clearance(|leak| leak.radial_clearance.low);
    let factor = |leak: &BoreLeak| leak.gap_factor.high.get::<cubic_meter>();
    let gap_factor = spread.around(factor(found), factor, 0.0);
    let profile = evidence.profile;
    let new = evidence
        .test_point
        .isolates
        .first()
        .and_then(|name| profile.land(name));
    let new = new.and_then(|land| new_clearance(profile, land));
    let new = new.map_or(0.0, |clearance| clearance.get::<meter>());
    let whole = found.throughput.value + found.blank_throughput.value;
    let leak = Leak {
        gap_factor_m3: span(gap_factor)?,
        equivalent_hole_m: Finite::try_from(found.equivalent_hole.get::<meter>())?,
        clearance_off_centre_m: span(off_centre.map(|c| 2.0 * c))?,
        clearance_centred_m: span(centred.map(|c| 2.0 * c))?,
        clearance_new_m: Finite::try_from(2.0 * new)?,
        throughput_w: Finite::try_from(found.throughput.value)?,
        chamber_pressure_pa: Finite::try_from(found.chamber_pressure.value)?,
        orifice_drop_share: Finite::try_from(found.orifice_drop_fraction.get::<ratio>())?,
        blank_share: Finite::try_from(found.blank_throughput.value / whole)?,
        reference_vacuum_pa: Finite::try_from(reading_on_reference_stand(&found.leak)?.value)?,
    };
    let seals = SealEvidence {
        tested_lands: evidence.test_point.isolates.clone(),
        centred: at_bench_temperature(evidence, centred)?,
        off_centre: at_bench_temperature(evidence, off_centre)?,
    };
    Ok(FoundLeak {
        leak,
        seals,
        assumptions: found.assumptions.clone(),
    })
}

/// Radial clearances found in the air of the test, as they are at the temperature for which
/// profiles state dimensions. The parts are taken to be as warm as the air.
fn at_bench_temperature(
    evidence: &Evidence<'_>,
    found: [f64; 3],
) -> Result<[Length; 3], DiagnosisError> {
    let tested = evidence
        .setup
        .map_or(BENCH_TEMPERATURE_K, |setup| *setup.air_temperature_k);
    let bore = &evidence.profile.bore;
    let [low, likely, high] = found.map(|c| {
        // A lower end that is hardly a gap at all may close on the way; it stays that least gap.
        let least = physics::range::RADIAL_CLEARANCE.low;
        clearance_between(bore, metres(c), tested, BENCH_TEMPERATURE_K)
            .map(|c| c.max(metres(least)))
    });
    Ok([low?, likely?, high?])
}

fn span([low, likely, high]: [f64; 3]) -> Result<Span, DiagnosisError> {
    Ok(Span {
        low: Finite::try_from(low)?,
        likely: Finite::try_from(likely)?,
        high: Finite::try_from(high)?,
    })
}

/// The physics' refusal in the interface's words. Readings that contradict the stand or the blank
/// beyond the gauge's scatter never come here; so one that the stand can't tell from none is a
/// tight bore. `near_dead_head` tells a bore that is simply tight from one that fits no gap.
fn refused(refusal: &Refusal, near_dead_head: bool) -> LeakRefusal {
    match refusal {
        Refusal::NoCalibratedStand => LeakRefusal::NoCalibratedStand,
        Refusal::Oiled => LeakRefusal::Oiled,
        Refusal::ValveAbsent => LeakRefusal::ValveAbsent,
        Refusal::OrificeTakesDrop { .. } => LeakRefusal::OrificeTakesDrop,
        Refusal::ReadingBetterThanDeadHead { .. } | Refusal::BlankExceedsReading => {
            LeakRefusal::TooTight
        }
        Refusal::NoClearanceFits if near_dead_head => LeakRefusal::TooTight,
        Refusal::NoClearanceFits => LeakRefusal::OutsideModel,
        Refusal::ReadingWorseThanOpenHose { .. }
        | Refusal::BlankBetterThanDeadHead
        | Refusal::ParallelOrificeExceedsReading
        | Refusal::Input(_) => LeakRefusal::ReadingContradicts,
    }
}

pub(crate) fn pa(value: f64) -> Pressure {
    Pressure::new::<pascal>(value)
}
