//! What the checks of a bore measured, made ready for the physics: the clearance by diameters, the
//! spring's load at the regulating position, the orifice by pins, the friction.
//!
//! Instruments: limits of error ±a count as a rectangle, a/√3, shared by all readings of one
//! instrument; its step s as s/√12 for each reading (JCGM 100:2008, 4.3.7 and F.2.2.1). Spans are
//! 95 %, twice the standard uncertainty (JCGM 100, 6.3.3, level of confidence about 95 %).

pub mod coil;

use std::collections::BTreeMap;

use chrono::NaiveDate;
use model::bench::Instrument;
use model::finding::{Finding, FindingCode, Severity};
use model::inspection::{
    CheckName, Diameters, Found, FreeMovement, Movement, Occasion, OrificeBore, Outcome,
    SpringCheck,
};
use model::limits::{self, Check};
use model::unit::BoreProfile;
use model::{Finite, Id};
use physics::fit::stations::{self, Diameter, DiameterGauge, Shape};
use physics::fit::temperature::at_20c;
use physics::spring::face_area;
use physics::spring::measured::{LoadReading, fit};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::angle::radian;
use uom::si::area::square_meter;
use uom::si::f64::{Angle, Force, Length, TemperatureCoefficient, ThermodynamicTemperature};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::surface_tension::newton_per_meter;
use uom::si::temperature_coefficient::per_kelvin;
use uom::si::thermodynamic_temperature::kelvin;

use crate::error::DiagnosisError;
use crate::judgement::Span;
use crate::pressure::{MeasuredBore, SealEvidence};
use crate::valve::{expansion_per_k, metres};

/// Limits of error of a micrometer or bore gauge that nobody entered: a ten-thousandth of an inch
/// (from memory; a finding says that it was taken).
pub(crate) const USUAL_LENGTH_ERROR_M: f64 = 2.54e-6;
/// Limits of error of a spring tester that nobody entered, as a part of the load (from memory; a
/// finding says that it was taken).
const USUAL_LOAD_ERROR: f64 = 0.02;

/// How far the rate of a spring may lie from its drawing's, as a part of it (from memory), where a
/// load is carried to another height by it.
const USUAL_RATE_ERROR: f64 = 0.1;

/// One check on record, as the card takes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inspected<'a> {
    /// When in the job.
    pub occasion: Occasion,
    /// What was found.
    pub found: &'a Found,
}

/// What the checks of a bore measured.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct MeasuredParts {
    /// Clearance by diameters, on the land where it is widest; none: not measured on both.
    pub clearance: Option<MeasuredClearance>,
    /// Clearance on every land that was measured, by name.
    pub lands: Vec<MeasuredClearance>,
    /// The spring; none: not measured, or not where it regulates.
    pub spring: Option<MeasuredSpring>,
    /// The balance orifice; none: not measured.
    pub orifice: Option<MeasuredOrifice>,
    /// How the valve moves; none: not tried.
    pub movement: Option<Movement>,
    /// Friction as measured, N.
    pub friction_n: Option<Finite>,
}

/// Clearance by diameters.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MeasuredClearance {
    /// The land.
    pub land: String,
    /// On the diameter at 20 °C, m: mean of bore less mean of land, with its uncertainty.
    pub diametral_m: Span,
    /// From the smallest bore and the largest land reading, m.
    pub least_m: Finite,
    /// From the largest bore and the smallest land reading, m.
    pub most_m: Finite,
    /// Bore at 20 °C, m: its smallest reading, the mean, its largest reading.
    pub bore_m: Span,
    /// Land at 20 °C, m: its smallest reading, the mean, its largest reading.
    pub land_m: Span,
    /// Largest difference between directions at one station of the bore, m; none with one
    /// direction.
    pub out_of_round_m: Option<Finite>,
    /// Change of the bore's diameter from the first to the last station, m; none with one station.
    pub taper_m: Option<Finite>,
}

/// The spring measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MeasuredSpring {
    /// Load at the regulating position, N.
    pub load_n: Span,
    /// Rate that was used, N/m.
    pub rate_n_per_m: Finite,
    /// True when the rate was measured; false: the profile's.
    pub rate_measured: bool,
    /// True when the tester's limits of error are on record; false: usual ones were taken.
    pub tester_known: bool,
    /// Pressure that it holds on the reaction area by P = F / A, Pa.
    pub holds_pa: Span,
    /// Load as new less load as measured, N; none: the profile lacks the load as new.
    pub lost_n: Option<Finite>,
}

/// The balance orifice by pins.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MeasuredOrifice {
    /// Its bore, m: between the pin that goes and the one that doesn't.
    pub diameter_m: Span,
    /// As the profile has it, m; none: it has none.
    pub profile_m: Option<Finite>,
}

