//! Axes with round steps.

/// From values to places along one axis.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scale {
    low: f64,
    high: f64,
    from: f64,
    to: f64,
}

impl Scale {
    /// An axis that holds all values, widened to round ends, from place `from` to place `to`.
    pub fn around(values: impl IntoIterator<Item = f64>, from: f64, to: f64) -> Self {
        let mut low = f64::INFINITY;
        let mut high = f64::NEG_INFINITY;
        for value in values.into_iter().filter(|value| value.is_finite()) {
            low = low.min(value);
            high = high.max(value);
        }
        if low > high {
            (low, high) = (0.0, 1.0);
        }
        if high - low < 1e-9 * high.abs().max(1.0) {
            (low, high) = (low - 0.5, high + 0.5);
        }
        let step = round_step(high - low);
        Self {
            low: (low / step).floor() * step,
            high: (high / step).ceil() * step,
            from,
            to,
        }
    }

    /// The same, but it ends with the largest value: what is drawn reaches the end of the axis.
    pub fn up_to(values: impl IntoIterator<Item = f64> + Clone, from: f64, to: f64) -> Self {
        let high = values.clone().into_iter().fold(f64::NEG_INFINITY, f64::max);
        let mut scale = Self::around(values, from, to);
        if high.is_finite() && high > scale.low {
            scale.high = high;
        }
        scale
    }

    /// The place of a value.
    pub fn place(&self, value: f64) -> f64 {
        self.from + (value - self.low) / (self.high - self.low) * (self.to - self.from)
    }

    /// Round values along it, and the decimals that tell them apart.
    pub fn ticks(&self) -> (Vec<f64>, i32) {
        let step = round_step(self.high - self.low);
        // The ends were rounded by the step of what is drawn, which may be another: 30 is no end
        // of steps of 20.
        let first = (self.low / step - 1e-6).ceil();
        let count = ((self.high / step + 1e-6).floor() - first).clamp(0.0, 20.0) as u32;
        let ticks = (0..=count)
            // Nought has no sign.
            .map(|i| (first + f64::from(i)) * step + 0.0)
            .collect();
        let decimals = (-step.log10().floor()).clamp(0.0, 6.0) as i32;
        (ticks, decimals)
    }
}

/// 1, 2 or 5 times a power of ten, about five to a range.
fn round_step(range: f64) -> f64 {
    let raw = range / 5.0;
    let size = 10f64.powf(raw.log10().floor());
    let head = raw / size;
    let nice = if head < 1.5 {
        1.0
    } else if head < 3.5 {
        2.0
    } else if head < 7.5 {
        5.0
    } else {
        10.0
    };
    nice * size
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_whole_steps() {
        let pressure = Scale::around([36.0, 109.0], 300.0, 20.0);
        assert_eq!(pressure.ticks().0, [40.0, 60.0, 80.0, 100.0]);
        let line = Scale::up_to([76.0, 250.0], 0.0, 400.0);
        assert_eq!(line.ticks().0, [100.0, 150.0, 200.0, 250.0]);
        let around_nought = Scale::around([-0.9, 2.1], 0.0, 10.0);
        let (ticks, _) = around_nought.ticks();
        assert_eq!(ticks, [-1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.0, 2.5]);
        assert!(
            ticks
                .iter()
                .all(|tick| *tick != 0.0 || tick.is_sign_positive())
        );
    }

    #[test]
    fn ends_are_round_and_values_lie_between_them() {
        let scale = Scale::around([61.3, 128.4], 300.0, 20.0);
        let (ticks, decimals) = scale.ticks();
        assert_eq!((ticks.first(), ticks.last()), (Some(&60.0), Some(&130.0)));
        assert_eq!(decimals, 0);
        assert!(scale.place(61.3) < 300.0 && scale.place(128.4) > 20.0);
        let flat = Scale::around([5.0, 5.0], 0.0, 10.0);
        assert!((flat.place(5.0) - 5.0).abs() < 1e-9);
        assert!(Scale::around([], 0.0, 1.0).place(0.5).is_finite());
    }
}
