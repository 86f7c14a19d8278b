//! A regulator in motion: transient, modes, the curve at rest, and the same with another part.

use diagnosis::pressure;
use physics::fluid::OilState;
use physics::regulator::dynamic::{
    Course, DynamicError, Line, MovingRegulator, OilStiffness, Oscillation, Ripple, Scenario,
    SolverStatistics, Stability, Start, SweepOf, Trace, Transient, film_damping, sweep,
};
use uom::si::f64::{Frequency, Mass, MassRate, Pressure, Ratio, Time, Volume};
use uom::si::frequency::hertz;
use uom::si::mass::kilogram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::cubic_meter;

use super::{assumed, valve};
use crate::App;
use crate::dto::{
    FeedCurveAnswer, FeedCurveArgs, FeedCurvePoint, LineCourse, MotionMode, MotionScenario,
    MotionStart, MotionSummary, MotionTrace, MovingFigure, MovingFigures, OutletCourse,
    RegulatorSource, RestModes, SelfOscillation, SolverCounts, StabilityAnswer, StabilityArgs,
    SweepAnswer, SweepArgs, SweepOver, SweepValue, TransientAnswer, TransientArgs,
};
use crate::error::{ApiError, ErrorCode, finite};
use crate::tasks::Watch;
use model::Finite;

/// Points of a trace that is asked for without saying how many.
const POINTS: u32 = 1_000;
/// The most points of a trace.
const MOST_POINTS: u32 = 5_000;
/// Line pressures of a curve that is asked for without saying how many.
const CURVE_POINTS: u32 = 41;
/// The most values of a sweep.
const MOST_VALUES: usize = 200;

/// A moving regulator with its oil, and which of its figures weren't given.
struct Told {
    regulator: MovingRegulator,
    oil: OilState,
    moving: MovingFigures,
    typical: Vec<MovingFigure>,
}

/// A figure, or what is typical (common practice, no source) where it isn't given.
fn moving(valve: &RegulatorSource, given: &MovingFigures) -> Result<Told, ApiError> {
    let (regulator, oil) = valve::regulator(valve)?;
    let mut typical = Vec::new();
    let mut or = |figure: MovingFigure, given: Option<Finite>, otherwise: f64| {
        given.map_or_else(
            || {
                typical.push(figure);
                finite(otherwise)
            },
            Ok,
        )
    };
    let mut films = 0.0;
    for leak in &regulator.leaks {
        films += film_damping(&leak.annulus, &oil)?.get::<kilogram_per_second>();
    }
    use MovingFigure as F;
    let mass = or(F::SpoolMass, given.spool_mass_kg, 0.02)?;
    let damping = or(F::Damping, given.damping_n_s_per_m, films)?;
    let breakaway = or(F::Breakaway, given.breakaway_ratio, 1.3)?;
    let feed = or(F::FeedVolume, given.feed_volume_m3, 3e-5)?;
    let reaction = or(F::ReactionVolume, given.reaction_volume_m3, 4e-7)?;
    let chamber = or(F::ChamberVolume, given.chamber_volume_m3, 6e-7)?;
    let liquid = or(F::LiquidBulkModulus, given.liquid_bulk_modulus_pa, 1.4e9)?;
    let air = or(F::EntrainedAir, given.entrained_air_ratio, 0.01)?;
    let exponent = or(F::AirExponent, given.air_exponent_ratio, 1.0)?;
    let barometer = or(F::Barometer, given.barometer_pa, 101_325.0)?;
    let volume = |v: Finite| Volume::new::<cubic_meter>(*v);
    Ok(Told {
        regulator: MovingRegulator {
            regulator,
            spool_mass: Mass::new::<kilogram>(*mass),
            damping: MassRate::new::<kilogram_per_second>(*damping),
            breakaway: valve::one(breakaway),
            feed_volume: volume(feed),
            reaction_volume: volume(reaction),
            chamber_volume: volume(chamber),
            oil_stiffness: OilStiffness {
                liquid: valve::pascals(liquid),
                entrained_air: valve::one(air),
                exponent: valve::one(exponent),
                barometer: valve::pascals(barometer),
            },
        },
        oil,
        moving: MovingFigures {
            spool_mass_kg: Some(mass),
            damping_n_s_per_m: Some(damping),
            breakaway_ratio: Some(breakaway),
            feed_volume_m3: Some(feed),
            reaction_volume_m3: Some(reaction),
            chamber_volume_m3: Some(chamber),
            liquid_bulk_modulus_pa: Some(liquid),
            entrained_air_ratio: Some(air),
            air_exponent_ratio: Some(exponent),
            barometer_pa: Some(barometer),
        },
        typical,
    })
}

