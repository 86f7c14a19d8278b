//! Looking at a file without taking it in.
//!
//! The file is opened as a store of its own, by the way by which any bundle comes into a store, and
//! read by the very code that shows the shop's own jobs. This store lies in a file without a name
//! and goes when nobody looks any more; the shop's is only asked whom it knows. So nothing of the
//! file can come into the shop by looking, whoever signed it or nobody.

use std::sync::Arc;

use bundle::{Courier, Looked, Reader};
use journal::{AttachmentHash, SubjectId};
use model::Kind;
use model::job::Job;
use model::person::Shop;
use model::unit::Unit;
use store::{Setup, Store};

use super::exchange::{Maker, THINGS, refused, signers};
use super::inside::Inside;
use super::job::count;
use super::{audit, handover, inspection, job, job_list, oil_check, photo};
use super::{relief, repair, shop, tap, test};
use crate::dto::{
    BundleUnknown, FilePiece, JobListArgs, LeftOutPart, LookBore, LookFile, LookHistory, LookJob,
    LookJobs, LookOilCheck, LookPhoto, LookRepair, LookTest, LookedBore, LookedCourier, LookedFile,
    LookedHandover, LookedHistory, LookedJob, LookedJobs, LookedOilCheck, LookedPlan, LookedProof,
    LookedRelief, LookedRepair, LookedTaps, LookedTest, LookedThings, Nothing,
};
use crate::error::{ApiError, ErrorCode};
use crate::files::Opened;
use crate::journal_io::{kind_name, lead, moment, standing, subject};
use crate::table::DONE;
use crate::{App, ModelProjector};

/// A file that is being looked at.
pub(crate) struct Looking {
    file: u32,
    store: Store,
    about: LookedFile,
    /// The file itself, for its pictures.
    bundle: Looked<Opened>,
}

impl Looking {
    fn proof(&self) -> LookedProof {
        self.about.proof.clone()
    }

    /// Whether the file has this picture.
    fn has(&self, picture: AttachmentHash) -> bool {
        self.bundle.attachments().contains_key(picture.as_bytes())
    }
}

/// What a file that is looked at is.
pub(crate) fn file(app: &App, args: LookFile) -> Result<LookedFile, ApiError> {
    looking(app, args.file, |looking| Ok(looking.about.clone()))
}

/// The jobs in it.
pub(crate) fn jobs(app: &App, args: LookJobs) -> Result<LookedJobs, ApiError> {
    looking(app, args.file, |looking| {
        let page = JobListArgs {
            skip: args.skip,
            limit: args.limit,
            ..JobListArgs::default()
        };
        Ok(LookedJobs {
            list: job_list::list_of(&looking.store, page)?,
            proof: looking.proof(),
        })
    })
}

/// One job in it.
pub(crate) fn job(app: &App, args: LookJob) -> Result<LookedJob, ApiError> {
    looking(app, args.file, |looking| {
        let store = &looking.store;
        let view = job::view(store, args.job)?;
        let of = subject(args.job);
        let mut left_out = Vec::new();
        for (kind, part, name) in [
            (Kind::JobVehicle, LeftOutPart::Vehicle, "vehicle"),
            (Kind::JobComplaint, LeftOutPart::Complaint, "complaint"),
            (Kind::JobNotes, LeftOutPart::Notes, "notes"),
            (Kind::JobCustomer, LeftOutPart::Customer, "customer"),
        ] {
            let stands = standing(store, of, kind)?;
            let empty = stands.lead().is_some_and(|record| record.body().is_none());
            let erased = view.erased.iter().any(|gone| gone.part == name);
            left_out.extend((empty && !erased).then_some(part));
        }
        let unit: Option<Unit> = lead(store, subject(view.job.unit), Kind::Unit)?;
        let inspections = store.children(of, &kind_name(Kind::Inspection))?;
        Ok(LookedJob {
            proof: looking.proof(),
            left_out,
            unit_known: unit.is_some(),
            inspections: count(inspections.len()),
            photos: photo::entries(store, args.job, |picture| Ok(looking.has(picture)))?,
            machining_sheets: count(store.children(of, &kind_name(Kind::Machining))?.len()),
            view,
        })
    })
}

/// One vacuum test in it.
pub(crate) fn test(app: &App, args: LookTest) -> Result<LookedTest, ApiError> {
    looking(app, args.file, |looking| {
        Ok(LookedTest {
            view: test::view(app, &looking.store, args.test, None)?,
            proof: looking.proof(),
        })
    })
}

