//! A window or notch metered by a land with clearance: area, its derivative, and flow, open or
//! covered, with sharp or rounded edges.
//!
//! **Edges.** Land and port edge are rounded to a radius r each (0: sharp). The centres of the two
//! roundings lie w + R apart along the bore and c + R across it, R = 2 r, so the gap between the
//! metals is `h = hypot(w + R, c + R) - R` while w > -R, and the clearance c before that
//! (geometry; for sharp edges the `sqrt(x^2 + c^2)` of Merritt, *Hydraulic Control Systems*, ch. 5).
//! Rounding thus acts like a longer opening and a shorter overlap. Near null w + R is replaced by
//! the smooth `u = (W + sqrt(W^2 + c^2)) / 2`, W = w + R, and the film's length is `l = u - W`, as
//! in [`crate::opening`].
//!
//! **Area.** The sharp opening with the same gap, `v = sqrt(h^2 - c^2)`, gives area A(v) and width
//! b of the window; clearance adds in quadrature, `sqrt(A^2 + (c b)^2)`, never more than the whole
//! window. For an annular slot that is B h exactly.
//!
//! **Flow.** What passes the open part is a jet with Cd = 0.611 behind the creeping resistance of a
//! slit of that area; what passes the film is its laminar flow behind the same losses over c times
//! the window's greatest width. Both grow with w; they are added in quadrature, so each stands
//! alone where the other is small, and flow never stops, jumps or falls. For an annular slot that is
//! the quadrature of opening and clearance again; for other windows the blend is ours.

use std::f64::consts::PI;

use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Pressure, VolumeRate};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::loss::SeriesLoss;
use crate::opening::EDGE_DISCHARGE;
use crate::opening::window::{Shape, Window};
use crate::range;

/// A window and the land that meters it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Port {
    /// The window's shape.
    pub window: Window,
    /// Radial clearance of the land in its bore, 0.1 µm to 1 mm.
    pub radial_clearance: Length,
    /// Radius of the land's edge and of the window's, each; 0 (sharp) to 1 mm.
    pub edge_radius: Length,
}

/// What a port leaves open.
#[derive(Debug, Clone, PartialEq)]
pub struct PortArea {
    /// Area that oil passes; never zero, for the clearance stays.
    pub area: Area,
    /// How it grows with the signed width, dA/dw; never negative.
    pub slope: Length,
    /// The gap between the metals at the edge.
    pub gap: Length,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// What a port passes.
#[derive(Debug, Clone, PartialEq)]
pub struct PortFlow {
    /// The flow; its sign is that of the drop.
    pub flow: VolumeRate,
    /// The part that would pass the film alone.
    pub film: VolumeRate,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// A window and its land in plain SI.
#[derive(Debug, Clone, Copy)]
pub(super) struct Law {
    shape: Shape,
    c: f64,
    rounding: f64,
}

/// Gap h, sharp opening v, film length l, and the derivatives of v and l to w.
struct Edge {
    h: f64,
    v: f64,
    v_slope: f64,
    l: f64,
    l_slope: f64,
}

impl Port {
    /// Area, and its derivative, at the signed `width` (-50 to 50 mm; negative is overlap).
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] for a round-ended slot shorter
    /// than its end.
    pub fn area_at(&self, width: Length) -> Result<PortArea, PhysicsError> {
        let law = self.law()?;
        let edge = law.edge(range::OPENING_WIDTH.check(width.get::<meter>())?);
        let (area, slope) = law.area(&edge);
        Ok(PortArea {
            area: Area::new::<square_meter>(area),
            slope: Length::new::<meter>(slope),
            gap: Length::new::<meter>(edge.h),
            assumptions: self.assumptions(false),
        })
    }

    /// Area of the whole window; none for an annular slot, which has no far end here.
    ///
    /// # Errors
    /// As [`Port::area_at`].
    pub fn full_area(&self) -> Result<Option<Area>, PhysicsError> {
        Ok(self.law()?.shape.full().map(Area::new::<square_meter>))
    }

    /// Flow at the signed `width` under `drop` (up to 10 MPa either way).
    ///
    /// # Errors
    /// As [`Port::area_at`].
    pub fn flow(
        &self,
        width: Length,
        drop: Pressure,
        oil: &OilState,
    ) -> Result<PortFlow, PhysicsError> {
        let (mu, rho) = oil.si()?;
        let law = self.law()?;
        let edge = law.edge(range::OPENING_WIDTH.check(width.get::<meter>())?);
        let dp = range::PRESSURE_DROP.check(drop.get::<pascal>())?;
        let film = law.film(&edge, mu, rho).flow(dp);
        let open = law.open(&edge, mu, rho).map_or(0.0, |loss| loss.flow(dp));
        let mut assumptions = self.assumptions(width.get::<meter>() < 0.0);
        if oil.extrapolated {
            assumptions.push(Assumption::ViscosityExtrapolated);
        }
        Ok(PortFlow {
            flow: VolumeRate::new::<cubic_meter_per_second>(open.hypot(film).copysign(dp)),
            film: VolumeRate::new::<cubic_meter_per_second>(film),
            assumptions,
        })
    }

    fn law(&self) -> Result<Law, PhysicsError> {
        Ok(Law {
            shape: self.window.shape()?,
            c: range::RADIAL_CLEARANCE.check(self.radial_clearance.get::<meter>())?,
            rounding: 2.0 * range::EDGE_RADIUS.check(self.edge_radius.get::<meter>())?,
        })
    }

