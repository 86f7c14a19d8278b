//! Least squares in two unknowns, the second not below zero.

/// Normal equations of the logarithm of the pull and of the scaled hose resistance, from the
/// derivatives of the residuals and the residuals.
#[derive(Default, Clone, Copy)]
pub(super) struct Normal {
    aa: f64,
    ab: f64,
    bb: f64,
    ar: f64,
    br: f64,
}

impl Normal {
    pub(super) fn add(&mut self, a: f64, b: f64, r: f64) {
        self.aa += a * a;
        self.ab += a * b;
        self.bb += b * b;
        self.ar += a * r;
        self.br += b * r;
    }

    /// A damped step; the hose stays where it is when it sits at zero and would go below.
    pub(super) fn step(&self, damping: f64, with_hose: bool, hose: f64) -> (f64, f64) {
        let alone = (
            -self.ar / (self.aa * (1.0 + damping)).max(f64::MIN_POSITIVE),
            0.0,
        );
        if !with_hose || self.bb <= 1e-12 * self.aa {
            return alone;
        }
        let (aa, bb) = (self.aa * (1.0 + damping), self.bb * (1.0 + damping));
        let det = aa * bb - self.ab * self.ab;
        let step_hose = (self.ab * self.ar - aa * self.br) / det;
        if hose + step_hose <= 0.0 {
            return if hose > 0.0 {
                (-(self.ar - self.ab * hose) / aa, -hose)
            } else {
                alone
            };
        }
        ((self.ab * self.br - bb * self.ar) / det, step_hose)
    }

    /// Diagonal of the inverse: variances per unit variance of a reading.
    pub(super) fn inverse_diagonal(&self, both: bool) -> (f64, f64) {
        if !both {
            return (1.0 / self.aa, 0.0);
        }
        let det = self.aa * self.bb - self.ab * self.ab;
        (self.bb / det, self.aa / det)
    }

    /// Condition number of the Jacobian: root of the ratio of the eigenvalues.
    pub(super) fn condition(&self, both: bool) -> f64 {
        if !both {
            return 1.0;
        }
        let half_trace = 0.5 * (self.aa + self.bb);
        let root = (half_trace * half_trace - (self.aa * self.bb - self.ab * self.ab))
            .max(0.0)
            .sqrt();
        ((half_trace + root) / (half_trace - root)).abs().sqrt()
    }
}
