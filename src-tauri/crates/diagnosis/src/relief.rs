//! A ball relief checked: where it opens, the window that it must sit in, and whether it holds the
//! worst cross leak. A relief contains an overpressure; it doesn't cure what makes it.

use model::finding::{Finding, FindingCode, Severity};
use model::limits::Check;
use model::relief_check::ReliefFigures;
use model::unit::{BoreProfile, Node, OpeningRole, Relief};
use model::{Finite, Id};
use physics::fluid::OilState;
use physics::regulator::{Branch, OperatingPoint as Balance};
use physics::relief::BallRelief;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::area::square_meter;
use uom::si::f64::{Pressure, Ratio, VolumeRate};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::judgement::{RegulationState, Span};
use crate::pressure::{self, SealEvidence};
use crate::valve::{self, Gap, SealState, Wear, metres};

/// How many pressures the override curve has.
const CURVE_POINTS: u32 = 41;
/// A valve that lies against one side of its bore leaks 2.5 times as much as one that lies centred
/// (White, *Viscous Fluid Flow*, eccentric annulus, small gaps), as one with the cube root of that
/// in clearance.
const OFF_CENTRE_LEAK: f64 = 2.5;

/// What a relief check says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefAnswer {
    /// Oil temperature, K.
    pub oil_temperature_k: Finite,
    /// What the relief does; none while a dimension is missing or can't be.
    pub relief: Option<ReliefBehaviour>,
    /// Where the valve as new regulates, friction and eccentricity included, Pa; none where the
    /// profile can't tell or the valve regulates nowhere.
    pub regulation_pa: Option<Span>,
    /// Upper end of the specified band, Pa; none: nobody entered it.
    pub specified_high_pa: Option<Finite>,
    /// What the parts stand, Pa; none: not entered.
    pub limit_pa: Option<Finite>,
    /// The worst cross leak; none while no clearance is known.
    pub worst: Option<WorstLeak>,
    /// What is odd, at the figures' fields.
    pub findings: Vec<Finding>,
    /// What was assumed.
    pub assumptions: Vec<Assumed>,
}

/// Opening and override.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefBehaviour {
    /// Pressure at which the ball just carries no load on its seat, Pa.
    pub cracking_pa: Finite,
    /// Pressure at which it is as open as it gets, Pa.
    pub full_open_pa: Finite,
    /// Lift there, m.
    pub full_lift_m: Finite,
    /// Where it sits to the window.
    pub window: WindowAnswer,
    /// Flow at what the parts stand, m³/s; none without a limit.
    pub capacity_at_limit_m3_s: Option<Finite>,
    /// From just below cracking on.
    pub override_curve: Vec<OverridePoint>,
}

/// One pressure of the override curve.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OverridePoint {
    /// Pressure on the ball, Pa above sump.
    pub pressure_pa: Finite,
    /// Lift, m.
    pub lift_m: Finite,
    /// Area that oil passes, m².
    pub area_m2: Finite,
    /// Flow, m³/s.
    pub flow_m3_s: Finite,
}

/// Where cracking lies between normal regulation and what the parts stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum WindowAnswer {
    /// Above the one and below the other.
    Inside,
    /// Within normal regulation, or below it.
    BelowRegulation,
    /// Above what the parts stand.
    AboveLimit,
    /// One end isn't known.
    Unknown,
}

/// The worst cross leak: line into feed past the worn supply land, highest line pressure, hot,
/// every solenoid shut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WorstLeak {
    /// Where the clearance comes from.
    pub clearance_from: ClearanceSource,
    /// Clearance of the supply land on the diameter, m, as an equivalent centred one.
    pub clearance_m: Span,
    /// Line pressure, Pa.
    pub line_pa: Finite,
    /// Feed that it drives up to without a relief, Pa.
    pub feed_without_pa: Span,
    /// Feed with this relief, Pa; none while the relief isn't known.
    pub feed_with_pa: Option<Span>,
    /// What crosses from line into feed with this relief, m³/s: it remains.
    pub leak_flow_m3_s: Option<Span>,
    /// What goes over the relief to the sump, m³/s: pump flow that is lost.
    pub lost_flow_m3_s: Option<Span>,
    /// Whether the worst stays below what the parts stand; none when either isn't known.
    pub holds: Option<bool>,
}