fn seconds(t: Finite) -> Time {
    Time::new::<second>(*t)
}

/// Two lists of one length as a trace.
fn trace<Q>(
    time_s: &[Finite],
    values: &[Finite],
    of: impl Fn(Finite) -> Q,
) -> Result<Course<Q>, ApiError> {
    if time_s.len() != values.len() {
        return Err(ApiError::new(ErrorCode::OutOfRange)
            .at("time_s")
            .with("low", values.len())
            .with("high", values.len()));
    }
    let pairs = time_s.iter().zip(values);
    Ok(Course::Trace(
        pairs.map(|(&t, &v)| (seconds(t), of(v))).collect(),
    ))
}

fn line_course(told: &LineCourse) -> Result<Course<Pressure>, ApiError> {
    Ok(match told {
        LineCourse::Constant { line_pa } => Course::Constant(valve::pascals(*line_pa)),
        LineCourse::Step {
            from_pa,
            to_pa,
            at_s,
        } => Course::Step {
            from: valve::pascals(*from_pa),
            to: valve::pascals(*to_pa),
            at: seconds(*at_s),
        },
        LineCourse::Ramp {
            from_pa,
            to_pa,
            start_s,
            end_s,
        } => Course::Ramp {
            from: valve::pascals(*from_pa),
            to: valve::pascals(*to_pa),
            start: seconds(*start_s),
            end: seconds(*end_s),
        },
        LineCourse::Trace { time_s, line_pa } => trace(time_s, line_pa, valve::pascals)?,
    })
}

fn demand_course(told: Option<&OutletCourse>) -> Result<Course<Ratio>, ApiError> {
    Ok(match told {
        None => Course::Constant(Ratio::new::<ratio>(1.0)),
        Some(OutletCourse::Constant { open_ratio }) => Course::Constant(valve::one(*open_ratio)),
        Some(OutletCourse::Step {
            from_ratio,
            to_ratio,
            at_s,
        }) => Course::Step {
            from: valve::one(*from_ratio),
            to: valve::one(*to_ratio),
            at: seconds(*at_s),
        },
        Some(OutletCourse::Ramp {
            from_ratio,
            to_ratio,
            start_s,
            end_s,
        }) => Course::Ramp {
            from: valve::one(*from_ratio),
            to: valve::one(*to_ratio),
            start: seconds(*start_s),
            end: seconds(*end_s),
        },
        Some(OutletCourse::Trace { time_s, open_ratio }) => trace(time_s, open_ratio, valve::one)?,
    })
}

fn scenario(told: &MotionScenario) -> Result<Scenario, ApiError> {
    let ripple = told.ripple.map(|ripple| {
        Ripple::of_pump(
            valve::pascals(ripple.amplitude_pa),
            Frequency::new::<hertz>(*ripple.pump_speed_hz),
            ripple.elements,
        )
    });
    let line = Line {
        course: line_course(&told.line)?,
        ripple: ripple.transpose()?,
    };
    let points = valve::count("points", told.points, POINTS, (2, MOST_POINTS))?;
    let mut scenario = Scenario::new(line, seconds(told.duration_s));
    scenario.demand = demand_course(told.demand.as_ref())?;
    scenario.start = match told.start {
        MotionStart::Rest(branch) => Start::Rest(valve::branch(branch)),
        MotionStart::Empty => Start::Empty,
    };
    scenario.points = points as usize;
    if let Some(tolerance) = told.relative_tolerance {
        scenario.relative_tolerance = valve::one(tolerance);
    }
    if let Some(band) = told.settling_band_pa {
        scenario.settling_band = valve::pascals(band);
    }
    Ok(scenario)
}

impl From<DynamicError> for ApiError {
    fn from(error: DynamicError) -> Self {
        match error {
            DynamicError::Input(error) => error.into(),
            other => Self::new(ErrorCode::NoSolution).with("detail", other),
        }
    }
}

/// Follows a regulator through time.
pub(crate) fn transient(_: &App, args: TransientArgs) -> Result<TransientAnswer, ApiError> {
    follow(&args, &Watch::default())
}

