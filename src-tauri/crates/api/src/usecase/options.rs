//! The repair options of a bore in a job, from everything that is on record about it.

use diagnosis::options::{LastTest, OptionEvidence, options};
use model::job::Job;
use model::relief_check::ReliefPresence;
use model::shop_part::ShopPart;
use model::unit::Bore;
use model::{Id, Kind};
use store::Store;

use crate::dto::{OptionsList, OptionsView};
use crate::error::ApiError;
use crate::journal_io::{need, subject};
use crate::usecase::audit::undo_state;
use crate::usecase::inspection::measured_of;
use crate::usecase::job::{count, hazards, tests_of_bore};
use crate::usecase::shop::all;
use crate::usecase::test::with_judged;
use crate::{App, profiles, repairs};

/// Every way out, side by side.
pub(crate) fn list(app: &App, args: OptionsList) -> Result<OptionsView, ApiError> {
    let store = app.store()?;
    let job: Job = need(&store, subject(args.job), Kind::Job)?;
    let bore: Bore = need(&store, subject(args.bore), Kind::Bore)?;
    let parts = all::<ShopPart>(&store, Kind::ShopPart)?;
    let at_hand = parts.iter().filter(|(_, part)| {
        !part.withdrawn && part.bore.is_none_or(|made_for| made_for == args.bore)
    });
    let offered = count(at_hand.count());
    let (test, told) = with_evidence(app, &store, &args, options)?;
    let told = told.map_err(ApiError::internal)?;
    Ok(OptionsView {
        job: args.job,
        job_number: job.number,
        bore: args.bore,
        bore_name: bore.name,
        test,
        parts: offered,
        options: told,
        hazards: hazards(&store, subject(args.job))?,
        undo: undo_state(&store)?,
    })
}

/// Everything on record that the options of a bore are worked out from, and the test among it.
pub(crate) fn with_evidence<T>(
    app: &App,
    store: &Store,
    args: &OptionsList,
    then: impl FnOnce(&OptionEvidence<'_>) -> T,
) -> Result<(Option<Id>, T), ApiError> {
    let as_new = profiles::bore(store, args.bore)?;
    let done = repairs::of_bore(store, args.job, args.bore)?;
    let now = repairs::profile_after(store, args.job, args.bore, &done)?;
    let inspected = measured_of(app, store, args.job, args.bore)?;
    let relief = repairs::relief_check(store, args.job, args.bore)?
        .map(|check| check.body.figures)
        .filter(|figures| figures.presence == ReliefPresence::ToBeAdded);
    let parts = all::<ShopPart>(store, Kind::ShopPart)?;
    let test = last_test(app, store, args.job, args.bore, &done)?;
    let with = |test: Option<LastTest<'_>>| {
        then(&OptionEvidence {
            as_new: &as_new,
            now: &now,
            measured: &inspected.parts,
            deepest_mark: inspected.deepest_mark,
            spring_height_m: inspected.spring_height_m,
            test,
            relief: relief.as_ref(),
            parts: &parts,
            figures: &args.figures,
        })
    };
    let told = match test {
        None => with(None),
        Some(test) => with_judged(app, store, test, |evidence, judgement, seals| {
            with(Some(LastTest {
                evidence,
                judgement,
                seals,
            }))
        })?,
    };
    Ok((test, told))
}

/// The last test since the last repair that knows its leak, or else the last with a reading.
fn last_test(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    done: &[repairs::Recorded<model::repair::Repair>],
) -> Result<Option<Id>, ApiError> {
    let mut read = None;
    for entry in tests_of_bore(store, job, bore)?.into_iter().rev() {
        let before = |repair: &repairs::Recorded<model::repair::Repair>| {
            repair.body.tests_before.contains(&entry.test)
        };
        if entry.readings == 0 || done.iter().any(before) {
            continue;
        }
        let knows = with_judged(app, store, entry.test, |_, _, seals| seals.is_some())?;
        if knows {
            return Ok(Some(entry.test));
        }
        read = read.or(Some(entry.test));
    }
    Ok(read)
}
