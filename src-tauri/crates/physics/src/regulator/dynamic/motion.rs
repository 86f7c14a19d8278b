//! What the spool is doing, and the equations while it does.

use super::course::Stretch;
use super::plant::Plant;
use crate::rosenbrock::{Linearised, Stiff};

/// What the spool is doing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Motion {
    /// Moving, or free to move, without dry friction.
    Free,
    /// Sliding toward +x (1) or -x (-1) against dry friction.
    Sliding(f64),
    /// Held by dry friction.
    Stuck,
    /// Held against the open stop.
    OpenStop,
    /// Held against the closed stop.
    ClosedStop,
}

impl Motion {
    /// Whether the spool stands still.
    pub fn stands(self) -> bool {
        matches!(self, Self::Stuck | Self::OpenStop | Self::ClosedStop)
    }
}

/// The plant in one motion, under one stretch of line and demand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Driven<'a, const M: usize> {
    pub plant: &'a Plant,
    pub stretch: &'a Stretch,
    pub motion: Motion,
}

impl<const N: usize, const M: usize> Stiff<N> for Driven<'_, M> {
    #[inline]
    fn rates(&self, t: f64, y: &[f64; N]) -> [f64; N] {
        let (line, demand) = (self.stretch.line(t).0, self.stretch.demand(t).0);
        self.plant.rates(y, line, demand, self.motion)
    }

    #[inline]
    fn linearised(&self, t: f64, y: &[f64; N]) -> Linearised<N> {
        let (line, demand) = (self.stretch.line(t), self.stretch.demand(t));
        self.plant.linearised::<N, M>(y, line, demand, self.motion)
    }
}