/// Everything measured about a bore, and what is odd about it. `checks`: those that stand, at most
/// one of each kind; of several occasions the latest.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program; figures that can't be true are findings and
/// are left out.
pub fn measured(
    profile: &BoreProfile,
    checks: &[Inspected<'_>],
    instruments: &BTreeMap<Id, Instrument>,
    today: Option<NaiveDate>,
) -> Result<(MeasuredParts, Vec<Finding>), DiagnosisError> {
    let mut bench = Bench {
        profile,
        instruments,
        today,
        findings: Vec::new(),
    };
    let mut parts = MeasuredParts::default();
    for check in checks {
        let at = field(check.found.name());
        let before = bench.findings.len();
        check.found.check(at, &mut bench.findings);
        let wrong = |finding: &Finding| finding.severity == Severity::Wrong;
        if bench.findings[before..].iter().any(wrong) {
            continue;
        }
        for odd in beyond(check.found, instruments) {
            let field = format!("{at}.{}", odd.field);
            bench.findings.push(Finding { field, ..odd });
        }
        match check.found {
            Found::Diameters(diameters) => {
                parts.lands = bench.clearances(diameters)?;
                let widest = |a: &&MeasuredClearance, b: &&MeasuredClearance| {
                    a.diametral_m.likely.total_cmp(&b.diametral_m.likely)
                };
                parts.clearance = parts.lands.iter().max_by(widest).cloned();
            }
            Found::Spring(spring) => parts.spring = bench.spring(spring)?,
            Found::OrificeBore(pins) => parts.orifice = bench.orifice(pins)?,
            Found::FreeMovement(movement) => bench.movement(movement, &mut parts),
            _ => {}
        }
    }
    Ok((parts, bench.findings))
}

/// The latest of each check: by occasion, and of one occasion the last in the list.
#[must_use]
pub fn latest<'a>(checks: &[Inspected<'a>]) -> Vec<Inspected<'a>> {
    let mut latest: BTreeMap<CheckName, Inspected<'a>> = BTreeMap::new();
    for check in checks {
        let newer = latest
            .get(&check.found.name())
            .is_none_or(|known| known.occasion <= check.occasion);
        if newer {
            latest.insert(check.found.name(), *check);
        }
    }
    latest.into_values().collect()
}

/// The profile with its parts as they were measured (spring, orifice, friction), and how far these
/// may be off. The bore keeps its dimensions; its clearance is told by the seals.
#[must_use]
pub fn as_measured(profile: &BoreProfile, parts: &MeasuredParts) -> MeasuredBore {
    // An end of a span may lie beyond what can be solved, or be true at all.
    let ends = |span: Span, least: f64| {
        [span.low, span.high].map(|end| Finite::new(end.max(least)).unwrap_or(end))
    };
    let (load, bore) = (limits::SPRING_LOAD_N.low, limits::ORIFICE_M.low);
    MeasuredBore {
        profile: likely(profile, parts),
        spring_load_n: parts.spring.as_ref().map(|found| ends(found.load_n, load)),
        orifice_m: parts
            .orifice
            .as_ref()
            .map(|found| ends(found.diameter_m, bore)),
    }
}

fn likely(profile: &BoreProfile, parts: &MeasuredParts) -> BoreProfile {
    let mut measured = profile.clone();
    if let (Some(spring), Some(found)) = (&mut measured.spring, &parts.spring) {
        spring.load_regulating_n = Some(found.load_n.likely);
        spring.rate_n_per_m = Some(found.rate_n_per_m);
    }
    if let (Some(orifice), Some(found)) = (&mut measured.balance_orifice, &parts.orifice) {
        orifice.diameter_m = found.diameter_m.likely;
    }
    if let Some(friction) = parts.friction_n {
        measured.bore.spool.friction_n = Some(friction);
    }
    measured
}

/// What the diameters say of the seals; none while they weren't measured on bore and valve.
#[must_use]
pub fn seals_by_diameters(profile: &BoreProfile, parts: &MeasuredParts) -> Option<SealEvidence> {
    let span = parts.clearance.as_ref()?.diametral_m;
    // A gap can't be less than nothing, whatever the instruments allow.
    let ends = [span.low, span.likely, span.high].map(|end| end.max(1e-6));
    Some(SealEvidence::measured(profile, ends))
}

