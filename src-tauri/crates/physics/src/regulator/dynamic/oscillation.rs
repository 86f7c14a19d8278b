//! Does the circuit swing by itself?

use nalgebra::{DMatrix, DVector};
use uom::si::f64::{Frequency, Pressure};
use uom::si::frequency::hertz;
use uom::si::pressure::pascal;

/// Swinging of feed in the tail of a transient, the pump's ripple and its harmonics taken off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Oscillation {
    /// None that stands out of the solver's own error.
    None,
    /// It dies away.
    Dying,
    /// It lasts: a limit cycle.
    Lasting {
        /// Swings a second.
        frequency: Frequency,
        /// Crest to trough.
        peak_to_peak: Pressure,
    },
    /// It still grows when the transient ends.
    Growing {
        /// Swings a second.
        frequency: Frequency,
        /// Crest to trough, so far.
        peak_to_peak: Pressure,
    },
    /// The tail is too short to tell: fewer than three swings, or under 32 points.
    TooShort,
}

impl Oscillation {
    /// Whether the circuit swings by itself.
    #[must_use]
    pub fn swings(self) -> bool {
        matches!(self, Self::Lasting { .. } | Self::Growing { .. })
    }
}

fn span(values: &[f64]) -> f64 {
    let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let low = values.iter().copied().fold(f64::INFINITY, f64::min);
    if values.is_empty() { 0.0 } else { high - low }
}

/// Judges `feed` (evenly spaced by `dt`); `ripple` is its frequency, 0 for none; swings below
/// `noise` count as none.
pub(super) fn judge(feed: &[f64], dt: f64, ripple: f64, noise: f64) -> Oscillation {
    if feed.len() < 32 {
        return Oscillation::TooShort;
    }
    let rest = without_ripple(feed, dt, ripple);
    let (first, second) = rest.split_at(rest.len() / 2);
    let (early, late) = (span(first), span(second));
    if late <= noise && early <= noise {
        return Oscillation::None;
    }
    let Some((swings, frequency)) = upward_crossings(&rest, 0.1 * late, dt) else {
        // It drifts, or swings too slowly to be seen twice.
        return if late < 0.9 * early {
            Oscillation::Dying
        } else {
            Oscillation::TooShort
        };
    };
    let frequency = Frequency::new::<hertz>(frequency);
    let peak_to_peak = Pressure::new::<pascal>(late);
    if late < 0.95 * early || late <= noise {
        Oscillation::Dying
    } else if swings < 3 {
        Oscillation::TooShort
    } else if late > 1.05 * early {
        Oscillation::Growing {
            frequency,
            peak_to_peak,
        }
    } else {
        Oscillation::Lasting {
            frequency,
            peak_to_peak,
        }
    }
}

/// Whole swings and how many a second, counted where the signal rises through zero after having
/// been below `-dead`. None for fewer than one.
fn upward_crossings(signal: &[f64], dead: f64, dt: f64) -> Option<(usize, f64)> {
    let (mut armed, mut moments) = (false, Vec::new());
    let mut at = 0.0;
    for pair in signal.windows(2) {
        if pair[0] < -dead {
            armed = true;
        }
        if armed && pair[0] < 0.0 && pair[1] >= 0.0 {
            moments.push(at + dt * pair[0] / (pair[0] - pair[1]));
            armed = false;
        }
        at += dt;
    }
    let swings = moments.len().checked_sub(1)?;
    let (first, last) = (moments.first()?, moments.last()?);
    let count = f64::from(u32::try_from(swings).ok()?);
    (swings > 0 && last > first).then(|| (swings, count / (last - first)))
}

/// Least squares: mean, and the ripple with its harmonics up to the sixth, taken off.
fn without_ripple(feed: &[f64], dt: f64, ripple: f64) -> Vec<f64> {
    let harmonics = if ripple > 0.0 { 6 } else { 0 };
    let mut base = DMatrix::from_element(feed.len(), 1 + 2 * harmonics, 1.0);
    if harmonics > 0 {
        let mut angle = 0.0;
        for mut row in base.row_iter_mut() {
            let (sin, cos) = f64::sin_cos(angle);
            let (mut s, mut c) = (sin, cos);
            for k in 0..harmonics {
                (row[2 * k + 1], row[2 * k + 2]) = (s, c);
                (s, c) = (s * cos + c * sin, c * cos - s * sin);
            }
            angle += std::f64::consts::TAU * ripple * dt;
        }
    }
    let values = DVector::from_column_slice(feed);
    let normal = base.transpose() * &base;
    let right = base.transpose() * &values;
    let Some(factors) = normal.cholesky() else {
        // Aliased harmonics: only the mean comes off.
        let mean = values.mean();
        return feed.iter().map(|f| f - mean).collect();
    };
    (values - base * factors.solve(&right)).as_slice().to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn signal(f: impl Fn(f64) -> f64) -> Vec<f64> {
        (0..1000).map(|i| f(f64::from(i) * 1e-4)).collect()
    }

    #[test]
    fn swings_are_told_from_ripple_and_from_each_other() {
        let ripple = |t: f64| 1e4 * (942.0 * t).sin() + 3e3 * (1884.0 * t + 1.0).cos();
        let frequency = 942.0 / std::f64::consts::TAU;
        let own = |t: f64| 2e3 * (400.0 * t).sin();
        let only = signal(|t| 7e5 + ripple(t));
        assert_eq!(judge(&only, 1e-4, frequency, 50.0), Oscillation::None);
        let both = signal(|t| 7e5 + ripple(t) + own(t));
        let Oscillation::Lasting {
            frequency: found,
            peak_to_peak,
        } = judge(&both, 1e-4, frequency, 50.0)
        else {
            panic!("{:?}", judge(&both, 1e-4, frequency, 50.0));
        };
        assert!((found.get::<hertz>() - 400.0 / std::f64::consts::TAU).abs() < 0.5);
        assert!((peak_to_peak.get::<pascal>() - 4e3).abs() < 200.0);
        let dying = signal(|t| 7e5 + own(t) * (-30.0 * t).exp());
        assert_eq!(judge(&dying, 1e-4, 0.0, 50.0), Oscillation::Dying);
        let growing = signal(|t| 7e5 + own(t) * (30.0 * t).exp());
        assert!(matches!(
            judge(&growing, 1e-4, 0.0, 50.0),
            Oscillation::Growing { .. }
        ));
    }
}
