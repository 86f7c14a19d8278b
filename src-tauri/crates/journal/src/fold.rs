//! What stands: the fold of one subject's records.
//!
//! The fold is a function of the *set* of envelopes. It sorts them first, so the order of arrival
//! and repetition can't matter, and it reads no body, so a withheld body can't matter either.
//!
//! # Rules
//! 1. An *edge* leads from a record to each record of the same subject that it names in
//!    `supersedes`. A void's edge strikes out; any other record's edge replaces, and counts only
//!    between records of one kind.
//! 2. An edge that lies on a cycle doesn't count. An honest author can only name records that
//!    exist already, so an honest edge is never on a cycle that hostile records could not have
//!    made without it; a forged cycle takes away nothing but its own edges. Clocks are not
//!    consulted: an edit beats what its author saw whatever the clocks say, and a record with an
//!    absurdly late clock can still be replaced.
//! 3. A record is *voided* if a void that is not itself voided strikes it out.
//! 4. A record is *replaced* if one that is not voided reaches it along replacing edges, through
//!    voided records too.
//! 5. The rest stand. They are sorted by clock, then device, then id, and the last one leads. More
//!    than one on a register is a concurrent edit, to be shown with all its values. On a
//!    kind that only adds, each stands for itself. If any record of a removing kind stands, the
//!    subject is removed, whatever was edited beside it.

use std::collections::{BTreeMap, HashMap};

use crate::clock::Tick;
use crate::envelope::Record;
use crate::id::{DeviceId, EnvelopeHash, RecordId};
use crate::kind::Kind;

/// How the records of a kind come together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FoldRule {
    /// One value; a later one replaces it. Two that don't know of each other are a finding.
    Register,
    /// Each record is a thing of its own, such as a reading.
    Addition,
    /// The subject is removed while one of these stands. Beats concurrent edits.
    Removal,
}

/// What has become of a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fate {
    /// In effect. For a void: it strikes out its target.
    Stands,
    /// A record that stands, or did when it was voided, says something newer.
    Replaced,
    /// Struck out.
    Voided,
}

/// The order among records: clock, then device, then id. The hash tells apart two envelopes that
/// a faulty or hostile device gave one id.
#[must_use]
pub fn sort_key(record: &Record) -> (Tick, DeviceId, RecordId, EnvelopeHash) {
    let envelope = record.envelope();
    (envelope.clock, envelope.device, envelope.id, record.hash())
}

/// The records of one kind that stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heads<'a> {
    /// In order, at least one; the last leads.
    pub records: Vec<&'a Record>,
    /// How they come together.
    pub rule: FoldRule,
}

impl Heads<'_> {
    /// Whether people wrote different values without knowing of each other.
    #[must_use]
    pub fn concurrent(&self) -> bool {
        self.rule == FoldRule::Register && self.records.len() > 1
    }
}

/// The fold of one subject.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fold<'a> {
    history: Vec<(&'a Record, Fate)>,
    heads: BTreeMap<&'a Kind, Heads<'a>>,
    removed: bool,
}

