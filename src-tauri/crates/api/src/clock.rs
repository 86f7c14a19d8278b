//! The time, which enters from outside so that tests can set it.

use chrono::{DateTime, Local, NaiveDate, Utc};

/// Tells the time.
pub trait Clock: Send + Sync {
    /// Now.
    fn now(&self) -> DateTime<Utc>;

    /// Today, where the user is.
    fn today(&self) -> NaiveDate;
}

/// The device's own clock.
#[derive(Debug, Clone, Copy, Default)]
pub struct SystemClock;

impl Clock for SystemClock {
    fn now(&self) -> DateTime<Utc> {
        Utc::now()
    }

    fn today(&self) -> NaiveDate {
        Local::now().date_naive()
    }
}