    fn assumptions(&self, covered: bool) -> Vec<Assumption> {
        let mut list = Vec::new();
        if self.edge_radius.get::<meter>() > 0.0 {
            list.push(Assumption::EdgesRoundedAlike);
        } else {
            list.push(Assumption::SquareLands);
        }
        if !matches!(self.window, Window::AnnularSlot { .. }) {
            list.push(Assumption::WindowUnrolled);
            if covered {
                list.push(Assumption::CoveredWindowFilm);
            }
        }
        list
    }
}

impl Law {
    /// Edges without rounding.
    pub(super) fn sharp(shape: Shape, clearance: f64) -> Self {
        Self {
            shape,
            c: clearance,
            rounding: 0.0,
        }
    }

    pub(super) fn clearance(&self) -> f64 {
        self.c
    }

    pub(super) fn set_clearance(&mut self, clearance: f64) {
        self.c = clearance;
    }

    /// Area that oil passes at a signed width.
    pub(super) fn area_at(&self, width: f64) -> f64 {
        self.area(&self.edge(width)).0
    }

    /// Flow at a signed width.
    #[inline]
    pub(super) fn flow(&self, width: f64, dp: f64, mu: f64, rho: f64) -> f64 {
        let edge = self.edge(width);
        let film = self.film(&edge, mu, rho).flow(dp);
        let open = self.open(&edge, mu, rho).map_or(0.0, |loss| loss.flow(dp));
        open.hypot(film).copysign(dp)
    }

    /// Flow at a signed width, how it grows with that, and how it grows with the drop.
    #[inline]
    pub(super) fn flow_and_slopes(
        &self,
        width: f64,
        dp: f64,
        mu: f64,
        rho: f64,
    ) -> (f64, f64, f64) {
        let edge = self.edge(width);
        let loss = self.film(&edge, mu, rho);
        let film = loss.flow(dp);
        let with_drop = loss.slope(film);
        // Only the film's length moves with the edge.
        let s = self.shape.film(edge.l);
        let linear = -12.0 * mu / (self.c.powi(3) * s * s) * self.shape.film_slope(edge.l);
        let with_width = -linear * edge.l_slope * film * with_drop;
        let film = [film, with_width, with_drop];
        let open = self.open(&edge, mu, rho).map_or([0.0; 3], |loss| {
            let q = loss.flow(dp);
            let with_drop = loss.slope(q);
            let (area, b) = self.shape.area_and_width(edge.v);
            let widest = self.shape.widest(edge.v);
            let narrows = 2.0 * b / area;
            let widens = self.shape.half_square_slope(edge.v) / (widest * widest);
            let lost = loss.linear * (widens - narrows) - loss.quadratic * narrows * q.abs();
            [q, -lost * edge.v_slope * q * with_drop, with_drop]
        });
        let size = open[0].hypot(film[0]);
        let q = size.copysign(dp);
        if size > 0.0 {
            let part = |i: usize| (open[0] * open[i] + film[0] * film[i]) / q;
            (q, part(1), part(2))
        } else {
            // No drop: both flows start in proportion to it.
            (q, 0.0, open[2].hypot(film[2]))
        }
    }

    fn edge(&self, width: f64) -> Edge {
        let (c, rounding) = (self.c, self.rounding);
        let w = width + rounding;
        let s = w.hypot(c);
        // Each half without cancellation.
        let (u, l) = if w > 0.0 {
            (0.5 * (w + s), 0.5 * c * c / (w + s))
        } else {
            (0.5 * c * c / (s - w), 0.5 * (s - w))
        };
        let across = c + rounding;
        let span = u.hypot(across);
        // h - c = span - (c + R), again without cancellation.
        let h = c + u * u / (span + across);
        let stretch = ((h + c) / (span + across)).sqrt();
        Edge {
            h,
            v: u * stretch,
            // dv/du times du/dw.
            v_slope: h / span / stretch * (u / s),
            l,
            l_slope: -l / s,
        }
    }

    fn area(&self, edge: &Edge) -> (f64, f64) {
        let (a, b) = self.shape.area_and_width(edge.v);
        let wet = self.c * self.shape.widest(edge.v);
        let area = a.hypot(wet);
        if let Some(full) = self.shape.full()
            && area >= full
        {
            return (full, 0.0);
        }
        // d(b^2)/dv / 2 of the widest part so far.
        let spread = self.shape.half_square_slope(edge.v);
        let slope = (a * b + self.c * self.c * spread) / area * edge.v_slope;
        (area, slope)
    }

    fn open(&self, edge: &Edge, mu: f64, rho: f64) -> Option<SeriesLoss> {
        let (area, _) = self.shape.area_and_width(edge.v);
        let width = self.shape.widest(edge.v);
        let r2 = 1.0 / (area * area);
        // An opening of nothing passes nothing.
        r2.is_finite().then_some(SeriesLoss {
            linear: 32.0 * mu * width / PI * r2,
            quadratic: rho * r2 / (2.0 * EDGE_DISCHARGE * EDGE_DISCHARGE),
        })
    }

    fn film(&self, edge: &Edge, mu: f64, rho: f64) -> SeriesLoss {
        let c = self.c;
        let width = self.shape.widest(self.shape.length());
        SeriesLoss {
            linear: mu
                * (32.0 / (PI * width * c * c) + 12.0 / (c.powi(3) * self.shape.film(edge.l))),
            quadratic: rho / (2.0 * (EDGE_DISCHARGE * c * width).powi(2)),
        }
    }
}

#[cfg(test)]
#[path = "port_tests.rs"]
mod tests;