/// Where the findings of a check stand.
#[must_use]
pub const fn field(check: CheckName) -> &'static str {
    match check {
        CheckName::ValveTrain => "valve_train",
        CheckName::FreeMovement => "free_movement",
        CheckName::WearMarks => "wear_marks",
        CheckName::Light => "light",
        CheckName::Wiggle => "wiggle",
        CheckName::Vacuum => "vacuum",
        CheckName::Diameters => "diameters",
        CheckName::Spring => "spring",
        CheckName::OrificeBore => "orifice_bore",
        CheckName::EndPlug => "end_plug",
        CheckName::Flatness => "flatness",
        CheckName::PlateAndBalls => "plate_and_balls",
        CheckName::CrossPassages => "cross_passages",
        CheckName::FeedScreens => "feed_screens",
        CheckName::Solenoid => "solenoid",
        CheckName::ClutchAir => "clutch_air",
    }
}

/// What a check says by itself, for lists; a vacuum test is judged elsewhere. A solenoid's
/// resistance is held against its limits at their temperature.
#[must_use]
pub fn outcome(found: &Found, instruments: &BTreeMap<Id, Instrument>) -> Outcome {
    let by_eye = found.outcome();
    let Found::Solenoid(check) = found else {
        return by_eye;
    };
    let Some(coil) = coil::coil(check, instruments) else {
        return by_eye;
    };
    // What was seen of it counts by itself; the resistance is no longer a mere figure.
    match by_eye {
        Outcome::Measured | Outcome::Good => coil.outcome,
        worse => worse.max(coil.outcome),
    }
}

/// What is odd about the instruments of a check and about what was read from them, at its fields.
#[must_use]
pub fn findings(
    found: &Found,
    instruments: &BTreeMap<Id, Instrument>,
    today: Option<NaiveDate>,
) -> Vec<Finding> {
    let mut odd = beyond(found, instruments);
    for (field, id) in found.instruments() {
        let due = instruments.get(&id).and_then(|it| it.calibration_due);
        if due.is_some_and(|due| today.is_some_and(|today| due < today)) {
            let code = FindingCode::CalibrationOverdue;
            odd.push(Finding::at(Severity::Doubt, code, field));
        }
    }
    if let Found::Solenoid(check) = found {
        odd.extend(coil::coil(check, instruments).and_then(|coil| coil.finding()));
    }
    odd
}

/// The readings that lie outside what their instruments measure.
fn beyond(found: &Found, instruments: &BTreeMap<Id, Instrument>) -> Vec<Finding> {
    let readings = found.readings().into_iter();
    readings
        .filter_map(|(id, field, value)| outside(instruments.get(&id)?, value, field))
        .collect()
}

/// A reading outside what an instrument measures.
pub(crate) fn outside(instrument: &Instrument, value: f64, field: String) -> Option<Finding> {
    instrument.is_beyond(value).then(|| Finding {
        low: instrument.range_low_si,
        high: instrument.range_high_si,
        ..Finding::at(Severity::Doubt, FindingCode::OutsideInstrument, field)
    })
}

struct Bench<'a> {
    profile: &'a BoreProfile,
    instruments: &'a BTreeMap<Id, Instrument>,
    today: Option<NaiveDate>,
    findings: Vec<Finding>,
}