/// Where a clearance comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ClearanceSource {
    /// Entered by hand.
    Entered,
    /// Of the last judged test: the supply land is taken as worn as the lands that it reached.
    LastTest,
}

/// Checks a relief. `seals`: what the last judged test of the bore says, if there is one.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program; what the figures lack is a finding.
pub fn check(
    profile: &BoreProfile,
    figures: &ReliefFigures,
    seals: Option<&SealEvidence>,
) -> Result<ReliefAnswer, DiagnosisError> {
    let temperature = *profile.unit.hot_oil_temperature_k;
    let mut findings = figures.findings();
    let wrong = |findings: &[Finding], fields: &[&str]| {
        let is_wrong = |finding: &Finding| {
            finding.severity == Severity::Wrong && fields.contains(&finding.field.as_str())
        };
        findings.iter().any(is_wrong)
    };
    const DIMENSIONS: [&str; 5] = [
        "ball_diameter_m",
        "seat_diameter_m",
        "load_seated_n",
        "rate_n_per_m",
        "lift_stop_m",
    ];
    let relief = figures
        .relief(Id::nil())
        .filter(|_| !wrong(&findings, &DIMENSIONS));
    let relief = match relief {
        Some(relief) => within_law(relief, &mut findings)?,
        None => None,
    };
    let limit = figures
        .limit_pa
        .filter(|_| !wrong(&findings, &["limit_pa"]));
    let mut assumptions = Vec::new();
    let mut case = Case {
        profile,
        temperature,
        relief,
        limit: limit.map(Finite::get),
        findings: &mut findings,
        assumptions: &mut assumptions,
    };
    let regulation = case.regulation()?;
    let clearance_is_wrong = wrong(case.findings, &["clearance_m"]);
    let worst = if clearance_is_wrong {
        None
    } else {
        case.worst(figures, seals)?
    };
    let relief = case.behaviour(regulation.as_ref(), worst.as_ref())?;
    assumptions.sort_unstable();
    assumptions.dedup();
    Ok(ReliefAnswer {
        oil_temperature_k: profile.unit.hot_oil_temperature_k,
        relief,
        regulation_pa: regulation,
        specified_high_pa: profile.circuit.specified_high_pa,
        limit_pa: limit,
        worst,
        findings,
        assumptions,
    })
}

/// The relief, unless its spring holds it shut beyond any pressure that the oil's laws cover: then
/// a finding at the load.
fn within_law(
    relief: Relief,
    findings: &mut Vec<Finding>,
) -> Result<Option<Relief>, DiagnosisError> {
    let cracking = valve::relief_of(&relief)
        .cracking_pressure()?
        .get::<pascal>();
    let most = physics::range::OIL_PRESSURE.high;
    if cracking <= most {
        return Ok(Some(relief));
    }
    let low = model::limits::SPRING_LOAD_N.low;
    let high = *relief.load_seated_n * most / cracking;
    let found = Finding::at(Severity::Wrong, FindingCode::OutOfRange, "load_seated_n");
    findings.push(found.with_bounds(low, high));
    Ok(None)
}

struct Case<'a> {
    profile: &'a BoreProfile,
    temperature: f64,
    relief: Option<Relief>,
    limit: Option<f64>,
    findings: &'a mut Vec<Finding>,
    assumptions: &'a mut Vec<Assumed>,
}

