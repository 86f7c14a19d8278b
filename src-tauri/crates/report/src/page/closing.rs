//! Cautions, what the page is not, and what others need to check it.

use diagnosis::PHYSICS_VERSION;
use maud::{Markup, html};

use super::bore::worked_on;
use super::piece::{by, fact, facts, recorded};
use crate::describe::Report;
use crate::text::{Said, line, short};
use crate::words;

/// Who acknowledged which caution, and when.
pub(super) fn cautions(report: &Report) -> Markup {
    html! {
        section class="cautions" {
            h2 { "Cautions of this job" }
            table tabindex="0" {
                caption { "Hazards of the bench, and who acknowledged each" }
                thead {
                    tr {
                        th scope="col" { "Signal word" }
                        th scope="col" { "Hazard" }
                        th scope="col" { "Acknowledged" }
                    }
                }
                tbody {
                    @for caution in &report.cautions {
                        tr {
                            td { span class="signal" { (words::signal(caution.hazard)) } }
                            th scope="row" {
                                (words::hazard_title(caution.hazard)) br;
                                span class="when" { (words::hazard_short(caution.hazard)) }
                            }
                            td {
                                @match &caution.read {
                                    Some(read) => (by(read)),
                                    None => strong { "not acknowledged" },
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What nobody should take the page for.
pub(super) fn not_this(_report: &Report) -> Markup {
    html! {
        section class="not" {
            h2 { "What this document is not" }
            ul {
                li { "It is no service information. The manufacturer’s service information, local rules and trained people decide what is done and what is safe." }
                li { "It allows no part to be run beyond a limit that they set. Where they say otherwise, they are right." }
                li { "Pressures in it are calculated from a vacuum reading and dimensions, unless a reading is given. A road test by trained people decides whether the vehicle works." }
                li { "A relief contains a fault; it doesn’t cure it." }
                li { "A signature of a record says that nothing was altered since, not that a reading was taken well." }
            }
        }
    }
}

/// What others need to check it by.
pub(super) fn checking(report: &Report) -> Markup {
    let rows = html! {
        (fact("Program and physics", format!("Valvewright {}, physics version {PHYSICS_VERSION}", line(&report.program))))
        (fact("Job", html! { span class="id" { (report.job.to_string()) } }))
        @for bore in worked_on(report) {
            (fact("Bore profile", html! {
                (Said(&bore.profile.bore.name)) ": now " span class="id" { (short(&bore.profile.digest())) }
                @for test in &bore.tests {
                    "; test " span class="id" { (crate::text::record(test.id)) } " judged by "
                    span class="id" { (short(&test.judgement.profile_digest)) }
                }
            }))
        }
        (fact("Store when this was made", html! { "digest " span class="id" { (short(&report.store_digest)) } }))
        (fact("Made on the device", html! { span class="id" { (short(&report.device)) } }))
    };
    html! {
        section class="checking" {
            h2 { "For those who check this" }
            p { "The job can be passed on as a file that holds these records with their signatures. A record is named here by the last twelve digits of its id, a digest by its first eight." }
            (facts("Names and digests", rows))
            @if report.withheld.is_empty() {
                p { "Every record of this job has its content on the device that made this report, so nothing was withheld from it"
                    @if matches!(report.customer, crate::describe::Personal::LeftOut) { " but the customer, who was left out" } "." }
            } @else {
                table tabindex="0" {
                    caption { "Records whose content was withheld from this device" }
                    thead { tr { th scope="col" { "Kind" } th scope="col" { "Who, when, record" } } }
                    tbody {
                        @for it in &report.withheld {
                            tr { th scope="row" { (Said(&it.kind)) } td { (recorded(&it.recorded)) } }
                        }
                    }
                }
            }
        }
    }
}

/// The line at the very end.
pub(super) fn foot(report: &Report) -> Markup {
    html! {
        footer {
            p { "Job " (Said(&report.number)) ", end of the report. Made with Valvewright " (line(&report.program)) "." }
        }
    }
}
