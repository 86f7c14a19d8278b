//! Wall time and the hybrid logical clock.

use serde::{Deserialize, Serialize};

use crate::canonical::MAX_EXACT;
use crate::error::FormatError;

/// What a device's own clock showed, in milliseconds since 1970-01-01T00:00Z. It may be wrong;
/// nothing is refused or ordered because of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(from = "i64", into = "i64")]
pub struct WallTime(i64);

impl WallTime {
    /// From milliseconds since 1970, held within ±(2^53 - 1).
    #[must_use]
    pub const fn from_unix_ms(ms: i64) -> Self {
        if ms > MAX_EXACT {
            Self(MAX_EXACT)
        } else if ms < -MAX_EXACT {
            Self(-MAX_EXACT)
        } else {
            Self(ms)
        }
    }

    /// Milliseconds since 1970.
    #[must_use]
    pub const fn unix_ms(self) -> i64 {
        self.0
    }

    /// Milliseconds since 1970 for use in identifiers and ticks: never negative.
    #[must_use]
    pub const fn unsigned_ms(self) -> u64 {
        if self.0 < 0 { 0 } else { self.0.unsigned_abs() }
    }
}

impl schemars::JsonSchema for WallTime {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "WallTime".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "integer", "minimum": -MAX_EXACT, "maximum": MAX_EXACT
        })
    }
}

impl From<i64> for WallTime {
    fn from(ms: i64) -> Self {
        Self::from_unix_ms(ms)
    }
}

impl From<WallTime> for i64 {
    fn from(time: WallTime) -> Self {
        time.0
    }
}

/// A reading of the hybrid logical clock: greater than every tick that its device had seen.
///
/// Ordered by milliseconds, then counter.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tick {
    // Declared in the order of comparison; the canonical form sorts keys by itself.
    millis: u64,
    counter: u32,
}

impl Tick {
    /// The greatest tick that can be written.
    pub const MAX: Self = Self {
        millis: MAX_EXACT.unsigned_abs(),
        counter: u32::MAX,
    };

    /// A tick from its parts; milliseconds at most 2^53 - 1.
    ///
    /// # Errors
    /// [`FormatError::Range`] above that.
    pub const fn new(millis: u64, counter: u32) -> Result<Self, FormatError> {
        if millis > Self::MAX.millis {
            return Err(FormatError::Range { field: "clock" });
        }
        Ok(Self { millis, counter })
    }

    /// Its wall part, in milliseconds since 1970.
    #[must_use]
    pub const fn millis(self) -> u64 {
        self.millis
    }

    /// Its counter, which tells apart ticks of one wall part.
    #[must_use]
    pub const fn counter(self) -> u32 {
        self.counter
    }

    const fn next(self) -> Self {
        if self.counter < u32::MAX {
            Self {
                millis: self.millis,
                counter: self.counter + 1,
            }
        } else if self.millis < Self::MAX.millis {
            Self {
                millis: self.millis + 1,
                counter: 0,
            }
        } else {
            // A hostile record may carry the greatest tick. We stay there: ties fall to device
            // and id, and replacing never depends on the clock (see `fold`).
            self
        }
    }
}

/// A hybrid logical clock: follows the wall clock, never goes back, and never falls behind a
/// tick that it has seen (Kulkarni et al., "Logical Physical Clocks", OPODIS 2014, in a form
/// that keeps one tick instead of two).
///
/// ```
/// use journal::{HybridClock, Tick, WallTime};
/// let mut clock = HybridClock::default();
/// let first = clock.tick(WallTime::from_unix_ms(1_000));
/// let second = clock.tick(WallTime::from_unix_ms(400)); // the wall clock was set back
/// assert!(second > first);
/// ```
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct HybridClock {
    last: Tick,
}

impl HybridClock {
    /// A clock that has shown or seen `last`.
    #[must_use]
    pub const fn resume(last: Tick) -> Self {
        Self { last }
    }

    /// The last tick shown or seen.
    #[must_use]
    pub const fn last(self) -> Tick {
        self.last
    }

    /// A new tick, greater than all before it.
    pub fn tick(&mut self, wall: WallTime) -> Tick {
        let wall = wall.unsigned_ms();
        self.last = if wall > self.last.millis {
            Tick {
                millis: wall,
                counter: 0,
            }
        } else {
            self.last.next()
        };
        self.last
    }

    /// Takes note of a tick from elsewhere.
    pub fn observe(&mut self, seen: Tick) {
        self.last = self.last.max(seen);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_tick_follows_what_was_seen() {
        let mut clock = HybridClock::default();
        clock.observe(Tick::new(5_000, 7).unwrap());
        assert_eq!(
            clock.tick(WallTime::from_unix_ms(10)),
            Tick::new(5_000, 8).unwrap()
        );
        assert_eq!(
            clock.tick(WallTime::from_unix_ms(6_000)),
            Tick::new(6_000, 0).unwrap()
        );
    }

    #[test]
    fn the_counter_carries_into_the_milliseconds() {
        let mut clock = HybridClock::resume(Tick::new(9, u32::MAX).unwrap());
        assert_eq!(
            clock.tick(WallTime::from_unix_ms(3)),
            Tick::new(10, 0).unwrap()
        );
    }

    #[test]
    fn the_greatest_tick_stops_nobody() {
        let mut clock = HybridClock::resume(Tick::MAX);
        assert_eq!(clock.tick(WallTime::from_unix_ms(i64::MAX)), Tick::MAX);
    }

    proptest! {
        #[test]
        fn ticks_only_grow(walls in prop::collection::vec(any::<i64>(), 1..50)) {
            let mut clock = HybridClock::default();
            let mut last = clock.last();
            for wall in walls {
                let tick = clock.tick(WallTime::from_unix_ms(wall));
                prop_assert!(tick > last || tick == Tick::MAX);
                last = tick;
            }
        }
    }
}