impl Case<'_> {
    fn found(&mut self, severity: Severity, code: FindingCode, field: &str) {
        self.findings.push(Finding::at(severity, code, field));
    }

    fn odd(&mut self, code: FindingCode, field: &str, low: f64, high: f64) {
        self.findings
            .push(Finding::at(Severity::Doubt, code, field).with_bounds(low, high));
    }

    /// Where the valve as new regulates without any relief.
    fn regulation(&mut self) -> Result<Option<Span>, DiagnosisError> {
        let mut alone = self.profile.clone();
        alone.relief = None;
        let Some(land) = alone.reaction_land() else {
            self.found(Severity::Doubt, FindingCode::ProfileIncomplete, "lands");
            return Ok(None);
        };
        let Some(clearance) = valve::new_clearance(&alone, land) else {
            let part = "lands.diameter_m";
            self.found(Severity::Doubt, FindingCode::ProfileIncomplete, part);
            return Ok(None);
        };
        let clearance = 2.0 * clearance.get::<meter>();
        let seals = SealEvidence::measured(&alone, [clearance; 3]);
        let consequence = match pressure::consequence(&alone, &seals, self.temperature) {
            Ok((consequence, assumed)) => {
                self.assumptions
                    .extend(assumed.into_iter().map(Assumed::from));
                consequence
            }
            Err(DiagnosisError::ProfileIncomplete { part }) => {
                self.found(Severity::Doubt, FindingCode::ProfileIncomplete, part);
                return Ok(None);
            }
            Err(DiagnosisError::Physics(_)) => return Ok(None),
            Err(other) => return Err(other),
        };
        let held = consequence
            .curve
            .iter()
            .filter(|point| point.measured_state == RegulationState::Regulating);
        let spans: Vec<Span> = held.map(|point| point.measured_feed_pa).collect();
        let Some(last) = spans.last() else {
            return Ok(None);
        };
        let low = spans.iter().map(|span| *span.low).fold(f64::MAX, f64::min);
        let high = spans.iter().map(|span| *span.high).fold(0.0, f64::max);
        span([low, *last.likely, high]).map(Some)
    }

    fn worst(
        &mut self,
        figures: &ReliefFigures,
        seals: Option<&SealEvidence>,
    ) -> Result<Option<WorstLeak>, DiagnosisError> {
        let off_centre = OFF_CENTRE_LEAK.cbrt();
        // As what a centred valve would leak: from centred in service to lying against one side.
        let (clearance_from, radial) = match (figures.clearance_m, seals) {
            (Some(given), _) => {
                let c = *given / 2.0;
                (ClearanceSource::Entered, [c, c, c * off_centre])
            }
            (None, Some(seals)) => {
                self.assumptions.push(Assumed::SupplyLandAsTested);
                let [low, likely, high] = [seals.off_centre[0], seals.centred[1], seals.centred[2]]
                    .map(|clearance| clearance.get::<meter>());
                (ClearanceSource::LastTest, [low, likely, high * off_centre])
            }
            (None, None) => {
                self.found(
                    Severity::Doubt,
                    FindingCode::CrossLeakUnknown,
                    "clearance_m",
                );
                return Ok(None);
            }
        };
        self.assumptions.push(Assumed::SolenoidsShut);
        let solved = match self.solve_worst(radial) {
            Ok(solved) => solved,
            Err(DiagnosisError::ProfileIncomplete { part }) => {
                self.found(Severity::Doubt, FindingCode::ProfileIncomplete, part);
                return Ok(None);
            }
            Err(DiagnosisError::Physics(_)) => {
                let field = "clearance_m";
                self.found(Severity::Doubt, FindingCode::ClearanceOutsideModel, field);
                return Ok(None);
            }
            Err(other) => return Err(other),
        };
        let (without, with) = solved;
        let feed =
            |ends: &[Balance; 3]| span(ordered(ends.each_ref().map(|b| b.feed.get::<pascal>())));
        let feed_with = with.as_ref().map(feed).transpose()?;
        let crossing = |ends: &[Balance; 3]| {
            span(ordered(
                ends.each_ref().map(|balance| self.crossing(balance)),
            ))
        };
        let lost = |ends: &[Balance; 3]| {
            let flow = |balance: &Balance| balance.flows.relief.get::<cubic_meter_per_second>();
            span(ordered(ends.each_ref().map(flow)))
        };
        let worst = WorstLeak {
            clearance_from,
            clearance_m: span(radial.map(|c| 2.0 * c))?,
            line_pa: valve::need(self.profile.unit.line_highest_pa, "unit.line_highest_pa")?,
            feed_without_pa: feed(&without)?,
            feed_with_pa: feed_with,
            leak_flow_m3_s: with.as_ref().map(crossing).transpose()?,
            lost_flow_m3_s: with.as_ref().map(lost).transpose()?,
            holds: feed_with
                .zip(self.limit)
                .map(|(feed, limit)| *feed.high <= limit),
        };
        if let (Some(feed), Some(limit), Some(false)) = (feed_with, self.limit, worst.holds) {
            let code = FindingCode::ReliefCapacityTooSmall;
            self.odd(code, "seat_diameter_m", *feed.high, limit);
        }
        if worst.lost_flow_m3_s.is_some_and(|lost| *lost.high <= 0.0) {
            self.found(Severity::Note, FindingCode::ReliefStaysShut, "clearance_m");
        }
        Ok(Some(worst))
    }

    /// The circuit with the supply land that worn, without and with the relief.
    #[allow(
        clippy::type_complexity,
        reason = "one balance for each clearance, twice"
    )]
    fn solve_worst(
        &self,
        radial: [f64; 3],
    ) -> Result<([Balance; 3], Option<[Balance; 3]>), DiagnosisError> {
        let oil = valve::oil_at(valve::unit_oil(self.profile)?, self.temperature)?;
        let missing = |part| DiagnosisError::ProfileIncomplete { part };
        let supply = self
            .profile
            .opening(OpeningRole::Supply)
            .ok_or(missing("openings"))?;
        let worn_lands = [supply.land.clone()];
        let state = |gap: Gap| SealState {
            gap,
            eccentricity: Ratio::new::<ratio>(0.0),
        };
        let solve = |clearance: f64, relief: Option<BallRelief>| {
            let wear = Wear {
                tested_lands: &worn_lands,
                tested: state(Gap::Of(metres(clearance))),
                untested: state(Gap::AsNew),
            };
            let mut regulator = valve::regulator(self.profile, &wear, self.temperature)?;
            regulator.demand.flow = VolumeRate::new::<cubic_meter_per_second>(0.0);
            regulator.relief = relief;
            let highest = valve::need(self.profile.unit.line_highest_pa, "unit.line_highest_pa")?;
            let line = Pressure::new::<pascal>(*highest);
            Ok::<_, DiagnosisError>(regulator.circuit(&oil)?.solve(line, Branch::Rising)?)
        };
        let three = |relief: Option<BallRelief>| {
            let [low, likely, high] = radial;
            Ok::<_, DiagnosisError>([
                solve(low, relief)?,
                solve(likely, relief)?,
                solve(high, relief)?,
            ])
        };
        let with = self
            .relief
            .as_ref()
            .map(|relief| three(Some(valve::relief_of(relief))));
        Ok((three(None)?, with.transpose()?))
    }

    /// Oil from line into feed: past the supply edge and along any land between the two.
    fn crossing(&self, balance: &Balance) -> f64 {
        let along = valve::seals(self.profile).zip(balance.flows.leaks.as_slice());
        let along: f64 = along
            .map(|((_, seal), flow)| {
                let flow = flow.get::<cubic_meter_per_second>();
                match (seal.left, seal.right) {
                    (Node::Line, Node::Feed) => flow,
                    (Node::Feed, Node::Line) => -flow,
                    _ => 0.0,
                }
            })
            .sum();
        balance.flows.supply.get::<cubic_meter_per_second>() + along
    }

    fn behaviour(
        &mut self,
        regulation: Option<&Span>,
        worst: Option<&WorstLeak>,
    ) -> Result<Option<ReliefBehaviour>, DiagnosisError> {
        let Some(relief) = self.relief.as_ref().map(valve::relief_of) else {
            return Ok(None);
        };
        let Some(oil) = &self.profile.unit.oil else {
            self.found(Severity::Doubt, FindingCode::ProfileIncomplete, "unit.oil");
            return Ok(None);
        };
        self.assumptions.push(Assumed::ReliefWithoutFlowForce);
        let oil = valve::oil_at(oil, self.temperature)?;
        let cracking = relief.cracking_pressure()?.get::<pascal>();
        let (full_lift, full_open) = full_open(&relief, cracking)?;
        let window = self.window(cracking, regulation);
        let reached = worst.and_then(|worst| worst.feed_with_pa);
        let top = [
            1.3 * cracking,
            1.05 * self.limit.unwrap_or(0.0),
            1.05 * reached.map_or(0.0, |span| *span.high),
        ];
        let top = top
            .into_iter()
            .fold(0.0, f64::max)
            .min(physics::range::OIL_PRESSURE.high);
        let capacity = match self.limit {
            Some(limit) => Some(flow(&relief, limit, &oil)?),
            None => None,
        };
        let mut curve = Vec::new();
        let from = 0.9 * cracking;
        for i in 0..CURVE_POINTS {
            let share = f64::from(i) / f64::from(CURVE_POINTS - 1);
            let p = from + share * (top - from);
            let lift = relief.lift(Pressure::new::<pascal>(p))?;
            // Within its seat the ball passes nothing.
            let area = relief.area_at(lift)?.get::<square_meter>();
            curve.push(OverridePoint {
                pressure_pa: Finite::try_from(p)?,
                lift_m: Finite::try_from(lift.get::<meter>())?,
                area_m2: Finite::try_from(area)?,
                flow_m3_s: flow(&relief, p, &oil)?,
            });
        }
        Ok(Some(ReliefBehaviour {
            cracking_pa: Finite::try_from(cracking)?,
            full_open_pa: Finite::try_from(full_open)?,
            full_lift_m: Finite::try_from(full_lift)?,
            window,
            capacity_at_limit_m3_s: capacity,
            override_curve: curve,
        }))
    }

    fn window(&mut self, cracking: f64, regulation: Option<&Span>) -> WindowAnswer {
        let specified = self.profile.circuit.specified_high_pa;
        let regulation = regulation.map(|span| *span.high);
        if let (Some(regulation), Some(limit)) = (regulation, self.limit)
            && limit <= regulation
        {
            let code = FindingCode::ReliefLimitBelowRegulation;
            self.odd(code, "limit_pa", regulation, limit);
        }
        if let Some(regulation) = regulation
            && cracking <= regulation
        {
            let code = FindingCode::CracksBelowRegulation;
            self.odd(code, "load_seated_n", regulation, cracking);
            return WindowAnswer::BelowRegulation;
        }
        if let Some(limit) = self.limit
            && cracking >= limit
        {
            self.odd(
                FindingCode::CracksAboveLimit,
                "load_seated_n",
                cracking,
                limit,
            );
            return WindowAnswer::AboveLimit;
        }
        if let Some(specified) = specified
            && cracking <= *specified
        {
            let code = FindingCode::CracksWithinSpecification;
            self.odd(code, "load_seated_n", cracking, *specified);
        }
        match (regulation, self.limit) {
            (Some(_), Some(_)) => WindowAnswer::Inside,
            _ => WindowAnswer::Unknown,
        }
    }
}

