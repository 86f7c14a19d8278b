//! A metering edge in plain SI, for one oil: groove or window behind one face.

use super::EDGE_DISCHARGE;
use super::port;
use super::window::Shape;
use crate::loss::SeriesLoss;
use std::f64::consts::PI;

/// A metering edge in plain SI, for one oil.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OpeningLaw {
    rest: f64,
    slope: f64,
    uncovers: Uncovers,
}

#[derive(Debug, Clone, Copy)]
enum Uncovers {
    Groove(Groove),
    Window { edge: port::Law, mu: f64, rho: f64 },
}

impl OpeningLaw {
    pub(super) fn groove(
        rest: f64,
        slope: f64,
        clearance: f64,
        perimeter: f64,
        mu: f64,
        rho: f64,
    ) -> Self {
        let groove = Groove {
            clearance2: clearance * clearance,
            perimeter,
            slit: 32.0 * mu / (PI * perimeter),
            film: 12.0 * mu / perimeter,
            jet: rho / (2.0 * (EDGE_DISCHARGE * perimeter).powi(2)),
        };
        Self {
            rest,
            slope,
            uncovers: Uncovers::Groove(groove),
        }
    }

    pub(super) fn window(
        rest: f64,
        slope: f64,
        clearance: f64,
        shape: Shape,
        mu: f64,
        rho: f64,
    ) -> Self {
        let edge = port::Law::sharp(shape, clearance);
        Self {
            rest,
            slope,
            uncovers: Uncovers::Window { edge, mu, rho },
        }
    }

    #[inline]
    pub fn width(&self, x: f64) -> f64 {
        self.rest + self.slope * x
    }

    /// Radial clearance of the land.
    #[inline]
    pub fn clearance(&self) -> f64 {
        match &self.uncovers {
            Uncovers::Groove(groove) => groove.clearance2.sqrt(),
            Uncovers::Window { edge, .. } => edge.clearance(),
        }
    }

    /// The same edge with another radial clearance.
    pub fn with_clearance(mut self, clearance: f64) -> Self {
        match &mut self.uncovers {
            Uncovers::Groove(groove) => groove.clearance2 = clearance * clearance,
            Uncovers::Window { edge, .. } => edge.set_clearance(clearance),
        }
        self
    }

    /// Area that oil passes.
    pub fn area(&self, x: f64) -> f64 {
        let w = self.width(x);
        match &self.uncovers {
            Uncovers::Groove(groove) => groove.perimeter * groove.gap_and_film(w).0,
            Uncovers::Window { edge, .. } => edge.area_at(w),
        }
    }

    #[inline]
    pub fn flow(&self, x: f64, dp: f64) -> f64 {
        let w = self.width(x);
        match &self.uncovers {
            Uncovers::Groove(groove) => groove.flow(w, dp),
            Uncovers::Window { edge, mu, rho } => edge.flow(w, dp, *mu, *rho),
        }
    }

    /// Flow and how it grows with x.
    #[inline]
    pub fn flow_and_slope(&self, x: f64, dp: f64) -> (f64, f64) {
        let (q, with_x, _) = self.flow_and_slopes(x, dp);
        (q, with_x)
    }

    /// Flow, how it grows with x, and how it grows with the drop.
    #[inline]
    pub fn flow_and_slopes(&self, x: f64, dp: f64) -> (f64, f64, f64) {
        let w = self.width(x);
        let (q, with_width, with_drop) = match &self.uncovers {
            Uncovers::Groove(groove) => groove.flow_and_slopes(w, dp),
            Uncovers::Window { edge, mu, rho } => edge.flow_and_slopes(w, dp, *mu, *rho),
        };
        (q, with_width * self.slope, with_drop)
    }
}

/// A groove, or a part of the circumference, for one oil.
#[derive(Debug, Clone, Copy)]
struct Groove {
    clearance2: f64,
    perimeter: f64,
    slit: f64,
    film: f64,
    jet: f64,
}

impl Groove {
    #[inline]
    fn gap_and_film(&self, w: f64) -> (f64, f64) {
        let (open, film, _) = self.shape(w);
        ((open * open + self.clearance2).sqrt(), film)
    }

    /// Open part u, film l and sqrt(w^2 + c^2).
    #[inline]
    fn shape(&self, w: f64) -> (f64, f64, f64) {
        let s = (w * w + self.clearance2).sqrt();
        // Each half without cancellation.
        if w > 0.0 {
            (0.5 * (w + s), 0.5 * self.clearance2 / (w + s), s)
        } else {
            (0.5 * self.clearance2 / (s - w), 0.5 * (s - w), s)
        }
    }

    #[inline]
    fn flow(&self, w: f64, dp: f64) -> f64 {
        let (h, film) = self.gap_and_film(w);
        let r = 1.0 / h;
        let r2 = r * r;
        SeriesLoss {
            linear: self.slit * r2 + self.film * film * r2 * r,
            quadratic: self.jet * r2,
        }
        .flow(dp)
    }

    /// Flow, how it grows with the width, and how it grows with the drop.
    #[inline]
    fn flow_and_slopes(&self, w: f64, dp: f64) -> (f64, f64, f64) {
        let (open, film, s) = self.shape(w);
        let h = (open * open + self.clearance2).sqrt();
        // du/dw = u / s and dl/dw = -l / s.
        let gap_slope = open * open / (s * h);
        let film_slope = -film / s;
        let r = 1.0 / h;
        let (r2, r3) = (r * r, r * r * r);
        let loss = SeriesLoss {
            linear: self.slit * r2 + self.film * film * r3,
            quadratic: self.jet * r2,
        };
        let q = loss.flow(dp);
        let linear_slope = -2.0 * self.slit * r3 * gap_slope
            + self.film * (film_slope * r3 - 3.0 * film * r3 * r * gap_slope);
        let quadratic_slope = -2.0 * self.jet * r3 * gap_slope;
        let size = q.abs();
        let with_drop = loss.slope(q);
        let slope = -(linear_slope + quadratic_slope * size) * q * with_drop;
        (q, slope, with_drop)
    }
}