impl Bench<'_> {
    fn doubt(&mut self, code: FindingCode, field: &str) {
        self.findings
            .push(Finding::at(Severity::Doubt, code, field));
    }

    /// An instrument whose figures can be true; what is odd about it is told at `field`.
    fn instrument(&mut self, id: Option<Id>, field: &str) -> Option<Instrument> {
        let instruments = self.instruments;
        let Some(instrument) = id.and_then(|id| instruments.get(&id)) else {
            self.doubt(FindingCode::InstrumentUnknown, field);
            return None;
        };
        let overdue = |due: NaiveDate| self.today.is_some_and(|today| due < today);
        if instrument.calibration_due.is_some_and(overdue) {
            self.doubt(FindingCode::CalibrationOverdue, field);
        }
        let sound = instrument.findings().is_empty()
            && *instrument.limits_of_error_si >= 0.0
            && *instrument.resolution_si >= 0.0;
        if !sound {
            self.doubt(FindingCode::InstrumentUnknown, field);
            return None;
        }
        Some(instrument.clone())
    }

    fn length_gauge(&mut self, id: Option<Id>, field: &str) -> DiameterGauge {
        let found = self.instrument(id, field);
        let (error, step) = found.map_or((USUAL_LENGTH_ERROR_M, USUAL_LENGTH_ERROR_M), |found| {
            (*found.limits_of_error_si, *found.resolution_si)
        });
        DiameterGauge {
            shared: metres(error / 3f64.sqrt()),
            each: metres(step / 12f64.sqrt()),
        }
    }

    fn clearances(
        &mut self,
        diameters: &Diameters,
    ) -> Result<Vec<MeasuredClearance>, DiagnosisError> {
        if diameters.bore.is_empty() || diameters.valve.is_empty() {
            return Ok(Vec::new());
        }
        let gauges = (
            self.length_gauge(diameters.bore_gauge, "diameters.bore_gauge"),
            self.length_gauge(diameters.micrometer, "diameters.micrometer"),
        );
        let same = diameters.bore_gauge.is_some() && diameters.bore_gauge == diameters.micrometer;
        let body = expansion_per_k(self.profile.bore.material);
        let valve = expansion_per_k(self.profile.bore.spool.material);
        let cold = |metres_read: Finite, expansion| cold(metres_read, expansion, diameters);
        let mut readings = Vec::new();
        for reading in &diameters.bore {
            readings.push(Diameter {
                station: metres(*reading.station_m),
                direction: direction(reading.direction_rad),
                value: cold(reading.diameter_m, body)?,
            });
        }
        let bore = stations::shape(&readings, &gauges.0)?;
        let mut lands: BTreeMap<&str, Vec<Diameter>> = BTreeMap::new();
        for reading in &diameters.valve {
            lands.entry(&reading.land).or_default().push(Diameter {
                station: metres(0.0),
                direction: direction(reading.direction_rad),
                value: cold(reading.diameter_m, valve)?,
            });
        }
        let mut measured = Vec::new();
        for (land, readings) in lands {
            if self.profile.land(land).is_none() {
                self.doubt(FindingCode::LandUnknown, "diameters.valve");
                continue;
            }
            let found = clearance_on(land, &bore, &readings, &gauges, same)?;
            measured.push(found);
        }
        // A valve that moves can't be wider than its bore.
        let all = measured.len();
        measured.retain(|found| *found.diametral_m.high > 0.0);
        if measured.len() < all {
            self.doubt(FindingCode::ValveLargerThanBore, "diameters.valve");
        }
        Ok(measured)
    }

    fn spring(&mut self, check: &SpringCheck) -> Result<Option<MeasuredSpring>, DiagnosisError> {
        if check.loads.is_empty() {
            return Ok(None);
        }
        let Some(height) = check.height_regulating_m else {
            self.doubt(FindingCode::DimensionMissing, "spring.height_regulating_m");
            return Ok(None);
        };
        let Some(nominal) = self.profile.spring.clone() else {
            self.doubt(FindingCode::ProfileIncomplete, "spring");
            return Ok(None);
        };
        let reaction = self.profile.reaction_land();
        let Some(area) = reaction
            .and_then(|land| land.diameter_m)
            .map(|diameter| face_area(metres(*diameter)))
            .transpose()?
        else {
            self.doubt(FindingCode::ProfileIncomplete, "lands");
            return Ok(None);
        };
        let tester = self.instrument(check.tester, "spring.tester");
        let uncertainty = |load: f64| {
            match &tester {
                Some(found) => (*found.limits_of_error_si / 3f64.sqrt())
                    .hypot(*found.resolution_si / 12f64.sqrt()),
                None => USUAL_LOAD_ERROR * load / 3f64.sqrt(),
            }
            .max(1e-6)
        };
        let readings: Vec<LoadReading> = check
            .loads
            .iter()
            .map(|reading| LoadReading {
                height: metres(*reading.height_m),
                load: Force::new::<newton>(*reading.load_n),
                uncertainty: Force::new::<newton>(uncertainty(*reading.load_n)),
            })
            .collect();
        let heights_differ = readings
            .iter()
            .any(|reading| (reading.height - readings[0].height).abs() > metres(1e-5));
        let (load, u, rate, rate_measured) = if heights_differ {
            let Ok(line) = fit(&readings) else {
                self.doubt(FindingCode::DimensionsContradict, "spring.loads");
                return Ok(None);
            };
            let Ok(there) = line.load_at(metres(*height)) else {
                self.doubt(
                    FindingCode::DimensionsContradict,
                    "spring.height_regulating_m",
                );
                return Ok(None);
            };
            // One instrument's error is shared by all its readings and doesn't average out.
            let shared = uncertainty(there.load.get::<newton>());
            (
                there.load.get::<newton>(),
                there.uncertainty.get::<newton>().max(shared),
                line.rate.get::<newton_per_meter>(),
                true,
            )
        } else {
            let Some(rate) = nominal.rate_n_per_m else {
                self.doubt(FindingCode::ProfileIncomplete, "spring");
                return Ok(None);
            };
            let rate = *rate;
            let mean = check
                .loads
                .iter()
                .map(|reading| *reading.load_n)
                .sum::<f64>()
                / count(check.loads.len());
            let carried = rate * (*check.loads[0].height_m - *height);
            let u = uncertainty(mean).hypot(USUAL_RATE_ERROR * carried / 3f64.sqrt());
            (mean + carried, u, rate, false)
        };
        if !(load.is_finite() && load > 0.0) {
            self.doubt(
                FindingCode::DimensionsContradict,
                "spring.height_regulating_m",
            );
            return Ok(None);
        }
        let load_n = span(load - 2.0 * u, load, load + 2.0 * u)?;
        let area = area.get::<square_meter>();
        Ok(Some(MeasuredSpring {
            load_n,
            rate_n_per_m: Finite::try_from(rate)?,
            rate_measured,
            tester_known: tester.is_some(),
            holds_pa: span(*load_n.low / area, load / area, *load_n.high / area)?,
            lost_n: nominal
                .load_regulating_n
                .map(|nominal| Finite::try_from(*nominal - load))
                .transpose()?,
        }))
    }

    fn orifice(&mut self, pins: &OrificeBore) -> Result<Option<MeasuredOrifice>, DiagnosisError> {
        let set = self.instrument(pins.pins, "orifice_bore.pins");
        let error = set.map_or(USUAL_LENGTH_ERROR_M, |set| *set.limits_of_error_si);
        // One pin alone bounds one side only: nothing to compute with.
        let (Some(go), Some(no_go)) = (pins.go_m, pins.no_go_m) else {
            self.doubt(FindingCode::DimensionMissing, "orifice_bore.no_go_m");
            return Ok(None);
        };
        Ok(Some(MeasuredOrifice {
            diameter_m: span((*go - error).max(0.0), 0.5 * (*go + *no_go), *no_go + error)?,
            profile_m: self
                .profile
                .balance_orifice
                .as_ref()
                .map(|orifice| orifice.diameter_m),
        }))
    }

    #[allow(clippy::unused_self)] // One shape for all checks.
    fn movement(&mut self, movement: &FreeMovement, parts: &mut MeasuredParts) {
        parts.movement = movement.worst();
        parts.friction_n = movement.friction_n;
    }
}