/// As [`transient`], given up when the watch says so.
pub(crate) fn follow(args: &TransientArgs, watch: &Watch) -> Result<TransientAnswer, ApiError> {
    watch.expect(1);
    let scenario = scenario(&args.scenario)?;
    let told = moving(&args.valve, &args.moving)?;
    let circuit = told.regulator.circuit(&told.oil)?;
    let transient = circuit.simulate_until(&scenario, Some(watch.cancel()))?;
    watch.reached(1);
    Ok(TransientAnswer {
        trace: traced(&transient.trace)?,
        summary: summary(&transient)?,
        moving: told.moving,
        typical: told.typical,
        assumptions: assumed(&transient.assumptions),
    })
}

fn list(values: &[f64]) -> Result<Vec<Finite>, ApiError> {
    values.iter().map(|&value| finite(value)).collect()
}

fn traced(trace: &Trace) -> Result<MotionTrace, ApiError> {
    Ok(MotionTrace {
        time_s: list(&trace.time_s)?,
        line_pa: list(&trace.line_pa)?,
        feed_pa: list(&trace.feed_pa)?,
        reaction_pa: list(&trace.reaction_pa)?,
        spring_chamber_pa: list(&trace.spring_chamber_pa)?,
        spool_position_m: list(&trace.spool_position_m)?,
        spool_speed_m_per_s: list(&trace.spool_speed_m_per_s)?,
        demand_m3_s: list(&trace.demand_m3_per_s)?,
    })
}

fn summary(transient: &Transient) -> Result<MotionSummary, ApiError> {
    let pa = |p: Pressure| finite(p.get::<pascal>());
    let maybe = |p: Option<Pressure>| p.map(pa).transpose();
    Ok(MotionSummary {
        feed_lowest_pa: pa(transient.feed_lowest)?,
        feed_highest_pa: pa(transient.feed_highest)?,
        feed_final_pa: pa(transient.feed_final)?,
        settling_time_s: transient
            .settling_time
            .map(|t| finite(t.get::<second>()))
            .transpose()?,
        overshoot_pa: pa(transient.overshoot)?,
        ripple_in_pa: maybe(transient.ripple_in)?,
        ripple_out_pa: maybe(transient.ripple_out)?,
        oscillation: oscillation(transient.oscillation)?,
        solver: solver(&transient.statistics)?,
    })
}

fn oscillation(found: Oscillation) -> Result<SelfOscillation, ApiError> {
    Ok(match found {
        Oscillation::None => SelfOscillation::None,
        Oscillation::Dying => SelfOscillation::Dying,
        Oscillation::Lasting {
            frequency,
            peak_to_peak,
        } => SelfOscillation::Lasting {
            frequency_hz: finite(frequency.get::<hertz>())?,
            peak_to_peak_pa: finite(peak_to_peak.get::<pascal>())?,
        },
        Oscillation::Growing {
            frequency,
            peak_to_peak,
        } => SelfOscillation::Growing {
            frequency_hz: finite(frequency.get::<hertz>())?,
            peak_to_peak_pa: finite(peak_to_peak.get::<pascal>())?,
        },
        Oscillation::TooShort => SelfOscillation::TooShort,
    })
}

fn solver(statistics: &SolverStatistics) -> Result<SolverCounts, ApiError> {
    let count = |n: u64| u32::try_from(n).unwrap_or(u32::MAX);
    Ok(SolverCounts {
        accepted: count(statistics.accepted),
        rejected: count(statistics.rejected),
        rate_evaluations: count(statistics.rate_evaluations),
        stop_contacts: count(statistics.stop_contacts),
        sticks: count(statistics.sticks),
        break_aways: count(statistics.break_aways),
        shortest_step_s: finite(statistics.shortest_step_s).ok(),
        longest_step_s: finite(statistics.longest_step_s)?,
    })
}

/// Small motions about rest.
pub(crate) fn stability(_: &App, args: StabilityArgs) -> Result<StabilityAnswer, ApiError> {
    let told = moving(&args.valve, &args.moving)?;
    let circuit = told.regulator.circuit(&told.oil)?;
    let open = args
        .open_ratio
        .map_or_else(|| Ratio::new::<ratio>(1.0), valve::one);
    let found = circuit.stability(valve::pascals(args.line_pa), open)?;
    Ok(StabilityAnswer {
        rest: modes(&found)?,
        moving: told.moving,
        typical: told.typical,
        assumptions: assumed(&found.assumptions),
    })
}