/// One repair in it.
pub(crate) fn repair(app: &App, args: LookRepair) -> Result<LookedRepair, ApiError> {
    looking(app, args.file, |looking| {
        let store = &looking.store;
        Ok(LookedRepair {
            view: repair::recorded(app, store, args.job, args.bore, args.repair)?,
            proof: looking.proof(),
        })
    })
}

/// The inspection of one job in it: its plan and its checks.
pub(crate) fn plan(app: &App, args: LookJob) -> Result<LookedPlan, ApiError> {
    looking(app, args.file, |looking| {
        Ok(LookedPlan {
            view: inspection::plan_view(app, &looking.store, args.job)?,
            instruments: inspection::instruments(app, &looking.store)?,
            proof: looking.proof(),
        })
    })
}

/// The card of one bore in it.
pub(crate) fn bore(app: &App, args: LookBore) -> Result<LookedBore, ApiError> {
    looking(app, args.file, |looking| {
        Ok(LookedBore {
            view: inspection::card_view(app, &looking.store, args.job, args.bore)?,
            proof: looking.proof(),
        })
    })
}

/// The relief of one bore in it.
pub(crate) fn relief(app: &App, args: LookBore) -> Result<LookedRelief, ApiError> {
    looking(app, args.file, |looking| {
        Ok(LookedRelief {
            view: relief::view(app, &looking.store, args.job, args.bore, None)?,
            proof: looking.proof(),
        })
    })
}

/// What was read at the taps in one job of it.
pub(crate) fn taps(app: &App, args: LookJob) -> Result<LookedTaps, ApiError> {
    looking(app, args.file, |looking| {
        Ok(LookedTaps {
            view: tap::view(app, &looking.store, args.job)?,
            proof: looking.proof(),
        })
    })
}

/// One hot-oil check in it.
pub(crate) fn oil_check(app: &App, args: LookOilCheck) -> Result<LookedOilCheck, ApiError> {
    looking(app, args.file, |looking| {
        let (store, check) = (&looking.store, Some(args.oil_check));
        Ok(LookedOilCheck {
            view: oil_check::view(app, store, args.job, args.bore, check, None)?,
            proof: looking.proof(),
        })
    })
}

/// What is agreed in one job of it.
pub(crate) fn handover(app: &App, args: LookJob) -> Result<LookedHandover, ApiError> {
    looking(app, args.file, |looking| {
        Ok(LookedHandover {
            view: handover::view(&looking.store, args.job)?,
            proof: looking.proof(),
        })
    })
}

/// What was ever recorded about something in it.
pub(crate) fn history(app: &App, args: LookHistory) -> Result<LookedHistory, ApiError> {
    looking(app, args.file, |looking| {
        Ok(LookedHistory {
            view: audit::history_view(&looking.store, args.subject)?,
            proof: looking.proof(),
        })
    })
}

/// One piece of a photo's picture or thumbnail, under the conditions of one that is kept here: the
/// bytes that its hash names, a JPEG file with no longer an edge than one that was made here. How
/// long its file may be is bounded by what was read within ([`bundle::Limits`]).
pub(crate) fn photo(app: &App, args: LookPhoto) -> Result<FilePiece, ApiError> {
    looking(app, args.file, |looking| {
        let picture = photo::file_of(&looking.store, args.photo, args.size)?;
        let bytes = looking.bundle.attachment(picture.as_bytes());
        let bytes = bytes.map_err(refused(&looking.about.proof.name))?;
        let bytes = bytes.ok_or_else(|| ApiError::new(ErrorCode::PictureMissing))?;
        let bytes = photo::shown(bytes)?;
        Ok(photo::piece(&bytes, args.from))
    })
}

/// Ends looking at a file. It can still be taken in, or looked at again.
pub(crate) fn close(app: &App, args: LookFile) -> Result<Nothing, ApiError> {
    end(app, args.file);
    Ok(DONE)
}

/// As [`close`], wherever a file goes.
pub(crate) fn end(app: &App, file: u32) {
    let mut slot = app.looking();
    if slot.as_ref().is_some_and(|looking| looking.file == file) {
        *slot = None;
    }
}

