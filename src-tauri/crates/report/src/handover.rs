//! What was agreed in a job and handed over with it, for the report. What a part cost the shop is
//! no part of it: the page may go to the customer.

use model::authorisation::{Authorisation, Covers};
use model::comeback::Comeback;
use model::estimate::{Estimate, Sums};
use model::fitted_part::FittedPart;
use model::sign_off::{OpenItem, SignOff};
use model::warranty::Warranty;

use crate::describe::Recorded;

/// All of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Handover {
    /// The estimate; none: none on record, or its content isn't here.
    pub estimate: Option<EstimateShown>,
    /// What the customer agreed to.
    pub authorisation: AuthorisationShown,
    /// Parts that were fitted.
    pub fitted: Vec<FittedShown>,
    /// The warranty.
    pub warranty: Option<(Warranty, Recorded)>,
    /// The sign-off.
    pub sign_off: Option<SignOffShown>,
    /// What is open now, each with the name of its bore.
    pub open: Vec<OpenShown>,
    /// That the job is a comeback, with the number of the earlier one; empty: it isn't here.
    pub comeback: Option<(Comeback, String, Recorded)>,
}

/// An estimate.
#[derive(Debug, Clone, PartialEq)]
pub struct EstimateShown {
    /// The estimate.
    pub estimate: Estimate,
    /// Its sums.
    pub sums: Sums,
    /// Who and when.
    pub recorded: Recorded,
}

/// What is known of an authorisation, and whether it was asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum AuthorisationShown {
    /// None is on record.
    #[default]
    NotGiven,
    /// One is on record and was left out of this report.
    LeftOut,
    /// One is on record and its content isn't on this device.
    NotHere,
    /// One was erased on request.
    Erased,
    /// It was asked for.
    Shown {
        /// The authorisation.
        given: Box<Authorisation>,
        /// True when the estimate was changed since.
        estimate_changed: bool,
        /// How the estimate lies to it.
        covers: Option<Covers>,
        /// Who and when.
        recorded: Recorded,
    },
}

/// A fitted part.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedShown {
    /// The part.
    pub part: FittedPart,
    /// Name of its bore.
    pub bore: Option<String>,
    /// Who and when.
    pub recorded: Recorded,
}

/// A sign-off.
#[derive(Debug, Clone, PartialEq)]
pub struct SignOffShown {
    /// The sign-off.
    pub sign_off: SignOff,
    /// What was open then.
    pub open: Vec<OpenShown>,
    /// True when something of the job was added, changed or struck out since.
    pub changed_since: bool,
    /// Who and when.
    pub recorded: Recorded,
}

/// Something that is open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenShown {
    /// What.
    pub item: OpenItem,
    /// Name of the bore that it is about; empty where it is about none, or the bore isn't here.
    pub bore: String,
}

impl Handover {
    /// True when nothing was agreed or handed over.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.estimate.is_none()
            && self.authorisation == AuthorisationShown::NotGiven
            && self.fitted.is_empty()
            && self.warranty.is_none()
            && self.sign_off.is_none()
            && self.comeback.is_none()
    }
}