impl<'a> Fold<'a> {
    /// Every record, voids included, in order, with its fate.
    #[must_use]
    pub fn history(&self) -> &[(&'a Record, Fate)] {
        &self.history
    }

    /// What stands, by kind. Voids are not among them.
    #[must_use]
    pub const fn heads(&self) -> &BTreeMap<&'a Kind, Heads<'a>> {
        &self.heads
    }

    /// Whether the subject is removed.
    #[must_use]
    pub const fn removed(&self) -> bool {
        self.removed
    }

    /// The fate of a record; if its id was given twice, of the one that fares best.
    #[must_use]
    pub fn fate(&self, id: RecordId) -> Option<Fate> {
        let rank = |fate: &Fate| match fate {
            Fate::Stands => 0,
            Fate::Replaced => 1,
            Fate::Voided => 2,
        };
        self.history
            .iter()
            .filter(|(r, _)| r.id() == id)
            .map(|&(_, fate)| fate)
            .min_by_key(rank)
    }
}

/// Folds the records of one subject, in any order, repeated or not; `rule` tells how each kind
/// comes together. Time grows as n log n with the number of records and edges.
pub fn fold<'a>(
    records: impl IntoIterator<Item = &'a Record>,
    rule: impl Fn(&Kind) -> FoldRule,
) -> Fold<'a> {
    let mut records: Vec<&Record> = records.into_iter().collect();
    records.sort_by_cached_key(|record| sort_key(record));
    records.dedup_by_key(|record| record.hash());

    let edges = edges(&records);
    let component = components(&edges);
    // From the sources of edges to their targets: whatever touches a record is settled first.
    let mut order: Vec<usize> = (0..records.len()).collect();
    order.sort_unstable_by_key(|&node| std::cmp::Reverse(component[node]));
    let mut voided = vec![false; records.len()];
    let mut replaced = vec![false; records.len()];
    for from in order {
        let is_void = records[from].envelope().kind == Kind::VOID;
        for &to in edges[from]
            .iter()
            .filter(|&&to| component[to] != component[from])
        {
            if is_void {
                voided[to] |= !voided[from];
            } else {
                replaced[to] |= !voided[from] || replaced[from];
            }
        }
    }

    let mut heads: BTreeMap<&Kind, Heads> = BTreeMap::new();
    let mut history = Vec::with_capacity(records.len());
    for (node, &record) in records.iter().enumerate() {
        let fate = match (voided[node], replaced[node]) {
            (true, _) => Fate::Voided,
            (false, true) => Fate::Replaced,
            (false, false) => Fate::Stands,
        };
        history.push((record, fate));
        let kind = &record.envelope().kind;
        if fate == Fate::Stands && *kind != Kind::VOID {
            heads
                .entry(kind)
                .or_insert_with(|| Heads {
                    records: Vec::new(),
                    rule: rule(kind),
                })
                .records
                .push(record);
        }
    }
    let removed = heads.values().any(|heads| heads.rule == FoldRule::Removal);
    Fold {
        history,
        heads,
        removed,
    }
}

/// Rule 1: for each record, the places of those that it names.
fn edges(records: &[&Record]) -> Vec<Vec<usize>> {
    let mut places: HashMap<RecordId, Vec<usize>> = HashMap::new();
    for (place, record) in records.iter().enumerate() {
        places.entry(record.id()).or_default().push(place);
    }
    let counts = |from: &Record, to: &Record| {
        let (from, to) = (from.envelope(), to.envelope());
        from.subject == to.subject && (from.kind == Kind::VOID || from.kind == to.kind)
    };
    let targets = |from: &Record| {
        let named = from
            .envelope()
            .supersedes
            .iter()
            .filter_map(|id| places.get(id));
        named
            .flatten()
            .copied()
            .filter(|&to| counts(from, records[to]))
            .collect()
    };
    records.iter().map(|record| targets(record)).collect()
}

/// Rule 2: the strongly connected component of each node, numbered so that an edge between two
/// components leads to the lower number. Tarjan's algorithm (R. Tarjan, "Depth-first search and
/// linear graph algorithms", SIAM J. Comput. 1, 1972) without recursion, as a chain of edits may
/// be long.
fn components(edges: &[Vec<usize>]) -> Vec<usize> {
    const UNSEEN: usize = usize::MAX;
    let mut index = vec![UNSEEN; edges.len()];
    let mut low = vec![0; edges.len()];
    let mut component = vec![UNSEEN; edges.len()];
    let mut open = Vec::new();
    let (mut next_index, mut next_component) = (0, 0);
    for root in 0..edges.len() {
        let mut path = if index[root] == UNSEEN {
            vec![(root, 0)]
        } else {
            Vec::new()
        };
        while let Some((node, done)) = path.pop() {
            if done == 0 {
                index[node] = next_index;
                low[node] = next_index;
                next_index += 1;
                open.push(node);
            }
            if let Some(&to) = edges[node].get(done) {
                path.push((node, done + 1));
                if index[to] == UNSEEN {
                    path.push((to, 0));
                } else if component[to] == UNSEEN {
                    low[node] = low[node].min(index[to]);
                }
                continue;
            }
            if low[node] == index[node] {
                while let Some(member) = open.pop() {
                    component[member] = next_component;
                    if member == node {
                        break;
                    }
                }
                next_component += 1;
            }
            if let Some(&(parent, _)) = path.last() {
                low[parent] = low[parent].min(low[node]);
            }
        }
    }
    component
}
