//! Diameters at several stations and directions: size, taper, out-of-round, and clearance.
//!
//! A reading's error has two parts: one that all readings of the instrument share (its setting),
//! and one of its own (feel, seat, surface). The first shifts the size and drops out of taper and
//! out-of-round; the second averages out of the size and stays in them (JCGM 100, 4.2, 5.2).

use uom::si::angle::radian;
use uom::si::f64::{Angle, Length, Ratio};
use uom::si::length::meter;
use uom::si::ratio::ratio;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::range;

/// One diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Diameter {
    /// Where along the part, 0 to 300 mm from its end.
    pub station: Length,
    /// In which direction across it. Told apart only from others at the station.
    pub direction: Angle,
    /// What was read, 2 to 100 mm.
    pub value: Length,
}

/// Standard uncertainties of the instrument.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiameterGauge {
    /// Of the error that all its readings share, 0 to 1 mm.
    pub shared: Length,
    /// Of each reading by itself, 0 to 1 mm.
    pub each: Length,
}

/// A length with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The value.
    pub value: Length,
    /// Its standard uncertainty.
    pub uncertainty: Length,
}

/// The shape of a bore or a land.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// Mean of the stations' means.
    pub mean: Measured,
    /// The smallest reading.
    pub smallest: Length,
    /// The largest reading.
    pub largest: Length,
    /// Largest difference of two directions at one station; none when each station has one.
    pub out_of_round: Option<OutOfRound>,
    /// Change of diameter along the part; none with one station.
    pub taper: Option<Taper>,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// How far from round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutOfRound {
    /// Largest less smallest diameter at the worst station.
    pub difference: Measured,
    /// Where that is.
    pub station: Length,
    /// What that station's readings would differ by, on average, were it perfectly round:
    /// `d2` times the uncertainty of each (d2: mean range of normal samples, ISO 7870-2 and any
    /// table of control charts, from memory). A difference near this says nothing.
    pub by_chance: Length,
}

/// How the diameter changes along the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taper {
    /// Diameter per length, least squares over all readings; positive when it grows with the
    /// station's depth.
    pub slope: Ratio,
    /// Standard uncertainty of the slope.
    pub slope_uncertainty: Ratio,
    /// Slope times the distance from the first to the last station.
    pub over_span: Measured,
}