/// Lift and pressure from which the relief opens no further: the seat's bore or the stop.
fn full_open(relief: &BallRelief, cracking: f64) -> Result<(f64, f64), DiagnosisError> {
    let stop = relief.lift_stop.get::<meter>();
    let most = relief.area_at(relief.lift_stop)?;
    let (mut low, mut high) = (0.0, stop);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if relief.area_at(metres(middle))? < most {
            low = middle;
        } else {
            high = middle;
        }
    }
    // The spring's load rises by its rate; the area under pressure is the seat's.
    let load = relief.spring.load_at_rest;
    let share = (relief.spring.load_at(metres(high))? / load).get::<ratio>();
    Ok((high, cracking * share))
}

fn flow(relief: &BallRelief, pa: f64, oil: &OilState) -> Result<Finite, DiagnosisError> {
    let flow = relief.flow(Pressure::new::<pascal>(pa), oil)?;
    Ok(Finite::try_from(flow.get::<cubic_meter_per_second>())?)
}

fn ordered(mut ends: [f64; 3]) -> [f64; 3] {
    let likely = ends[1];
    ends.sort_by(f64::total_cmp);
    [ends[0], likely, ends[2]]
}

fn span([low, likely, high]: [f64; 3]) -> Result<Span, DiagnosisError> {
    Ok(Span {
        low: Finite::try_from(low)?,
        likely: Finite::try_from(likely)?,
        high: Finite::try_from(high)?,
    })
}
