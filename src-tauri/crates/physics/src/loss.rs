//! Pressure loss laws with a creeping and an inertial limit, in plain SI numbers.
//!
//! Both are odd, strictly monotonic and differentiable everywhere, and both are solved for the
//! flow without iterating. `linear` is dp / Q in creeping flow (Pa s/m3), `quadratic` is
//! dp / Q^2 at high Reynolds number (Pa s2/m6).

/// Friction and inertia losses of a passage, one after the other: dp = a Q + b Q |Q|.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SeriesLoss {
    pub linear: f64,
    pub quadratic: f64,
}

impl SeriesLoss {
    /// Flow at the pressure drop `dp`.
    #[inline]
    pub fn flow(self, dp: f64) -> f64 {
        if dp == 0.0 {
            return 0.0;
        }
        let a = self.linear;
        2.0 * dp / (a + (a * a + 4.0 * self.quadratic * dp.abs()).sqrt())
    }

    /// Pressure drop at the flow `q`.
    #[inline]
    pub fn drop(self, q: f64) -> f64 {
        (self.linear + self.quadratic * q.abs()) * q
    }

    /// How the flow grows with the drop, where the flow is `q`.
    #[inline]
    pub fn slope(self, q: f64) -> f64 {
        1.0 / (self.linear + 2.0 * self.quadratic * q.abs())
    }
}

/// A sharp edge, where the change from creeping to inertial flow is quicker than a sum makes it:
/// dp^2 = (a Q)^2 + (b Q^2)^2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct EdgeLoss {
    pub linear: f64,
    pub quadratic: f64,
}

impl EdgeLoss {
    /// Flow at the pressure drop `dp`.
    #[inline]
    pub fn flow(self, dp: f64) -> f64 {
        if dp == 0.0 {
            return 0.0;
        }
        let a2 = self.linear * self.linear;
        let b = 2.0 * self.quadratic * dp;
        dp * (2.0 / (a2 + (a2 * a2 + b * b).sqrt())).sqrt()
    }

    /// Pressure drop at the flow `q`.
    #[inline]
    pub fn drop(self, q: f64) -> f64 {
        let a = self.linear;
        let b = self.quadratic * q;
        (a * a + b * b).sqrt() * q
    }

    /// How the flow grows with the drop, where the flow is `q`.
    #[inline]
    pub fn slope(self, q: f64) -> f64 {
        let a2 = self.linear * self.linear;
        let b2 = self.quadratic * self.quadratic * q * q;
        (a2 + b2).sqrt() / (a2 + 2.0 * b2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn flow_and_drop_undo_each_other(
            a in 1e6..1e16f64, b in 1e10..1e22f64, dp in -1e7..1e7f64,
        ) {
            let series = SeriesLoss { linear: a, quadratic: b };
            let edge = EdgeLoss { linear: a, quadratic: b };
            assert_relative_eq!(series.drop(series.flow(dp)), dp, max_relative = 1e-12);
            assert_relative_eq!(edge.drop(edge.flow(dp)), dp, max_relative = 1e-12);
            assert_relative_eq!(series.flow(-dp), -series.flow(dp));
            assert_relative_eq!(edge.flow(-dp), -edge.flow(dp));
        }

        #[test]
        fn slopes_are_those_of_the_values(
            a in 1e6..1e16f64, b in 1e10..1e22f64, dp in 1.0..1e7f64,
        ) {
            let series = SeriesLoss { linear: a, quadratic: b };
            let edge = EdgeLoss { linear: a, quadratic: b };
            let e = 1e-5 * dp;
            let numeric = |flow: &dyn Fn(f64) -> f64| (flow(dp + e) - flow(dp - e)) / (2.0 * e);
            assert_relative_eq!(
                series.slope(series.flow(dp)), numeric(&|p| series.flow(p)), max_relative = 1e-7
            );
            assert_relative_eq!(
                edge.slope(edge.flow(dp)), numeric(&|p| edge.flow(p)), max_relative = 1e-7
            );
        }
    }
}