/// The clearance of a valve in a bore, radial.
#[derive(Debug, Clone, PartialEq)]
pub struct RadialClearance {
    /// From the mean diameters; negative when the valve is the larger.
    pub mean: Measured,
    /// From the smallest bore and the largest valve.
    pub least: Length,
    /// From the largest bore and the smallest valve.
    pub most: Length,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// Mean range of n normal values over their standard deviation, n = 2 to 12.
const D2: [f64; 11] = [
    1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.970, 3.078, 3.173, 3.258,
];

struct Reading {
    station: f64,
    value: f64,
}

/// The shape that `readings` show. Readings within 0.1 mm of depth are one station.
///
/// # Errors
/// [`PhysicsError::TooFew`] without readings; [`PhysicsError::OutOfRange`],
/// [`PhysicsError::NotFinite`].
pub fn shape(readings: &[Diameter], gauge: &DiameterGauge) -> Result<Shape, PhysicsError> {
    if readings.is_empty() {
        return Err(PhysicsError::TooFew {
            field: "bore_readings",
            count: 0,
            least: 1,
        });
    }
    let shared = range::DIAMETER_UNCERTAINTY
        .check_as("instrument_uncertainty_m", gauge.shared.get::<meter>())?;
    let each =
        range::DIAMETER_UNCERTAINTY.check_as("repeatability_m", gauge.each.get::<meter>())?;
    let mut list = Vec::with_capacity(readings.len());
    for r in readings {
        range::within(
            "direction_rad",
            r.direction.get::<radian>(),
            -1e3,
            1e3,
            "rad",
        )?;
        list.push(Reading {
            station: range::STATION_DEPTH.check(r.station.get::<meter>())?,
            value: range::BORE_DIAMETER.check(r.value.get::<meter>())?,
        });
    }
    list.sort_by(|a, b| a.station.total_cmp(&b.station));
    let stations: Vec<&[Reading]> = list
        .chunk_by(|a, b| b.station - a.station <= 1e-4)
        .collect();
    let means: Vec<f64> = stations
        .iter()
        .map(|s| mean(s.iter().map(|r| r.value)))
        .collect();
    // The mean of means weighs a reading by 1 / (stations x readings at its station).
    let own: f64 = stations.iter().map(|s| 1.0 / count(s.len())).sum();
    let own = each * own.sqrt() / count(stations.len());
    let values = || list.iter().map(|r| r.value);
    Ok(Shape {
        mean: measured(mean(means.iter().copied()), shared.hypot(own)),
        smallest: Length::new::<meter>(values().fold(f64::INFINITY, f64::min)),
        largest: Length::new::<meter>(values().fold(0.0, f64::max)),
        out_of_round: out_of_round(&stations, each),
        taper: taper(&list, each),
        assumptions: vec![
            Assumption::RoundBetweenDirections,
            Assumption::GaugeErrorShared,
        ],
    })
}

/// The radial clearance of a valve in a bore, both measured at one temperature. With
/// `same_instrument` the shared error of both is one and the same and drops out (a caliper used on
/// both); else, as with a micrometer and a bore gauge, both count.
///
/// # Errors
/// None for shapes from [`shape`] that were measured with `gauges` in range.
pub fn clearance(
    bore: &Shape,
    valve: &Shape,
    gauges: (&DiameterGauge, &DiameterGauge),
    same_instrument: bool,
) -> Result<RadialClearance, PhysicsError> {
    let check = |g: &DiameterGauge| {
        range::DIAMETER_UNCERTAINTY.check_as("instrument_uncertainty_m", g.shared.get::<meter>())
    };
    let shared = (check(gauges.0)?, check(gauges.1)?);
    let own = |s: &Shape, shared: f64| {
        let u = s.mean.uncertainty.get::<meter>();
        (u * u - shared * shared).max(0.0)
    };
    let mut variance = own(bore, shared.0) + own(valve, shared.1);
    if !same_instrument {
        variance += shared.0 * shared.0 + shared.1 * shared.1;
    }
    let half = |a: Length, b: Length| 0.5 * (a - b);
    Ok(RadialClearance {
        mean: Measured {
            value: half(bore.mean.value, valve.mean.value),
            uncertainty: Length::new::<meter>(0.5 * variance.sqrt()),
        },
        least: half(bore.smallest, valve.largest),
        most: half(bore.largest, valve.smallest),
        assumptions: vec![
            Assumption::RoundBetweenDirections,
            Assumption::GaugeErrorShared,
        ],
    })
}

fn out_of_round(stations: &[&[Reading]], each: f64) -> Option<OutOfRound> {
    let spread = |s: &[Reading]| {
        let low = s.iter().map(|r| r.value).fold(f64::INFINITY, f64::min);
        let high = s.iter().map(|r| r.value).fold(0.0, f64::max);
        high - low
    };
    let worst = stations
        .iter()
        .filter(|s| s.len() > 1)
        .max_by(|a, b| spread(a).total_cmp(&spread(b)))?;
    let chance = D2[(worst.len() - 2).min(D2.len() - 1)] * each;
    Some(OutOfRound {
        difference: measured(spread(worst), each * 2f64.sqrt()),
        station: Length::new::<meter>(mean(worst.iter().map(|r| r.station))),
        by_chance: Length::new::<meter>(chance),
    })
}

fn taper(list: &[Reading], each: f64) -> Option<Taper> {
    let span = list.last()?.station - list.first()?.station;
    if span <= 1e-4 {
        return None;
    }
    let middle = mean(list.iter().map(|r| r.station));
    let level = mean(list.iter().map(|r| r.value));
    let spread: f64 = list.iter().map(|r| (r.station - middle).powi(2)).sum();
    let cross: f64 = list
        .iter()
        .map(|r| (r.station - middle) * (r.value - level))
        .sum();
    let (slope, u) = (cross / spread, each / spread.sqrt());
    Some(Taper {
        slope: Ratio::new::<ratio>(slope),
        slope_uncertainty: Ratio::new::<ratio>(u),
        over_span: measured(slope * span, u * span),
    })
}

fn measured(value: f64, uncertainty: f64) -> Measured {
    Measured {
        value: Length::new::<meter>(value),
        uncertainty: Length::new::<meter>(uncertainty),
    }
}

#[allow(clippy::cast_precision_loss)] // A count of readings.
fn count(n: usize) -> f64 {
    n as f64
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (n, sum) = values.fold((0, 0.0), |(n, sum), x| (n + 1, sum + x));
    sum / count(n)
}
