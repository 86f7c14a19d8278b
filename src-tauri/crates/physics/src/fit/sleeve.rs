//! Room for a sleeve: the wall that is left, what the reamer takes, and the valve's clearance.
//!
//! Plane geometry. A bore is reamed to the sleeve's outer diameter plus what clearance (or less
//! what interference) its maker wants; it cleans up when the reamer cuts all around, that is when
//! the finished bore is larger than the largest worn diameter.

use uom::si::f64::Length;
use uom::si::length::meter;

use crate::error::PhysicsError;
use crate::range;

/// A sleeve that is to go into a worn bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sleeve {
    /// Smallest diameter of the worn bore, 2 to 100 mm.
    pub bore_smallest: Length,
    /// Largest diameter of the worn bore.
    pub bore_largest: Length,
    /// Diameter to which it will be reamed.
    pub finished_bore: Length,
    /// Outer diameter of the sleeve.
    pub outer_diameter: Length,
    /// Inner diameter of the sleeve, in place.
    pub inner_diameter: Length,
    /// Diameter of the valve that will run in it.
    pub valve_diameter: Length,
    /// Thinnest wall that its maker allows, 0.1 to 20 mm.
    pub minimum_wall: Length,
}

/// What a sleeve leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SleeveRoom {
    /// Wall of the sleeve.
    pub wall: Length,
    /// Wall less the thinnest allowed; negative when too thin.
    pub wall_margin: Length,
    /// Largest inner diameter that the thinnest wall allows.
    pub largest_inner_diameter: Length,
    /// Metal that the reamer takes off the diameter where the bore is smallest.
    pub ream_stock: Length,
    /// What it takes off where the bore is largest; negative when it leaves worn places untouched.
    pub least_stock: Length,
    /// Radial clearance of the sleeve in the reamed bore; negative is interference.
    pub seat_clearance: Length,
    /// Radial clearance of the valve in the sleeve; negative when it won't go in.
    pub valve_clearance: Length,
}

impl SleeveRoom {
    /// Whether the reamer cuts all around.
    #[must_use]
    pub fn cleans_up(&self) -> bool {
        self.least_stock.value > 0.0
    }

    /// Whether the wall is as thick as it must be.
    #[must_use]
    pub fn wall_holds(&self) -> bool {
        self.wall_margin.value >= 0.0
    }
}

impl Sleeve {
    /// Wall, stock and clearances.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`], also for a reamer that would take off more than 2 mm;
    /// [`PhysicsError::Contradiction`] for a bore whose largest diameter is below its smallest, a
    /// finished bore below the smallest, or a sleeve with no wall.
    pub fn room(&self) -> Result<SleeveRoom, PhysicsError> {
        let check = |field, l: Length| range::BORE_DIAMETER.check_as(field, l.get::<meter>());
        let smallest = check("smallest_bore_m", self.bore_smallest)?;
        let largest = check("largest_bore_m", self.bore_largest)?;
        let finished = check("finished_bore_m", self.finished_bore)?;
        let outer = check("outer_diameter_m", self.outer_diameter)?;
        let inner = check("inner_diameter_m", self.inner_diameter)?;
        let valve = check("valve_diameter_m", self.valve_diameter)?;
        let thinnest = range::WALL.check_as("minimum_wall_m", self.minimum_wall.get::<meter>())?;
        let contradiction = |field, other| Err(PhysicsError::Contradiction { field, other });
        if largest < smallest {
            return contradiction("largest_bore_m", "smallest_bore_m");
        }
        if finished < smallest {
            return contradiction("finished_bore_m", "smallest_bore_m");
        }
        if inner >= outer {
            return contradiction("inner_diameter_m", "outer_diameter_m");
        }
        let stock = range::REAM_STOCK.check(finished - smallest)?;
        let wall = 0.5 * (outer - inner);
        let m = Length::new::<meter>;
        Ok(SleeveRoom {
            wall: m(wall),
            wall_margin: m(wall - thinnest),
            largest_inner_diameter: m((outer - 2.0 * thinnest).max(0.0)),
            ream_stock: m(stock),
            least_stock: m(finished - largest),
            seat_clearance: m(0.5 * (finished - outer)),
            valve_clearance: m(0.5 * (inner - valve)),
        })
    }
}
