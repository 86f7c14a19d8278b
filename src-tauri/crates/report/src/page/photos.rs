//! The photos of the job, each with what it shows, when it was taken and by whom.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use maud::{Markup, html};

use super::piece::{moment_of, recorded};
use crate::describe::{PhotoShown, Report};
use crate::text::{Said, line};

/// Nothing without any.
pub(super) fn section(report: &Report) -> Markup {
    html! {
        @if !report.photos.is_empty() || report.photos_left_out > 0 {
            section class="photos" {
                h2 { "Photos" }
                div class="sheet" {
                    @for photo in &report.photos { (figure(photo)) }
                }
                @match report.photos_left_out {
                    0 => {},
                    1 => p { "One photo that may show a person or a plate was left out of this report because it wasn’t asked for." },
                    n => p { (n) " photos that may show a person or a plate were left out of this report because they weren’t asked for." },
                }
            }
        }
    }
}

fn figure(photo: &PhotoShown) -> Markup {
    let caption = photo.caption.trim();
    let bore = photo.bore.as_deref();
    let alternative = match (caption, bore) {
        ("", None) => "Photo of the job, without a caption".to_owned(),
        ("", Some(bore)) => format!("Photo of {}, without a caption", line(bore)),
        (caption, _) => line(caption),
    };
    html! {
        figure class="photo" {
            @match &photo.picture {
                Some(picture) => img
                    alt=(alternative) width=(picture.width_px) height=(picture.height_px)
                    src={ "data:image/jpeg;base64," (STANDARD.encode(&picture.jpeg)) };,
                None => p class="refusal" { "The picture isn’t on the device that made this report." },
            }
            figcaption {
                @if !caption.is_empty() { strong { (Said(caption)) } br; }
                @if let Some(bore) = bore { "Bore " (Said(bore)) ". " }
                "Taken " span class="when" { (moment_of(&photo.taken_at)) } "; "
                (recorded(&photo.recorded))
            }
        }
    }
}
