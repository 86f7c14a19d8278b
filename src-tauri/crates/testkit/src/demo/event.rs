//! What happens in the shop.

use chrono::{DateTime, Utc};

use super::source::{
    OilCheckSource, RecordSource, SheetSource, SignOffSource, Source, TapSource, TestSource,
};

/// One thing that happens.
pub(super) enum Event<'a> {
    Record(&'a RecordSource),
    Test(&'a TestSource),
    PutRight(&'a TestSource),
    Tap(&'a TapSource),
    OilCheck(&'a OilCheckSource),
    Sheet(&'a SheetSource),
    SheetSigned(&'a SheetSource),
    SignOff(&'a SignOffSource),
    Away(&'a str),
    Back(&'a str),
}

impl<'a> Event<'a> {
    /// Everything that the sources tell, in no order of time.
    pub fn of(all: &'a Source) -> Vec<(DateTime<Utc>, Self)> {
        let mut found = Vec::new();
        found.extend(all.record.iter().map(|it| (it.at, Self::Record(it))));
        for test in &all.test {
            found.push((test.at, Self::Test(test)));
            if let Some(slipped) = &test.slipped {
                found.push((slipped.struck_at, Self::PutRight(test)));
            }
        }
        found.extend(all.tap_reading.iter().map(|it| (it.at, Self::Tap(it))));
        found.extend(all.oil_check.iter().map(|it| (it.at, Self::OilCheck(it))));
        for sheet in &all.sheet {
            found.push((sheet.at, Self::Sheet(sheet)));
            found.push((sheet.signed_at, Self::SheetSigned(sheet)));
        }
        found.extend(all.sign_off.iter().map(|it| (it.at, Self::SignOff(it))));
        for away in &all.away {
            found.push((away.from, Self::Away(&away.who)));
            found.push((away.until, Self::Back(&away.who)));
        }
        found
    }
}