/// Shows something of a file, which is opened first unless it was the last one looked at. One at a
/// time is held.
fn looking<T>(
    app: &App,
    file: u32,
    show: impl FnOnce(&Looking) -> Result<T, ApiError>,
) -> Result<T, ApiError> {
    let mut slot = app.looking();
    if slot.as_ref().is_none_or(|looking| looking.file != file) {
        // What was looked at before goes first, also if this one can't be opened.
        *slot = None;
        *slot = Some(open(app, file)?);
    }
    let Some(looking) = &*slot else {
        return Err(ApiError::new(ErrorCode::LookClosed));
    };
    // What isn't in it may well be elsewhere.
    show(looking).map_err(|error| match error.code {
        ErrorCode::NotFound => ApiError {
            code: ErrorCode::LookIncomplete,
            ..error
        },
        _ => error,
    })
}

fn open(app: &App, file: u32) -> Result<Looking, ApiError> {
    let held = app.files().content(file);
    let (name, content) = held.map_err(|_| ApiError::new(ErrorCode::LookClosed))?;
    let read = Reader::default().look(content.open());
    let bundle = read.map_err(refused(&name))?;
    let mut inside = Inside::default();
    let setup = Setup::new(Arc::new(ModelProjector));
    let (store, applied) = bundle.store(setup, |item, signed| inside.look_at(item, signed))?;
    let unknown = applied
        .unknown
        .iter()
        .map(|((kind, version), records)| BundleUnknown {
            kind: kind.as_str().to_owned(),
            version: *version,
            records: count(*records),
        })
        .collect();
    let about = LookedFile {
        unknown,
        ..about(app, name, &bundle, &inside, &store)?
    };
    Ok(Looking {
        file,
        store,
        about,
        bundle,
    })
}

fn about(
    app: &App,
    name: String,
    bundle: &Looked<Opened>,
    inside: &Inside,
    looked: &Store,
) -> Result<LookedFile, ApiError> {
    let manifest = bundle.manifest();
    let signatures = bundle.signatures();
    let (courier, key) = match signatures.courier {
        Courier::Signed(key) => (LookedCourier::Signed, Some(key.device())),
        Courier::Misfit => (LookedCourier::Misfit, None),
        Courier::Unsigned => (LookedCourier::Unsigned, None),
    };
    let here = app.store()?;
    let maker = Maker {
        courier: key,
        manifest,
    };
    let signers = signers(&here, &maker, inside, true)?;
    let made_by = inside.person(&here, SubjectId::from(manifest.author))?;
    drop(here);
    let mut doubts: Vec<_> = Vec::new();
    for doubt in signers.iter().flat_map(|signer| &signer.doubts) {
        if !doubts.contains(doubt) {
            doubts.push(*doubt);
        }
    }
    let mut things = Vec::new();
    for kind in THINGS {
        let all = inside.subjects_of(kind);
        if !all.is_empty() {
            things.push(LookedThings {
                kind: kind.name().to_owned(),
                count: count(all.len()),
            });
        }
    }
    let mut tests_without_job = 0;
    for &of in inside.subjects_of(Kind::Test) {
        let job = looked.parent(of)?;
        let known = job.map(|job| lead::<Job>(looked, job, Kind::Job));
        tests_without_job += usize::from(known.transpose()?.flatten().is_none());
    }
    let (withheld, withheld_text) = inside.withheld();
    let pictured = |hash: &AttachmentHash| bundle.attachments().contains_key(hash.as_bytes());
    let photos = inside
        .photos()
        .filter(|named| named.iter().any(pictured))
        .count();
    let jobs = job_list::list_of(
        looked,
        JobListArgs {
            limit: Some(0),
            ..JobListArgs::default()
        },
    )?;
    Ok(LookedFile {
        proof: LookedProof {
            name,
            courier,
            misfit_actions: long(signatures.misfit_commits),
            unsigned_records: long(signatures.unsigned_records),
            acceptable: signatures.hold(),
            strangers: count(signers.iter().filter(|signer| signer.stranger).count()),
            doubts,
        },
        shop: shop::all::<Shop>(looked, Kind::Shop)?
            .into_iter()
            .next()
            .map(|(_, shop)| shop.name)
            .unwrap_or_default(),
        made_by,
        made_on: manifest.device.to_string(),
        made_at: moment(manifest.created),
        signers,
        records: long(manifest.counts.records),
        personal: count(inside.personal()),
        withheld: count(withheld - withheld_text),
        withheld_text: count(withheld_text),
        photos: count(photos),
        photo_bytes: bundle.attachments().values().sum(),
        jobs: jobs.found,
        tests_without_job: count(tests_without_job),
        things,
        unknown: Vec::new(),
    })
}

fn long(n: u64) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
