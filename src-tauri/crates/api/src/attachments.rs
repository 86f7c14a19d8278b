//! Where the attachments of bundles come from and go to. The store keeps none yet: those that come
//! in are checked and not kept, and none go out.

use bundle::{AttachmentSink, AttachmentSource, NoAttachments};

/// Where those lie that go out.
pub(crate) fn outgoing() -> impl AttachmentSource {
    NoAttachments
}

/// Where those go that come in.
pub(crate) fn incoming() -> impl AttachmentSink {
    NoAttachments
}