/// A diameter at 20 °C, of one read at the parts' temperature with a gauge at 20 °C.
fn cold(read: Finite, expansion: f64, diameters: &Diameters) -> Result<Length, DiagnosisError> {
    let read = metres(*read);
    match diameters.temperature_k {
        None => Ok(read),
        Some(temperature) => Ok(at_20c(
            read,
            TemperatureCoefficient::new::<per_kelvin>(expansion),
            ThermodynamicTemperature::new::<kelvin>(*temperature),
        )?),
    }
}

fn direction(radians: Finite) -> Angle {
    Angle::new::<radian>(*radians)
}

fn clearance_on(
    land: &str,
    bore: &Shape,
    readings: &[Diameter],
    gauges: &(DiameterGauge, DiameterGauge),
    same: bool,
) -> Result<MeasuredClearance, DiagnosisError> {
    let valve = stations::shape(readings, &gauges.1)?;
    let found = stations::clearance(bore, &valve, (&gauges.0, &gauges.1), same)?;
    let on_diameter = |radial: Length| 2.0 * radial.get::<meter>();
    let mean = on_diameter(found.mean.value);
    let wide = 2.0 * on_diameter(found.mean.uncertainty);
    let finite = |length: Length| Finite::try_from(length.get::<meter>());
    Ok(MeasuredClearance {
        land: land.to_owned(),
        diametral_m: span(mean - wide, mean, mean + wide)?,
        least_m: Finite::try_from(on_diameter(found.least))?,
        most_m: Finite::try_from(on_diameter(found.most))?,
        bore_m: sizes(bore)?,
        land_m: sizes(&valve)?,
        out_of_round_m: bore
            .out_of_round
            .map(|found| finite(found.difference.value))
            .transpose()?,
        taper_m: bore
            .taper
            .map(|found| finite(found.over_span.value))
            .transpose()?,
    })
}

/// Smallest reading, mean and largest reading.
fn sizes(shape: &Shape) -> Result<Span, DiagnosisError> {
    span(
        shape.smallest.get::<meter>(),
        shape.mean.value.get::<meter>(),
        shape.largest.get::<meter>(),
    )
}

fn span(low: f64, likely: f64, high: f64) -> Result<Span, DiagnosisError> {
    Ok(Span {
        low: Finite::try_from(low)?,
        likely: Finite::try_from(likely)?,
        high: Finite::try_from(high)?,
    })
}

#[allow(clippy::cast_precision_loss)] // A count of readings.
fn count(n: usize) -> f64 {
    n as f64
}
