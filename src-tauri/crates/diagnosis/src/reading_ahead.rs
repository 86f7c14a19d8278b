//! The law of the leak taken forward: what seals would read on the stand of a test on record.

use model::bench::Surface;
use model::unit::{OrificePath, ValvePosition};
use physics::gap::Land as GapLand;
use physics::hole::Hole;
use physics::vacuum_stand::{
    BalanceOrifice, Blank, BlankLaw, FarSide, Leak as AirLeak, TestLand, VacuumStand,
};
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

use crate::error::DiagnosisError;
use crate::evidence::Evidence;
use crate::leak::{LEAST_ORIFICES, air, fit_stand, pa, tested_lands};
use crate::pressure::{Added, SealEvidence, stretches};
use crate::reading::GaugeTrust;
use crate::valve::{BENCH_TEMPERATURE_K, clearance_between, metres};

/// Why a reading can't be predicted.
pub(crate) enum NoReading {
    /// The stand isn't calibrated on enough orifices, or its readings contradict each other.
    NoCalibratedStand,
    /// The set-up or the day's air isn't known.
    NoSetup,
    /// Valve absent, lands oiled or the like: no reading of a gap.
    OtherSetup,
    /// The profile lacks the lands that the test reaches.
    ProfileIncomplete,
    /// A figure lies outside the laws.
    OutsideModel,
}

/// The reading that seals would give in the very test of `evidence`, same stand, air and set-up, on
/// the bore of `after`; Pa below ambient, low, likely and high.
pub(crate) fn predicted_reading(
    evidence: &Evidence<'_>,
    after: &model::unit::BoreProfile,
    seals: &SealEvidence,
    added: &Added,
) -> Result<Result<[f64; 3], NoReading>, DiagnosisError> {
    let Some((setup, barometer_pa)) = evidence.setup.zip(evidence.barometer_pa()) else {
        return Ok(Err(NoReading::NoSetup));
    };
    if setup.valve_position == ValvePosition::ValveAbsent || setup.surface == Surface::Oiled {
        return Ok(Err(NoReading::OtherSetup));
    }
    // As in a judgement: the chance part of a reading alone.
    let chance = GaugeTrust::of(evidence.usable_gauge())
        .resolution_uncertainty_pa
        .max(1.0);
    let fitted = match fit_stand(evidence, barometer_pa, chance) {
        Ok(Some(fitted)) if fitted.orifices >= LEAST_ORIFICES => fitted,
        Ok(_) | Err(DiagnosisError::Physics(_)) => return Ok(Err(NoReading::NoCalibratedStand)),
        Err(other) => return Err(other),
    };
    let there = Evidence {
        profile: after,
        ..*evidence
    };
    let Some(lands) = tested_lands(&there)? else {
        return Ok(Err(NoReading::ProfileIncomplete));
    };
    let forward = Forward {
        there: &there,
        stand: fitted.calibration.stand,
        barometer: pa(barometer_pa),
        lands,
        added,
        air_k: *setup.air_temperature_k,
    };
    match forward.span(seals, setup.orifice) {
        Ok(span) => Ok(Ok(span)),
        Err(DiagnosisError::Physics(_)) => Ok(Err(NoReading::OutsideModel)),
        Err(DiagnosisError::ProfileIncomplete { .. }) => Ok(Err(NoReading::ProfileIncomplete)),
        Err(other) => Err(other),
    }
}

/// The law of the leak taken forward.
struct Forward<'a> {
    there: &'a Evidence<'a>,
    stand: VacuumStand,
    barometer: Pressure,
    lands: Vec<TestLand>,
    added: &'a Added,
    air_k: f64,
}

impl Forward<'_> {
    fn span(&self, seals: &SealEvidence, path: OrificePath) -> Result<[f64; 3], DiagnosisError> {
        let profile = self.there.profile;
        let missing = DiagnosisError::ProfileIncomplete {
            part: "balance_orifice",
        };
        let orifice = match (path, &profile.balance_orifice) {
            (OrificePath::Blocked, _) => BalanceOrifice::Blocked,
            (_, None) => return Err(missing),
            (OrificePath::InSeries, Some(orifice)) => {
                BalanceOrifice::InSeries(Hole::drilled(metres(*orifice.diameter_m), None)?)
            }
            (OrificePath::InParallel, Some(orifice)) => {
                BalanceOrifice::InParallel(Hole::drilled(metres(*orifice.diameter_m), None)?)
            }
        };
        let likely = self.reading(&orifice, seals.centred[1], 0.0, 1)?;
        let [mut low, mut high] = [likely; 2];
        for end in 0..3 {
            for (radial, eccentricity) in [(seals.centred[end], 0.0), (seals.off_centre[end], 1.0)]
            {
                let reading = self.reading(&orifice, radial, eccentricity, end)?;
                low = low.min(reading);
                high = high.max(reading);
            }
        }
        Ok([low, likely, high])
    }

    fn reading(
        &self,
        orifice: &BalanceOrifice,
        radial: Length,
        eccentricity: f64,
        end: usize,
    ) -> Result<f64, DiagnosisError> {
        let air = air(self.air_k)?;
        let bore = &self.there.profile.bore;
        let there = clearance_between(bore, radial, BENCH_TEMPERATURE_K, self.air_k)?;
        let around = |lands, radial_clearance, eccentricity| AirLeak::Lands {
            lands,
            radial_clearance,
            eccentricity: Ratio::new::<ratio>(eccentricity),
            entry_exit_loss: None,
        };
        let least = metres(physics::range::RADIAL_CLEARANCE.low);
        let mut parts = vec![around(self.lands.clone(), there.max(least), eccentricity)];
        if let Some(seat) = &self.added.seat
            && let Some(gap) = seat.gap_at(end, self.air_k)?
        {
            let chamber = self.there.test_point.evacuates;
            let mut lands = Vec::new();
            for (left, right, length) in stretches(self.there.profile) {
                if left == chamber || right == chamber {
                    lands.push(TestLand {
                        land: GapLand::new(seat.outer_diameter + gap, length)?,
                        far_side: FarSide::Ambient,
                    });
                }
            }
            parts.push(around(lands, gap, 0.0));
        }
        if let Some(vacuum) = self.there.blank.and_then(|blank| blank.vacuum_pa) {
            let blank = Blank {
                reading: pa(*vacuum),
                barometer: self.barometer,
                law: BlankLaw::Hole,
            };
            parts.push(blank.leak(&self.stand, &air)?);
        }
        let whole = AirLeak::Sum(parts);
        let found = self.stand.reading(&whole, orifice, &air, self.barometer)?;
        Ok(found.reading.get::<pascal>())
    }
}
