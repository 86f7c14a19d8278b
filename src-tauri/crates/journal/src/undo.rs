//! "Undo last" and "redo": which records to strike out next.
//!
//! Undo concerns one device's own commits. Undoing a commit is a new commit with a void for each
//! of its records that is not struck out already; redoing is a new commit with voids of
//! those voids. Both are computed from the journal, so they survive a restart. A later edit ends
//! what could be redone.

use std::collections::HashSet;

use crate::commit::Action;
use crate::id::CommitId;

/// One commit of this device, as far as undo needs it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Deed {
    /// The commit.
    pub id: CommitId,
    /// What the user did.
    pub action: Action,
}

/// The commit that "undo last" would take back: the newest edit that is neither undone nor
/// without effect.
///
/// `newest_first` are this device's own commits; `has_effect` tells whether a commit has a record
/// that is not voided, and is asked only where it matters.
///
/// # Errors
/// Whatever the two sources give.
pub fn undo_candidate<E>(
    newest_first: impl IntoIterator<Item = Result<Deed, E>>,
    mut has_effect: impl FnMut(CommitId) -> Result<bool, E>,
) -> Result<Option<CommitId>, E> {
    let (mut undone, mut redone) = (HashSet::new(), HashSet::new());
    for deed in newest_first {
        let Deed { id, action } = deed?;
        match action {
            Action::Redo(undo) => {
                redone.insert(undo);
            }
            Action::Undo(edit) => {
                if !redone.contains(&id) {
                    undone.insert(edit);
                }
            }
            Action::Edit => {
                if !undone.contains(&id) && has_effect(id)? {
                    return Ok(Some(id));
                }
            }
        }
    }
    Ok(None)
}

/// The undo that "redo" would take back: the newest one not redone, unless an edit was made
/// since. Arguments and errors as for [`undo_candidate`].
///
/// # Errors
/// Whatever the two sources give.
pub fn redo_candidate<E>(
    newest_first: impl IntoIterator<Item = Result<Deed, E>>,
    mut has_effect: impl FnMut(CommitId) -> Result<bool, E>,
) -> Result<Option<CommitId>, E> {
    let mut redone = HashSet::new();
    for deed in newest_first {
        let Deed { id, action } = deed?;
        match action {
            Action::Redo(undo) => {
                redone.insert(undo);
            }
            Action::Undo(_) => {
                if !redone.contains(&id) && has_effect(id)? {
                    return Ok(Some(id));
                }
            }
            Action::Edit => return Ok(None),
        }
    }
    Ok(None)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::convert::Infallible;

    fn id(n: u8) -> CommitId {
        CommitId::from_bytes([n; 16])
    }

    fn newest_first(deeds: &[Deed]) -> impl Iterator<Item = Result<Deed, Infallible>> {
        deeds.iter().rev().copied().map(Ok)
    }

    fn undo(deeds: &[Deed]) -> Option<CommitId> {
        undo_candidate(newest_first(deeds), |_| Ok(true)).unwrap()
    }

    fn redo(deeds: &[Deed]) -> Option<CommitId> {
        redo_candidate(newest_first(deeds), |_| Ok(true)).unwrap()
    }

    #[test]
    fn an_edit_that_someone_struck_out_is_skipped() {
        let deeds = [1, 2].map(|n| {
            Ok::<_, Infallible>(Deed {
                id: id(n),
                action: Action::Edit,
            })
        });
        let found = undo_candidate(deeds.into_iter().rev(), |commit| Ok(commit == id(1)));
        assert_eq!(found, Ok(Some(id(1))));
    }

    #[test]
    fn an_error_from_the_journal_is_passed_on() {
        let deeds = [Ok(Deed {
            id: id(1),
            action: Action::Edit,
        })];
        assert_eq!(undo_candidate(deeds, |_| Err("locked")), Err("locked"));
    }

    proptest! {
        /// Against the usual pair of stacks.
        #[test]
        fn it_does_what_two_stacks_would(presses in prop::collection::vec(0..3_u8, 0..60)) {
            let mut deeds = Vec::new();
            let (mut done, mut undone): (Vec<CommitId>, Vec<(CommitId, CommitId)>) =
                (vec![], vec![]);
            for (n, press) in presses.into_iter().enumerate() {
                let this = id(u8::try_from(n).unwrap());
                prop_assert_eq!(undo(&deeds), done.last().copied());
                prop_assert_eq!(redo(&deeds), undone.last().map(|&(_, undo)| undo));
                match press {
                    0 => {
                        done.push(this);
                        undone.clear();
                        deeds.push(Deed { id: this, action: Action::Edit });
                    }
                    1 => if let Some(edit) = done.pop() {
                        undone.push((edit, this));
                        deeds.push(Deed { id: this, action: Action::Undo(edit) });
                    },
                    _ => if let Some((edit, undo)) = undone.pop() {
                        done.push(edit);
                        deeds.push(Deed { id: this, action: Action::Redo(undo) });
                    },
                }
            }
        }
    }
}