fn modes(found: &Stability) -> Result<RestModes, ApiError> {
    let mode = |mode: &physics::regulator::dynamic::Mode| {
        Ok::<_, ApiError>(MotionMode {
            growth_per_s: finite(mode.growth.get::<hertz>())?,
            frequency_hz: finite(mode.frequency.get::<hertz>())?,
            natural_frequency_hz: finite(mode.natural_frequency.get::<hertz>())?,
            damping_ratio: finite(mode.damping_ratio.get::<ratio>())?,
        })
    };
    Ok(RestModes {
        line_pa: finite(found.line.value)?,
        feed_pa: finite(found.feed.value)?,
        spool_position_m: finite(found.spool_position.value)?,
        on_stop: found.on_stop,
        modes: found.modes.iter().map(mode).collect::<Result<_, _>>()?,
        stable: found.stable,
    })
}

/// Feed against line, at rest, with both branches of friction.
pub(crate) fn curve(_: &App, args: FeedCurveArgs) -> Result<FeedCurveAnswer, ApiError> {
    let points = valve::count("points", args.points, CURVE_POINTS, (2, 2_000))?;
    let (regulator, oil) = valve::regulator(&args.valve)?;
    let curve = regulator.circuit(&oil)?.curve(
        valve::pascals(args.line_from_pa),
        valve::pascals(args.line_to_pa),
        points as usize,
    )?;
    let ends = curve.regulating.map(|(low, high)| {
        let ends = [finite(low.value)?, finite(high.value)?];
        Ok::<_, ApiError>(ends)
    });
    let maybe = |p: Option<Pressure>| p.map(|p| finite(p.value)).transpose();
    let point = |point: &physics::regulator::CurvePoint| {
        Ok::<_, ApiError>(FeedCurvePoint {
            line_pa: finite(point.line.value)?,
            rising_pa: finite(point.rising.feed.value)?,
            falling_pa: finite(point.falling.feed.value)?,
            rising_state: pressure::state(&point.rising),
            falling_state: pressure::state(&point.falling),
        })
    };
    Ok(FeedCurveAnswer {
        points: curve.points.iter().map(point).collect::<Result<_, _>>()?,
        regulating_pa: ends.transpose()?,
        droop_pa: maybe(curve.droop)?,
        hysteresis_pa: maybe(curve.hysteresis)?,
        assumptions: assumed(&curve.assumptions),
    })
}

/// The same transient with one part changed.
pub(crate) fn swept(args: &SweepArgs, watch: &Watch) -> Result<SweepAnswer, ApiError> {
    let scenario = scenario(&args.scenario)?;
    let told = moving(&args.valve, &args.moving)?;
    let (field, values) = match &args.over {
        SweepOver::OrificeDiameter { diameter_m } => ("diameter_m", diameter_m),
        SweepOver::Clearance {
            radial_clearance_m, ..
        } => ("radial_clearance_m", radial_clearance_m),
        SweepOver::Friction { friction_n } => ("friction_n", friction_n),
    };
    if values.is_empty() || values.len() > MOST_VALUES {
        return Err(ApiError::new(ErrorCode::OutOfRange)
            .at(field)
            .with("low", 1)
            .with("high", MOST_VALUES));
    }
    let lengths = || values.iter().map(|&value| valve::metres(value)).collect();
    let of = match &args.over {
        SweepOver::OrificeDiameter { .. } => SweepOf::OrificeDiameter(lengths()),
        SweepOver::Clearance { leak, .. } => SweepOf::Clearance {
            leak: *leak as usize,
            values: lengths(),
        },
        SweepOver::Friction { .. } => {
            SweepOf::Friction(values.iter().map(|&value| valve::newtons(value)).collect())
        }
    };
    watch.expect(values.len());
    let progress = |done: usize, _: usize| watch.reached(done);
    let points = sweep(
        &told.regulator,
        &told.oil,
        &scenario,
        &of,
        &progress,
        watch.cancel(),
    )?;
    let answers = values.iter().zip(points).map(|(&value, point)| {
        let (summary, error) = match point.transient {
            Ok(transient) => (Some(summary(&transient)?), None),
            Err(error) => (None, Some(error.into())),
        };
        Ok::<_, ApiError>(SweepValue {
            value,
            summary,
            stability: point.stability.ok().map(|s| modes(&s)).transpose()?,
            error,
        })
    });
    Ok(SweepAnswer {
        values: answers.collect::<Result<_, _>>()?,
        moving: told.moving,
        typical: told.typical,
    })
}
